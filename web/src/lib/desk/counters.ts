// The plates in the head of the page.

export interface Counter {
  /** Names the plate for whoever cannot see where it stands: "length of v1". */
  readonly of: string;
  /** Number and unit in turn: 37 ft 60 fr. */
  readonly parts: readonly { readonly count: string; readonly unit: string }[];
  /** The lines of its sum, opened by a click. */
  readonly sum?: readonly string[];
}
