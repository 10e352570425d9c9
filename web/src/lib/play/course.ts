// The way that film takes through the gate: from a frame, forwards or
// backwards, to the end or round and round.

/** Forwards or backwards. */
export type Direction = 1 | -1;

/** Running frames that are run round and round. */
export interface Round {
  readonly first: number;
  readonly thrown: number;
}

/** A way through so many running frames. */
export class Course {
  /** Frames until the end, the first included; endless when it goes round. */
  readonly steps: number;

  readonly #start: number;

  constructor(
    readonly length: number,
    start: number,
    readonly direction: Direction,
    readonly round: Round | null,
  ) {
    this.#start = round ? insideRound(round, start, direction) : start;
    if (length === 0) this.steps = 0;
    else if (round) this.steps = Infinity;
    else this.steps = direction === 1 ? length - start : start + 1;
  }

  /** The running frame after so many steps; null past the end. */
  at(step: number): number | null {
    if (step >= this.steps) return null;
    const gone = this.#start + this.direction * step;
    if (!this.round) return gone;
    const { first, thrown } = this.round;
    const turn = thrown - first;
    return first + ((((gone - first) % turn) + turn) % turn);
  }
}

function insideRound(round: Round, start: number, direction: Direction): number {
  if (round.first <= start && start < round.thrown) return start;
  return direction === 1 ? round.first : round.thrown - 1;
}

/** Running frames about one at which film stands, the nearest first, those ahead before those behind. */
export function about(at: number, length: number, ahead: number, behind: number): number[] {
  const order = [at];
  for (let off = 1; off <= Math.max(ahead, behind); off += 1) {
    if (off <= ahead) order.push(at + off);
    if (off <= behind) order.push(at - off);
  }
  return order.filter((running) => running >= 0 && running < length);
}
