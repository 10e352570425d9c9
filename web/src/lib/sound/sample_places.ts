// Where frames of film lie in sound, exact: 48,000 samples a second, inside and in the mix.
import type { Speed } from '$lib/film/speed';

export const RATE = 48_000;

/**
 * The first sample of a frame, counted from the first sample of frame 0: from the start
 * each time and rounded down, so that nothing adds up and frames join without a gap.
 */
export function sampleOf(frame: number, speed: Speed): number {
  return Number((BigInt(frame) * BigInt(RATE) * BigInt(speed.den)) / BigInt(speed.num));
}

/** Samples of so many frames from `first` on. */
export function samplesOf(first: number, count: number, speed: Speed): number {
  return sampleOf(first + count, speed) - sampleOf(first, speed);
}
