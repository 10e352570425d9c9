// Where a key leads from a frame of a roll.
import type { Speed } from '$lib/film/speed';
import { hungOf, lengthAt, type Length } from './lengths';

/** What one steps by. */
export type StepUnit = 'frame' | 'ten' | 'second' | 'foot';

/** What a roll is measured by. */
export interface RollMeasure {
  readonly frames: number;
  readonly framesPerFoot: number;
  readonly speed: Speed;
}

/** How many frames a step of a unit goes; a second is the nearest whole number. */
export function stepFrames(unit: StepUnit, measure: RollMeasure): number {
  switch (unit) {
    case 'frame':
      return 1;
    case 'ten':
      return 10;
    case 'second':
      return Math.max(1, Math.round(measure.speed.num / measure.speed.den));
    case 'foot':
      return measure.framesPerFoot;
  }
}

/** A frame of the roll, whatever was asked for. */
export function insideRoll(frame: number, frames: number): number {
  return Math.max(0, Math.min(Math.round(frame), frames - 1));
}

/** The frame so many steps on, or back; never past the ends of the roll. */
export function stepped(
  frame: number,
  unit: StepUnit,
  steps: number,
  measure: RollMeasure,
): number {
  return insideRoll(frame + steps * stepFrames(unit, measure), measure.frames);
}

/** The first or last frame of the length that a frame lies in. */
export function lengthEnd(
  lengths: readonly Length[],
  frame: number,
  end: 'first' | 'last',
): number {
  const length = lengthAt(lengths, frame);
  if (!length) return frame;
  return end === 'first' ? length.first : length.thrown - 1;
}

/**
 * The first frame of the take before or after. From film that belongs to no
 * take, the nearest on that side; at the ends of the roll, the frame itself.
 */
export function neighbourTake(
  lengths: readonly Length[],
  frame: number,
  side: 'before' | 'after',
): number {
  const here = lengthAt(lengths, frame);
  if (!here) return frame;
  const others = hungOf(lengths).filter((each) =>
    side === 'before' ? each.first < here.first : each.first > here.first,
  );
  const next = side === 'before' ? others.at(-1) : others[0];
  return next?.first ?? frame;
}
