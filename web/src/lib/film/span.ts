// Runs of frames, half-open: from the first kept to the first thrown away.
// Paper and screen say the last kept as well, since the hand looks for it.

import { frameName } from './frame_name';
import { grouped } from './grouped';

/** Frames of one roll. At least one; never reversed. */
export interface Span {
  readonly roll: string;
  readonly first: number;
  readonly thrown: number;
}

/** A span; refuses one without a frame. */
export function span(roll: string, first: number, thrown: number): Span {
  const whole = Number.isSafeInteger(first) && Number.isSafeInteger(thrown);
  if (!whole || first < 0 || thrown <= first) {
    throw new RangeError(`not a span: ${roll}[${first},${thrown})`);
  }
  return { roll, first, thrown };
}

/** How many frames it holds. */
export function spanLength(of: Span): number {
  return of.thrown - of.first;
}

/** The last frame kept. */
export function lastKept(of: Span): number {
  return of.thrown - 1;
}

/** Whether a frame of its roll lies inside. */
export function spanHolds(of: Span, roll: string, frame: number): boolean {
  return roll === of.roll && of.first <= frame && frame < of.thrown;
}

/** The frames that both hold, or null. */
export function overlap(a: Span, b: Span): Span | null {
  const [first, thrown] = [Math.max(a.first, b.first), Math.min(a.thrown, b.thrown)];
  return a.roll === b.roll && first < thrown ? { roll: a.roll, first, thrown } : null;
}

/** The frame of the span nearest to one that may lie outside it. */
export function heldInside(of: Span, frame: number): number {
  return Math.min(Math.max(frame, of.first), lastKept(of));
}

/** `R1·1068 to 1175`: first and last kept, as the sheet writes a piece. */
export function spanText(of: Span): string {
  return `${frameName(of.roll, of.first)} to ${lastKept(of)}`;
}

/** `from 1,352 to 1,567`, where the roll is already named. */
export function spanWords(of: Span): string {
  return `from ${grouped(of.first)} to ${grouped(lastKept(of))}`;
}
