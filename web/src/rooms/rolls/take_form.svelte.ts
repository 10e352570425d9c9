// The card of one take while it is written on: what stood there, what is typed,
// and what another window has written meanwhile. Typed words are never lost.
import type { Problem, Take, TakeWords } from '$lib/api/wire';

export type Rating = 'none' | 'circled' | 'hold' | 'ng';

/** The lines of the card, as text. */
export interface Lines {
  readonly setup: string;
  readonly take: string;
  readonly rating: Rating;
  readonly size: string;
  readonly camera_move: string;
  readonly direction: string;
  readonly action: string;
  readonly note: string;
}

export type LineName = keyof Lines;

const NAMES: readonly LineName[] = [
  'setup',
  'take',
  'rating',
  'size',
  'camera_move',
  'direction',
  'action',
  'note',
];

const NOTHING: Lines = {
  setup: '',
  take: '',
  rating: 'none',
  size: '',
  camera_move: '',
  direction: '',
  action: '',
  note: '',
};

function ratingOf(word: string | undefined): Rating {
  return word === 'circled' || word === 'hold' || word === 'ng' ? word : 'none';
}

/** What a take says, line by line. */
export function linesOf(take: Take): Lines {
  return {
    setup: take.setup ?? '',
    take: take.take ? String(take.take) : '',
    rating: ratingOf(take.rating),
    size: take.size ?? '',
    camera_move: take.camera_move ?? '',
    direction: take.direction ?? '',
    action: take.action ?? '',
    note: take.note ?? '',
  };
}

/** The lines in which two cards differ. */
export function differing(a: Lines, b: Lines): LineName[] {
  return NAMES.filter((name) => a[name].trim() !== b[name].trim());
}

/** Which take a card is of. */
export interface CardOf {
  readonly roll: string;
  readonly first: number;
}

export class TakeForm {
  /** What stood there when the card was taken up, or was kept last. */
  base = $state.raw<Lines>(NOTHING);
  /** What stands there now. */
  typed = $state.raw<Lines>(NOTHING);
  /** What another window has written meanwhile, while our words differ. */
  theirs = $state.raw<Lines | null>(null);
  /** The revision of the log that the card was filled from. */
  seen = $state(0);
  /** Why it could not be kept, other than that another window was faster. */
  problem = $state.raw<Problem | null>(null);
  /** Being kept: what comes back meanwhile is our own. */
  sending = $state(false);

  /** @param of the take that the card is of. */
  constructor(
    readonly of: CardOf,
    take: Take,
    revision: number,
  ) {
    this.base = this.typed = linesOf(take);
    this.seen = revision;
  }

  readonly changed: readonly LineName[] = $derived.by(() => differing(this.base, this.typed));

  /** Lines that differ between what is typed and what another window has written. */
  readonly disputed: readonly LineName[] = $derived.by(() =>
    this.theirs ? differing(this.typed, this.theirs) : [],
  );

  get isDirty(): boolean {
    return this.changed.length > 0;
  }

  write(name: LineName, words: string): void {
    const value = name === 'rating' ? ratingOf(words) : words;
    this.typed = { ...this.typed, [name]: value };
  }

  /** The log has come anew: what is not ours is taken over, a dispute is said. */
  seeAgain(take: Take, revision: number): void {
    if (this.sending || revision <= this.seen) return;
    const now = linesOf(take);
    if (differing(this.base, now).length === 0) {
      // Something else of the roll was changed, not this take.
      this.seen = revision;
    } else if (!this.isDirty || differing(this.typed, now).length === 0) {
      this.base = this.typed = now;
      this.theirs = null;
      this.seen = revision;
    } else {
      this.theirs = now;
    }
  }

  /** The server says that another window was faster; `take` is what stands there. */
  refusedAsStale(take: Take, revision: number): void {
    const now = linesOf(take);
    this.seen = Math.max(this.seen, revision);
    this.base = now;
    this.theirs = differing(this.typed, now).length > 0 ? now : null;
  }

  /** Our words stay; they are kept over theirs at the next keeping. */
  keepMine(revision: number): void {
    if (this.theirs) this.base = this.theirs;
    this.theirs = null;
    this.seen = Math.max(this.seen, revision);
  }

  /** Their words stand; ours are put away. */
  takeTheirs(revision: number): void {
    if (this.theirs) this.base = this.typed = this.theirs;
    this.theirs = null;
    this.seen = Math.max(this.seen, revision);
  }

  /** Esc: what stood there stands there again. */
  putBack(): void {
    this.typed = this.theirs ?? this.base;
    this.base = this.typed;
    this.theirs = null;
    this.problem = null;
  }

  /** What was sent is on the disk, as the server wrote it; what was typed since stays typed. */
  kept(sent: Lines, take: Take, revision: number): void {
    const now = linesOf(take);
    let typed = now;
    for (const name of differing(sent, this.typed)) {
      typed = { ...typed, [name]: this.typed[name] };
    }
    this.typed = typed;
    this.base = now;
    this.theirs = null;
    this.seen = Math.max(this.seen, revision);
  }

  /** What is wrong with the slate; null when it can be kept. */
  get slateProblem(): string | null {
    const [setup, take] = [this.typed.setup.trim(), this.typed.take.trim()];
    if (setup === '' && take === '') return null;
    if (setup === '') return 'Say the scene and letter too, such as 3A.';
    if (take === '') return 'Say the number of the take too.';
    if (!/^[1-9]\d{0,2}$/.test(take)) return 'A take has a number from 1 to 999.';
    return null;
  }

  /** What is to be kept; null while the slate is half written. */
  get words(): TakeWords | null {
    if (this.slateProblem !== null) return null;
    return wordsOf(this.typed);
  }
}

/** Lines as the server keeps them. */
export function wordsOf(lines: Lines): TakeWords {
  const named = lines.setup.trim() !== '';
  return {
    setup: named ? lines.setup.trim() : null,
    take: named ? Number(lines.take.trim()) : null,
    rating: lines.rating,
    size: lines.size.trim(),
    camera_move: lines.camera_move.trim(),
    direction: lines.direction.trim(),
    action: lines.action.trim(),
    note: lines.note.trim(),
  };
}

/** The number of the take that follows those of a setup. */
export function nextTake(takes: readonly Take[], setup: string): number {
  const numbers = takes
    .filter((take) => take.setup?.toUpperCase() === setup.trim().toUpperCase())
    .map((take) => take.take ?? 0);
  return Math.max(0, ...numbers) + 1;
}
