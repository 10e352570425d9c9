// What the machine that made the transfer did to the film, with its places: drawn
// beside the film, and said. Signs speak of the film, these of its scan.
import type { RollLog } from '$lib/api/wire';
import { grouped } from '$lib/film/grouped';
import type { Length } from './lengths';
import { doublings, guessedSkips, stretchesOf } from './transfer_of_roll';

export type ScanKind = 'doubled' | 'skip' | 'blended' | 'counted';

/** A place of the scan, as far as it lies on one length of film. */
export interface ScanMark {
  readonly kind: ScanKind;
  readonly first: number;
  readonly thrown: number;
  /** Film frames that are so between first and thrown. */
  readonly frames: number;
  /** For a skip, the most that may be missing; for a doubling, turns too many. */
  readonly most: number;
}

/** Runs of one kind no further apart than this are one mark. Unit: frames. */
const TOGETHER = 24;

function runs(log: RollLog, kind: 'blended' | 'counted', length: Length): ScanMark[] {
  const transfer = log.report?.transfer;
  if (!transfer) return [];
  const marks: ScanMark[] = [];
  for (const run of stretchesOf(transfer, kind)) {
    const first = Math.max(run.in, length.first);
    const thrown = Math.min(run.out, length.thrown);
    if (thrown <= first) continue;
    const last = marks.at(-1);
    if (last && first - last.thrown <= TOGETHER) {
      marks[marks.length - 1] = { ...last, thrown, frames: last.frames + thrown - first };
    } else {
      marks.push({ kind, first, thrown, frames: thrown - first, most: 0 });
    }
  }
  return marks;
}

/** The marks of the scan on a length of film, from its head down. */
export function scanMarksOf(log: RollLog, length: Length): ScanMark[] {
  const inside = (at: number) => length.first <= at && at < length.thrown;
  const twice = doublings(log)
    .filter((one) => inside(one.at))
    .map((one): ScanMark => {
      return { kind: 'doubled', first: one.at, thrown: one.at + 1, frames: 1, most: one.frames };
    });
  const skips = guessedSkips(log)
    .filter((one) => inside(one.at))
    .map((one): ScanMark => {
      return { kind: 'skip', first: one.at, thrown: one.at, frames: 0, most: one.frames_high };
    });
  const all = [
    ...twice,
    ...skips,
    ...runs(log, 'blended', length),
    ...runs(log, 'counted', length),
  ];
  return all.sort((a, b) => a.first - b.first || a.thrown - b.thrown);
}

/** What stands beside the mark: `doubled`, `skip?`, `30 blended`. */
export function scanMarkShort(mark: ScanMark): string {
  if (mark.kind === 'doubled') return 'doubled';
  if (mark.kind === 'skip') return 'skip?';
  return `${grouped(mark.frames)} ${mark.kind}`;
}

/** The mark as a sentence, for the card. */
export function scanMarkWords(mark: ScanMark): string {
  const [first, last] = [grouped(mark.first), grouped(mark.thrown - 1)];
  switch (mark.kind) {
    case 'doubled':
      return `The machine showed ${first} longer than its turn, by ${mark.most} of the file’s frames.`;
    case 'skip':
      return `Before ${first} the movement jumps: the machine may have left out up to ${mark.most} of the film’s frames. No number is left free for them.`;
    case 'counted':
      return `${grouped(mark.frames)} from ${first} to ${last} are counted, not seen.`;
    case 'blended':
      return `${grouped(mark.frames)} from ${first} to ${last} are blended with a neighbour in the file.`;
  }
}

/** The marks as they are drawn beside hanging film, counted in pictures from its head. */
export function scanStripMarks(marks: readonly ScanMark[], first: number, each: number) {
  return marks.map((mark) => ({
    from: (mark.first - first) / each,
    to: (mark.thrown - first) / each,
    kind: mark.kind,
  }));
}

/** How a film frame stands in the file; null where it stands there clean. */
export function standingOf(log: RollLog, frame: number): 'blended' | 'counted' | null {
  const runs = log.report?.transfer?.stretches ?? [];
  let [low, high] = [0, runs.length];
  // Runs lie in order along the roll: the last that begins at or before the frame.
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((runs[middle]?.in ?? 0) <= frame) low = middle + 1;
    else high = middle;
  }
  const run = runs[low - 1];
  if (!run || frame >= run.out) return null;
  return run.kind === 'counted' ? 'counted' : 'blended';
}
