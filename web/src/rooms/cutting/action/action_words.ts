// What is said of two takes beside each other, and of a place to cut.
import type { Matched, MatchPoint } from '$lib/api/wire';
import { frameName } from '$lib/film/frame_name';

/** Less than that is nothing anybody can see. Unit: frames. */
const NOTHING = 0.05;

const parts = (frames: number) => Math.abs(frames).toFixed(1).replace(/\.0$/, '');

function count(frames: number): string {
  const said = parts(frames);
  return `${said} ${said === '1' || Math.abs(frames) < 1 ? 'frame' : 'frames'}`;
}

type Entry = MatchPoint['entries'][number];

/** `0.3 frame early`. */
export function phaseWords(entry: Entry): string {
  if (Math.abs(entry.phase) < NOTHING) return 'to the frame';
  return `${count(entry.phase)} ${entry.phase < 0 ? 'early' : 'late'}`;
}

/** `2.3 frames repeated`. */
export function repeatWords(entry: Entry): string {
  if (Math.abs(entry.repeats) < NOTHING) return 'nothing repeated';
  return entry.repeats > 0
    ? `${count(entry.repeats)} repeated`
    : `${count(entry.repeats)} left out`;
}

/** `known to ± 0.6 frame`; of marks nothing, they are taken as they are. */
export function knownWords(point: MatchPoint): string {
  return point.uncertain < NOTHING ? '' : `known to ± ${count(point.uncertain)}`;
}

/** What moves at the cut, and hides it. */
export function movesWords(point: MatchPoint): string {
  if (point.moves <= 0) return '';
  if (point.moves < 0.25) return 'hardly anything moves';
  return point.moves < 0.6 ? 'something moves' : 'much moves';
}

/** `R1·2938, then R2·547`. */
export function crossingWords(from: string, leave: number, to: string, enter: number): string {
  return `${frameName(from, leave - 1)}, then ${frameName(to, enter)}`;
}

/** `3B-T2`, or its first frame. */
export function takeCalled(take: { slate?: string | null; roll: string; in: number }): string {
  return take.slate || frameName(take.roll, take.in);
}

/** How it is known which moment is which. */
export function howKnown(found: Matched): string {
  if (found.by === 'nothing') return '';
  if (found.by === 'marks') {
    const [there, here] = found.pace_exact.split('/');
    const pace =
      found.pace_exact === '1'
        ? 'both run at one pace'
        : `${there} frames there for ${here ?? 1} here`;
    return `By your two marks: ${pace}.`;
  }
  const more = Math.round(Math.abs(found.pace - 1) * 1000) / 10;
  const pace =
    more < 0.5
      ? 'both run at one pace'
      : `the other take has ${more} % ${found.pace > 1 ? 'more' : 'fewer'} frames of it`;
  return `By what moves in both: ${pace}.`;
}

/** The way in with an overlap, else the nearest to it that may be taken. */
export function entryAt(point: MatchPoint, overlap: number): Entry | undefined {
  return [...point.entries].sort(
    (one, other) => Math.abs(one.overlap - overlap) - Math.abs(other.overlap - overlap),
  )[0];
}

const OVERLAPS: Record<number, string> = { 0: 'none', 2: 'two', 3: 'three' };

/** The choices of overlap at a point, for a row of buttons. */
export function overlapChoices(point: MatchPoint): { value: string; words: string }[] {
  return point.entries.map(({ overlap }) => ({
    value: String(overlap),
    words: OVERLAPS[overlap] ?? String(overlap),
  }));
}
