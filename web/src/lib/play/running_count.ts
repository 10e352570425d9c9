// What happened to the frames of a run: shown, dropped, doubled, and where.

/** Why a frame was not shown in its time. */
export type Because =
  /** Its picture had not come. */
  | 'late'
  /** The screen was not drawn in time. */
  | 'screen';

/** A place where the run was not what the film will be. */
export interface Miss {
  readonly what: 'dropped' | 'doubled' | 'halted';
  /** The running frame; of several in a row, the first. */
  readonly at: number;
  /** Frames dropped in a row; or for how many frames' time it stood too long. */
  readonly frames: number;
  readonly because: Because;
}

/** The figures of a run. */
export interface Counts {
  /** Film frames that were drawn in their time. */
  readonly shown: number;
  /** Film frames that were never drawn. */
  readonly dropped: number;
  /** Frames that stood into the time of the next, because the next was not there. */
  readonly doubled: number;
  /** Times the machine stood still to wait for film. */
  readonly halted: number;
  /** The latest places, at most `MISSES_KEPT`. */
  readonly misses: readonly Miss[];
}

/** More places than this help nobody; the totals go on. */
export const MISSES_KEPT = 100;

/** Nothing has run yet. */
export const NOTHING_RUN: Counts = { shown: 0, dropped: 0, doubled: 0, halted: 0, misses: [] };

type OpenMiss = { -readonly [Key in keyof Miss]: Miss[Key] };

/** Counts a run as it goes. */
export class RunningCount {
  #shown = 0;
  #dropped = 0;
  #doubled = 0;
  #halted = 0;
  readonly #misses: OpenMiss[] = [];
  // Frames dropped in a row, and a frame that still stands, are one place each.
  #dropping: { readonly miss: OpenMiss; step: number } | null = null;
  #standing: OpenMiss | null = null;

  /** A frame was drawn in its time. */
  countShown(): void {
    this.#shown += 1;
    this.#standing = null;
  }

  /** The running frame `at`, the run's `step`, had its time and was never drawn. */
  countDropped(at: number, step: number, because: Because): void {
    this.#dropped += 1;
    const row = this.#dropping;
    if (row?.miss.because === because && row.step + 1 === step) {
      row.miss.frames += 1;
      row.step = step;
      return;
    }
    this.#dropping = { miss: this.#note('dropped', at, 1, because), step };
  }

  /** The running frame on the screen has stood for the time of so many frames too long. */
  countStanding(at: number, frames: number): void {
    if (this.#standing) {
      this.#standing.frames = frames;
      return;
    }
    this.#doubled += 1;
    this.#standing = this.#note('doubled', at, frames, 'late');
  }

  /** The machine stood still before the running frame `at`. */
  countHalted(at: number, because: Because): void {
    this.#halted += 1;
    this.#standing = null;
    this.#note('halted', at, 0, because);
  }

  /** The figures so far; a copy, which does not change. */
  counts(): Counts {
    return {
      shown: this.#shown,
      dropped: this.#dropped,
      doubled: this.#doubled,
      halted: this.#halted,
      misses: this.#misses.map((miss) => ({ ...miss })),
    };
  }

  #note(what: Miss['what'], at: number, frames: number, because: Because): OpenMiss {
    const miss = { what, at, frames, because };
    this.#misses.push(miss);
    if (this.#misses.length > MISSES_KEPT) this.#misses.shift();
    return miss;
  }
}
