// The sums behind the figures. A counter opens to show these lines, so that
// anyone with a pencil can check it.

import { footage, footageText } from './footage';
import { grouped } from './grouped';
import { clockText, clockWords, runningTime, secondsText } from './running_time';
import type { Speed } from './speed';

/** One line of a sum: what is done on the left, what comes of it on the right. */
export interface SumLine {
  readonly sum: string;
  readonly comes: string;
}

/** A piece as it stands in a sum of lengths. */
export interface SumPart {
  readonly name: string;
  readonly frames: number;
}

const frames = (count: number) => `${grouped(count)} ${count === 1 ? 'frame' : 'frames'}`;

/** Feet and frames from frames: 2,724 frames ÷ 72 = 37 ft, rest 60. */
export function footageSum(count: number, framesPerFoot: number): SumLine[] {
  const { feet, frames: rest } = footage(count, framesPerFoot);
  return [
    {
      sum: `${frames(count)} ÷ ${framesPerFoot} to the foot`,
      comes: `${grouped(feet)} ft, rest ${rest}`,
    },
    { sum: `${grouped(feet)} × ${framesPerFoot} + ${rest}`, comes: frames(count) },
  ];
}

/** The divisions that turn frames into seconds, without a decimal of the speed. */
function secondsSteps(count: number, speed: Speed): SumLine {
  const time = runningTime(count, speed);
  const exact = (time.num * 100n) % time.den === 0n;
  const seconds = secondsText(time, 2).replace(/\.00$/, '');
  const by =
    speed.den === 1
      ? `÷ ${speed.num} f/s`
      : `× ${grouped(speed.den)} ÷ ${grouped(speed.num)} (${grouped(speed.num)}/${grouped(speed.den)} f/s)`;
  return { sum: `${frames(count)} ${by}`, comes: `${exact ? '' : 'about '}${seconds} s` };
}

/** Running time from frames: ÷ 18 f/s = 151.33 s = 2:31.3. */
export function timeSum(count: number, speed: Speed): SumLine[] {
  const time = runningTime(count, speed);
  const minutes = /^(\d+) min (.*)$/.exec(clockWords(time));
  const sum = minutes ? `${minutes[1]} × 60 s + ${minutes[2]}` : clockWords(time);
  return [secondsSteps(count, speed), { sum, comes: clockText(time) }];
}

/** A length as the sum of its parts; one line for each, then the total in feet. */
export function lengthSum(parts: readonly SumPart[], framesPerFoot: number): SumLine[] {
  let soFar = 0;
  const lines = parts.map((part) => {
    soFar += part.frames;
    return { sum: `${part.name}: ${frames(part.frames)}`, comes: grouped(soFar) };
  });
  return [...lines, { sum: frames(soFar), comes: footageText(soFar, framesPerFoot) }];
}

/** Where a piece starts: the frames of all pieces before it. */
export function startSum(
  before: readonly SumPart[],
  name: string,
  framesPerFoot: number,
): SumLine[] {
  const start = before.reduce((sum, part) => sum + part.frames, 0);
  if (before.length === 0)
    return [{ sum: `${name} stands first`, comes: footageText(0, framesPerFoot) }];
  const count = before.length === 1 ? 'the piece' : `the ${before.length} pieces`;
  return [
    { sum: `${count} before ${name}`, comes: frames(start) },
    ...footageSum(start, framesPerFoot),
  ];
}

/** The length of a span: first thrown less first kept, and why it is so. */
export function spanSum(first: number, thrown: number): SumLine[] {
  return [
    {
      sum: `first thrown ${grouped(thrown)} − first kept ${grouped(first)}`,
      comes: frames(thrown - first),
    },
    {
      sum: `last kept ${grouped(thrown - 1)} − first kept ${grouped(first)} + 1`,
      comes: frames(thrown - first),
    },
  ];
}
