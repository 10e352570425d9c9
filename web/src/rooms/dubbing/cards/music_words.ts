// Music beside the picture, in words a film maker uses, and as a drawing.
import { grouped } from '$lib/film/grouped';
import type { MusicBeside } from '../dub_types';

const decimals = (value: number, digits: number) => value.toFixed(digits).replace('-', '−');
const frames = (count: number) => `${grouped(count)} ${count === 1 ? 'frame' : 'frames'}`;

/** `882 frames are 80.07 beats at 18.36 f/s: 11.016 frames a beat; …` */
export function besideSaid(found: MusicBeside): string {
  const { frames_a_beat: beat, frames_a_beat_nominal: nominal } = found;
  const own = beat === nominal ? '' : ` (${decimals(nominal, 2)} at the film’s own speed)`;
  return `${frames(found.frames)} are ${decimals(found.beats, 2)} beats: ${decimals(beat, 3)} frames a beat as the projector runs${own}.`;
}

/** Where the end lies now. */
export function endNowSaid(found: MusicBeside): string {
  const off = Math.abs(found.end_off);
  if (off <= 0.55) return 'It ends with a bar.';
  return `Its end lies ${decimals(off, 1)} frames ${found.end_off > 0 ? 'behind' : 'before'} the end of a bar.`;
}

/** What the proposal comes to. */
export function endSaid(found: MusicBeside): string {
  const { end } = found;
  if (!end) {
    return `No bar ends between ${grouped(found.shortest)} and ${frames(found.longest)}, which is how far the last piece goes.`;
  }
  const off = Math.abs(end.off);
  const where =
    off < 0.05
      ? `with bar ${String(end.bar)}`
      : `${decimals(off, 1)} frames (${decimals(Math.abs(end.off_seconds), 2)} s) ${end.off < 0 ? 'before' : 'after'} bar ${String(end.bar)} closes`;
  return `${frames(end.frames)} are ${decimals(end.beats, 2)} beats and end ${where}.`;
}

/** What the button does: `Take 45 frames off piece 22`. */
export function endDone(found: MusicBeside): string {
  const moved = found.end?.moved ?? 0;
  return moved < 0
    ? `Take ${frames(-moved)} off piece ${String(found.to)}`
    : `Add ${frames(moved)} to piece ${String(found.to)}`;
}

/** `after 17: 3 later`. */
export function joinSaid(join: { after: number; by: number; on_beat: boolean }): string {
  const where = `Join after ${String(join.after)}`;
  if (join.by === 0) return `${where}: ${join.on_beat ? 'on its beat' : 'no beat in its handles'}`;
  const way = join.by > 0 ? 'later' : 'earlier';
  return `${where}: ${frames(Math.abs(join.by))} ${way}${join.on_beat ? '' : ', off the beat'}`;
}

/** `Leave out bar 13` or `Leave out bars 9 to 10`. */
export function liftDone(lift: { from: number; bars: number }): string {
  return lift.bars === 1
    ? `Leave out bar ${String(lift.from)}`
    : `Leave out bars ${String(lift.from)} to ${String(lift.from + lift.bars - 1)}`;
}

export function liftSaid(lift: { bars: number; of: number; off: number }): string {
  const off = Math.abs(lift.off);
  const ends =
    off < 0.05
      ? 'with the picture'
      : `${decimals(off, 1)} frames ${lift.off < 0 ? 'before' : 'after'} the picture`;
  return `Or the music gives way: without ${lift.bars === 1 ? 'one' : String(lift.bars)} of its ${String(lift.of)} bars it ends ${ends}.`;
}

/** What the strand check would then refuse. */
export function refusedSaid(refused: readonly { positions: readonly number[] }[]): string {
  const places = [...new Set(refused.flatMap((one) => one.positions))].sort((a, b) => a - b);
  return `The strand has not the frames for it, at ${places.length === 1 ? 'piece' : 'pieces'} ${places.join(', ')}: another piece is made of them.`;
}
