// How much film a take is thought to need, as the program reckons it: ⌈seconds · speed⌉
// and the run-up. Told while one writes; what is kept comes from the program.
import type { Speed } from '$lib/film/speed';

/** Seconds as they are written, in thousandths, further decimals cut off; null where they cannot be read. */
export function thousandths(text: string): number | null {
  const found = /^(\d{1,5})(?:\.(\d+))?$/.exec(text.trim());
  if (!found) return null;
  return Number(found[1]) * 1000 + Number((found[2] ?? '').slice(0, 3).padEnd(3, '0'));
}

/** Frames of one take; null where no seconds are said. */
export function filmOfTake(seconds: string, speed: Speed, runUp: number): number | null {
  const of = thousandths(seconds);
  if (of === null || of === 0) return null;
  const [parts, each] = [BigInt(of) * BigInt(speed.num), 1000n * BigInt(speed.den)];
  return Number((parts + each - 1n) / each) + runUp;
}
