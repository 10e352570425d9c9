// Lengths as they are typed: frames, or feet and frames.
import { framesFromFootage, parseFootage } from '$lib/film/footage';
import { parseGrouped } from '$lib/film/grouped';
import { parseFrameName } from '$lib/film/frame_name';

/** Reads `36`, `36 fr`, `0ft36`, `2 ft 12 fr`, `2+12`; null for all else, and for nothing. */
export function parseLength(text: string, framesPerFoot: number): number | null {
  const plain = text.trim().replace(/^([\d,]+)\s*(?:fr|frames?)$/, '$1');
  const frames = parseGrouped(plain);
  const feet = parseFootage(text);
  const length = frames ?? (feet && framesFromFootage(feet, framesPerFoot));
  return length !== null && length > 0 ? length : null;
}

/** Reads the number of a frame on a roll: `2939`, `2,939`, and its whole name, `R1·2939`. */
export function parseFrame(text: string, roll: string): number | null {
  const named = parseFrameName(text);
  if (named) return named.roll === roll ? named.frame : null;
  return parseGrouped(text);
}
