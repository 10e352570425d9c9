// The clock of a run: which step of the film has its time at a given moment.

import type { Speed } from '$lib/film/speed';

// The clock starts this much before the first picture is drawn. Where the
// edges of the frames fall on the screen's own refreshes, as at 30 f/s on
// 60 Hz, a clock that wavers would otherwise drop and double frames at will.
// Unit: ms; well below one refresh.
const BEFORE_MS = 1;

/** Counts steps of film from the start each time, so that nothing adds up. */
export class RunClock {
  readonly #startMs: number;
  readonly #speed: Speed;

  /** The first picture is drawn at `ms`. */
  constructor(ms: number, speed: Speed) {
    this.#startMs = ms - BEFORE_MS;
    this.#speed = speed;
  }

  /** Whole steps of film since the start. */
  stepAt(ms: number): number {
    return Math.floor(((ms - this.#startMs) * this.#speed.num) / (1000 * this.#speed.den));
  }

  /** How long so many steps take. Unit: ms. */
  msOf(steps: number): number {
    return (steps * 1000 * this.#speed.den) / this.#speed.num;
  }
}
