// Time on the screen, exact. The twin of `RunningTime` in the film crate:
// both round half up to a tenth, from the exact fraction and never from a sum.

import type { Speed } from './speed';

/** How long so many frames run, as an exact fraction of a second. */
export interface RunningTime {
  readonly num: bigint;
  readonly den: bigint;
}

/** The time that `frames` run at `speed`. */
export function runningTime(frames: number, speed: Speed): RunningTime {
  if (!Number.isSafeInteger(frames) || frames < 0) {
    throw new RangeError(`not a number of frames: ${frames}`);
  }
  return { num: BigInt(frames) * BigInt(speed.den), den: BigInt(speed.num) };
}

/** So many parts of a second, the nearest whole number, half up. */
function parts(time: RunningTime, each: bigint): bigint {
  return (time.num * each * 2n + time.den) / (time.den * 2n);
}

/** `2:31.3`. Minutes are not carried into hours, since reels are compared in minutes. */
export function clockText(time: RunningTime): string {
  const tenths = parts(time, 10n);
  const [minutes, rest] = [tenths / 600n, tenths % 600n];
  return `${minutes}:${String(rest / 10n).padStart(2, '0')}.${rest % 10n}`;
}

/** Seconds with so many decimals: `151.33`. */
export function secondsText(time: RunningTime, places: number): string {
  const scale = 10n ** BigInt(places);
  const all = parts(time, scale);
  if (places === 0) return String(all);
  return `${all / scale}.${String(all % scale).padStart(places, '0')}`;
}

/** `2 min 31.3 s`, and `31.3 s` below a minute. */
export function clockWords(time: RunningTime): string {
  const tenths = parts(time, 10n);
  const [minutes, rest] = [tenths / 600n, tenths % 600n];
  const seconds = `${rest / 10n}.${rest % 10n} s`;
  return minutes === 0n ? seconds : `${minutes} min ${seconds}`;
}

/** The clock of so many frames: the common case in one word. */
export function clockOf(frames: number, speed: Speed): string {
  return clockText(runningTime(frames, speed));
}
