// The plates in the head of the page.
import type { SumLine } from '$lib/film/sums';

export interface Counter {
  /** Names the plate for whoever cannot see where it stands: "length of v1". */
  readonly of: string;
  /** Numbers and words in the order they are read: 37 ft 60 fr. */
  readonly parts: readonly ({ readonly count: string } | { readonly words: string })[];
  /** The lines of its sum, opened by a click. */
  readonly sum?: readonly SumLine[];
}
