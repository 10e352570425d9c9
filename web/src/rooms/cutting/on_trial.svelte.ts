// What is on trial, as it is and as the screen shows it. The screen follows the
// hand when it is told to, mostly by the program's answer.
import type { Cut } from '$lib/api/wire';
import { NOTHING_ON_TRIAL, type Trial, tried } from './trial';

/**
 * A nudge waits so long for the program's answer, which mostly comes sooner: then
 * it is drawn once and with its check. Unit: milliseconds.
 */
const GRACE = 12;

export class OnTrial {
  /** What is on trial now, which the screen may not show yet. */
  pieces: Trial = NOTHING_ON_TRIAL;
  /** The version that it is tried on; null while nothing is. */
  base: Cut | null = null;
  /** The program's word on it, as soon as it is there. */
  answer: Cut | null = null;
  private drawn = $state(0);
  private drawing: ReturnType<typeof setTimeout> | null = null;

  /** Something may be other than the screen shows; whoever asks from a drawing is drawn anew by `draw`. */
  get size(): number {
    void this.drawn;
    return this.pieces.size;
  }

  has(piece: number): boolean {
    void this.drawn;
    return this.pieces.has(piece);
  }

  /** A version with what is on trial: by the program's word, or as it is reckoned here. */
  on(kept: Cut | null): Cut | null {
    void this.drawn;
    if (this.pieces.size === 0 || !this.base) return kept;
    return this.answer ?? tried(this.base, this.pieces);
  }

  /** These pieces are on trial on this version from now on; its check is not known. */
  lay(base: Cut, pieces: Trial): void {
    this.base = base;
    this.pieces = pieces;
    this.answer = null;
  }

  /** Nothing is on trial. */
  clear(): void {
    this.pieces = NOTHING_ON_TRIAL;
    this.base = null;
    this.answer = null;
    this.draw();
  }

  /** The screen shows it as it is now. */
  draw(): void {
    if (this.drawing !== null) clearTimeout(this.drawing);
    this.drawing = null;
    this.drawn += 1;
  }

  /** The screen shows it in a moment, or with the answer. */
  drawSoon(): void {
    this.drawing ??= setTimeout(() => this.draw(), GRACE);
  }
}
