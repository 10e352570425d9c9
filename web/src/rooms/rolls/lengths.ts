// A roll from its head to its tail without a gap: its takes, and what lies
// before, between and behind them.
import type { RollLog, Take } from '$lib/api/wire';

/** A take as it is logged, or film that belongs to none. */
export interface Length {
  readonly kind: 'take' | 'bare';
  readonly first: number;
  readonly thrown: number;
  /** What is said of it; null for film that belongs to no take. */
  readonly take: Take | null;
  /** Its number among the takes of the roll, from 1; 0 for bare film. */
  readonly number: number;
}

function bare(first: number, thrown: number): Length {
  return { kind: 'bare', first, thrown, take: null, number: 0 };
}

/** The lengths of a roll, from its head down. */
export function lengthsOf(takes: readonly Take[], frames: number): Length[] {
  const all: Length[] = [];
  let at = 0;
  takes.forEach((take, place) => {
    if (take.in > at) all.push(bare(at, take.in));
    all.push({ kind: 'take', first: take.in, thrown: take.out, take, number: place + 1 });
    at = Math.max(at, take.out);
  });
  if (at < frames) all.push(bare(at, frames));
  return all;
}

/** The length that a frame lies in; the nearest where it lies in none. */
export function lengthAt(lengths: readonly Length[], frame: number): Length | null {
  let found: Length | null = lengths[0] ?? null;
  for (const length of lengths) {
    if (length.first <= frame) found = length;
  }
  return found;
}

/** What hangs from pegs: the takes; of a roll without one, all of it. */
export function hungOf(lengths: readonly Length[]): Length[] {
  const takes = lengths.filter((length) => length.kind === 'take');
  return takes.length > 0 ? takes : [...lengths];
}

/** The places inside a roll where a take begins or ends. */
export function boundariesOf(takes: readonly Take[], frames: number): number[] {
  const places = new Set(takes.flatMap((take) => [take.in, take.out]));
  return [...places].filter((at) => at > 0 && at < frames).sort((a, b) => a - b);
}

/** Frames of a roll that no scan shows, as runs. What is guessed to be skipped has no number. */
export function missingRuns(log: RollLog): { readonly first: number; readonly thrown: number }[] {
  const skips =
    log.report?.anomalies.filter((each) => each.kind === 'skip' && each.frames_low > 0) ?? [];
  return skips.map((skip) => ({ first: skip.at, thrown: skip.at + skip.frames }));
}

/** Whether no scan shows a frame. */
export function isMissing(log: RollLog, frame: number): boolean {
  return (
    log.roll.missing > 0 && missingRuns(log).some((run) => run.first <= frame && frame < run.thrown)
  );
}
