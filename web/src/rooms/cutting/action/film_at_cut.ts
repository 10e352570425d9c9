// The film at a cut from one take to another, as it would lie in the splicer.
import { frameName } from '$lib/film/frame_name';
import type { FilmFrame } from '$lib/ui/film/film_frame';
import type { Crossing, TakeOnRoll } from './action_cut';

interface AtCut {
  readonly from: TakeOnRoll;
  readonly to: TakeOnRoll;
  readonly crossing: Crossing;
  /** Frames on either side of the line. */
  readonly reach: number;
  readonly pictures: PicturesOfRolls;
}

/** Where pictures of rolls are, and which of them the scans do not show. */
interface PicturesOfRolls {
  whole(roll: string, frame: number): string | undefined;
  isMissing(roll: string, frame: number): boolean;
}

/** So many frames on either side, and the one below the line. */
export function filmAtCut({ from, to, crossing, reach, pictures }: AtCut): {
  readonly frames: readonly FilmFrame[];
  readonly cut: number;
} {
  const above = frames(from, crossing.leave - reach, crossing.leave);
  const below = frames(to, crossing.enter, crossing.enter + reach);
  const last = above.at(-1)?.at;
  const drawn = [
    ...above.map((one) => drawnFrame(from, one.at, one.at === last ? 'last kept' : '', pictures)),
    ...below.map((one, row) => drawnFrame(to, one.at, row === 0 ? 'first kept' : '', pictures)),
  ];
  return { frames: drawn, cut: above.length };
}

/** Frames of one take about a place, with the place's own in the middle. */
export function filmAbout(
  take: TakeOnRoll,
  frame: number,
  reach: number,
  pictures: PicturesOfRolls,
): { readonly frames: readonly FilmFrame[]; readonly at: number } {
  const about = frames(take, frame - reach, frame + reach + 1);
  return {
    frames: about.map((one) => ({
      ...drawnFrame(take, one.at, '', pictures),
      ringed: one.at === frame,
    })),
    at: about.findIndex((one) => one.at === frame),
  };
}

function frames(take: TakeOnRoll, from: number, upTo: number): { readonly at: number }[] {
  const first = Math.max(take.in, from);
  const length = Math.max(0, Math.min(take.out, upTo) - first);
  return Array.from({ length }, (_, row) => ({ at: first + row }));
}

function drawnFrame(
  take: TakeOnRoll,
  frame: number,
  words: string,
  pictures: PicturesOfRolls,
): FilmFrame {
  const missing = pictures.isMissing(take.roll, frame);
  return {
    name: frameName(take.roll, frame),
    state: missing ? 'missing' : 'kept',
    picture: missing ? undefined : pictures.whole(take.roll, frame),
    words: words || undefined,
  };
}
