// Which frames stand for a hanging strip, and how long it hangs.
import type { BenchSpan } from './bench_types';

/** One picture stands for so many frames, unless the longest strip would hang too low. */
const EACH = 45;
/** No strip is drawn with more pictures than this. */
const MOST = 5.9;
/** Nor with less of them than this: so much can be seen. */
const LEAST = 2.2;

/** Frames that one picture stands for, the same for all that hangs. */
export function framesAPicture(lengths: readonly number[]): number {
  return Math.max(EACH, Math.ceil(Math.max(0, ...lengths) / MOST));
}

export interface HungFrames {
  readonly frames: readonly number[];
  /** How much of the last picture is there, from 0 to 1. */
  readonly last: number;
}

/** Frames of the strip from its head, spread over it. */
export function hungFrames(span: BenchSpan, each: number): HungFrames {
  const length = span.out - span.in;
  const drawn = Math.max(LEAST, length / each);
  const count = Math.ceil(drawn - 1e-9);
  const step = length / count;
  const frames = Array.from({ length: count }, (_, nth) => span.in + Math.floor(nth * step));
  return { frames, last: drawn - (count - 1) };
}
