// A shelf of scans that is read in one go, unattended: each file a roll of its own,
// and a summary when the last has ended. The program keeps it with the film, so that
// it is there after the window was closed, until somebody puts it away.
import { problemWords } from '$lib/api/problem_words';
import type { ShelfRow, ShelfSummary } from '$lib/api/wire';
import { footageText } from '$lib/film/footage';
import { grouped } from '$lib/film/grouped';
import { countWords, framesWords } from './words_of_roll';

/** What the summary asks the program. */
export interface ShelfDesk {
  ask(): Promise<ShelfSummary | null>;
  putAway(): Promise<unknown>;
}

export interface RowTold {
  readonly file: string;
  readonly roll: string;
  /** Whether the roll can be taken into the hand. */
  readonly there: boolean;
  /** `read`, `not read`. */
  readonly state: string;
  /** What was found, or why nothing was: a sentence each. */
  readonly words: readonly string[];
}

/** `2 soft, 1 hair`; the kinds that are told most often first. */
function signsWords(signs: ShelfRow['signs']): string {
  const kinds = Object.entries(signs).sort(([a, n], [b, m]) => m - n || a.localeCompare(b));
  return kinds.map(([kind, count]) => `${grouped(count)} ${kind}`).join(', ');
}

/** What stands of a roll that is there. */
function foundWords(row: ShelfRow, perFoot: number): string[] {
  const said = [
    `${framesWords(row.frames)}, ${footageText(row.frames, perFoot)}, ${countWords(row.takes, 'take')}, ${countWords(row.breaks, 'break')}.`,
  ];
  const signs = signsWords(row.signs);
  said.push(signs ? `Signs: ${signs}.` : 'No sign was told.');
  if (row.missing > 0) said.push(`${framesWords(row.missing)} were not seen.`);
  return [...said, ...row.warnings.map((words) => sentence(words))];
}

function sentence(words: string): string {
  const whole = `${words.charAt(0).toUpperCase()}${words.slice(1)}`;
  return /[.!?]$/.test(whole) ? whole : `${whole}.`;
}

function told(row: ShelfRow, perFoot: number): RowTold {
  const file = row.file.split(/[\\/]/).pop() ?? row.file;
  const { roll } = row;
  switch (row.came_of_it) {
    case 'read':
    case 'read_before': {
      const state = row.came_of_it === 'read' ? 'read' : 'read before';
      return { file, roll, there: true, state, words: foundWords(row, perFoot) };
    }
    case 'failed': {
      const problem = row.problem ? { ...row.problem, details: null } : null;
      return { file, roll, there: false, state: 'not read', words: [problemWords(problem)] };
    }
    case 'under_way':
      return { file, roll, there: false, state: 'under way', words: [] };
    case 'taken_out':
      return { file, roll, there: false, state: 'taken out', words: ['It was read.'] };
    default:
      return { file, roll, there: false, state: 'stopped', words: ['Nothing of it was kept.'] };
  }
}

export class ShelfRead {
  summary = $state.raw<ShelfSummary | null>(null);

  #asked = 0;
  readonly #desk: ShelfDesk;
  readonly #perFoot: () => number;

  constructor(desk: ShelfDesk, perFoot: () => number = () => 72) {
    this.#desk = desk;
    this.#perFoot = perFoot;
  }

  readonly rows: readonly RowTold[] = $derived.by(() =>
    (this.summary?.rolls ?? []).map((row) => told(row, this.#perFoot())),
  );

  /** Whether there is a shelf, and the last of it has ended. */
  readonly isOver: boolean = $derived.by(
    () => this.summary !== null && this.summary.under_way === 0,
  );

  /** Whether every scan of it is a roll now. */
  readonly isWhole: boolean = $derived.by(
    () =>
      this.summary !== null &&
      this.summary.failed + this.summary.stopped + this.summary.under_way === 0,
  );

  /** `3 of 4 rolls have been read.`; while it goes on, how far it is. */
  readonly heading: string = $derived.by(() => {
    const { summary } = this;
    if (!summary) return '';
    const all = summary.rolls.length;
    if (summary.under_way > 0) {
      return `${grouped(all - summary.under_way)} of ${countWords(all, 'scan')} have been gone through.`;
    }
    if (this.isWhole) {
      return `${all === 1 ? 'The roll has' : `All ${countWords(all, 'roll')} have`} been read.`;
    }
    const read = all - summary.failed - summary.stopped;
    return `${grouped(read)} of ${countWords(all, 'roll')} have been read.`;
  });

  /** Asks anew; the latest answer is the one that counts. */
  async load(): Promise<void> {
    const asked = ++this.#asked;
    try {
      const summary = await this.#desk.ask();
      if (asked === this.#asked) this.summary = summary;
    } catch {
      // The program is away, or another film lies on the bench: what was known stays.
    }
  }

  async putAway(): Promise<void> {
    this.#asked += 1;
    this.summary = null;
    try {
      await this.#desk.putAway();
    } catch {
      await this.load();
    }
  }
}
