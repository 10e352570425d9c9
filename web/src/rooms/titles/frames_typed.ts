// A length as it is typed for a title: frames, feet and frames, or seconds.
import { framesFromFootage, parseFootage } from '$lib/film/footage';
import { parseGrouped } from '$lib/film/grouped';
import type { Speed } from '$lib/film/speed';

/** Longer than this no card is. Unit: frames. */
const LONGEST = 100_000;

/** Reads `36`, `1ft12`, `2.5 s`; seconds up to a whole frame. Null for all else. */
export function framesTyped(typed: string, speed: Speed, framesPerFoot: number): number | null {
  const plain = typed.trim();
  const seconds = /^(\d+(?:[.,]\d+)?)\s*(?:s|sec|seconds?)$/.exec(plain)?.[1];
  const feet = parseFootage(plain);
  const frames = seconds
    ? // A hair under a whole frame is that frame.
      Math.ceil((Number(seconds.replace(',', '.')) * speed.num) / speed.den - 1e-6)
    : (parseGrouped(plain.replace(/\s*(?:fr|frames?)$/, '')) ??
      (feet && framesFromFootage(feet, framesPerFoot)));
  return frames !== null && frames <= LONGEST ? frames : null;
}
