// A shelf of scans that is read in one go, unattended: each file a roll of its own,
// and a summary when the last has ended.
import { problemWords } from '$lib/api/problem_words';
import type { Job, RollHead } from '$lib/api/wire';
import { footageText } from '$lib/film/footage';
import { grouped } from '$lib/film/grouped';
import { countWords, framesWords } from './words_of_roll';

/** A scan that was asked to be read. */
export interface Begun {
  readonly file: string;
  readonly roll: string;
  /** Null where it was refused at once. */
  readonly job: number | null;
  /** Why it was refused. */
  readonly refused: string | null;
}

export interface ShelfRow {
  readonly file: string;
  readonly roll: string;
  readonly state: 'under way' | 'read' | 'not read' | 'stopped';
  readonly words: string;
}

/** What a row says of a roll that is there. */
function readWords(head: RollHead, perFoot: number): string {
  const found = `${framesWords(head.frames)}, ${countWords(head.takes, 'take')}, ${footageText(head.frames, perFoot)}`;
  const unseen = head.missing > 0 ? `, ${grouped(head.missing)} not seen` : '';
  return `${found}${unseen}`;
}

export class ShelfRead {
  begun = $state.raw<readonly Begun[]>([]);

  readonly #jobs: () => readonly Job[];
  readonly #heads: () => readonly RollHead[];
  readonly #perFoot: () => number;

  constructor(
    jobs: () => readonly Job[],
    heads: () => readonly RollHead[],
    perFoot: () => number = () => 72,
  ) {
    this.#jobs = jobs;
    this.#heads = heads;
    this.#perFoot = perFoot;
  }

  readonly rows: readonly ShelfRow[] = $derived.by(() => this.begun.map((one) => this.#row(one)));

  /** How many have ended, whatever came of them. */
  readonly ended: number = $derived.by(
    () => this.rows.filter((row) => row.state !== 'under way').length,
  );

  /** `3 of 4 rolls have been read.`; while it goes on, how far it is. */
  readonly heading: string = $derived.by(() => {
    const all = this.rows.length;
    const read = this.rows.filter((row) => row.state === 'read').length;
    if (this.ended < all)
      return `${grouped(this.ended)} of ${countWords(all, 'scan')} have been gone through.`;
    return read === all
      ? `${all === 1 ? 'The roll has' : `All ${countWords(all, 'roll')} have`} been read.`
      : `${grouped(read)} of ${countWords(all, 'roll')} have been read.`;
  });

  #row({ file, roll, job, refused }: Begun): ShelfRow {
    if (job === null) return { file, roll, state: 'not read', words: refused ?? '' };
    const found = this.#jobs().find((one) => one.job === job);
    const head = this.#heads().find((one) => one.roll === roll);
    if (head && found?.state !== 'running') {
      return { file, roll, state: 'read', words: readWords(head, this.#perFoot()) };
    }
    if (found?.state === 'failed') {
      return { file, roll, state: 'not read', words: problemWords(found.problem) };
    }
    if (found?.state === 'cancelled') return { file, roll, state: 'stopped', words: 'Stopped.' };
    return { file, roll, state: 'under way', words: found?.words ?? 'It has its turn later.' };
  }

  putAway(): void {
    this.begun = [];
  }
}
