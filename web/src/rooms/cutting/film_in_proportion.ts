// The whole film in proportion: where each piece lies, and the scale beside it.
import type { Piece } from '$lib/api/wire';
import { pieceFrames } from './pieces';

/** One piece of the whole film. Unit: px from the top. */
export interface Laid {
  readonly at: number;
  readonly top: number;
  readonly height: number;
  /** How long it stands, as a bar. Unit: px. */
  readonly bar: number;
}

/** Where each piece lies in so many px; the longest bar is as long as its column. */
export function laidFilm(pieces: readonly Piece[], height: number, longestBar: number): Laid[] {
  const lengths = pieces.map(pieceFrames);
  const all = lengths.reduce((sum, frames) => sum + frames, 0);
  const most = Math.max(1, ...lengths);
  let from = 0;
  return lengths.map((frames, at) => {
    const top = all === 0 ? 0 : (from / all) * height;
    from += frames;
    const end = all === 0 ? 0 : (from / all) * height;
    return { at, top, height: end - top, bar: (frames / most) * longestBar };
  });
}

/** Marks of the scale in feet, at most so many, at round numbers. */
export function feetMarks(feet: number, most: number): number[] {
  const steps = [1, 2, 5, 10, 20, 25, 50, 100, 200, 250, 500, 1000];
  const step = steps.find((each) => feet / each <= most) ?? 2000;
  return Array.from({ length: Math.floor(feet / step) + 1 }, (_, at) => at * step);
}

/** The join nearest to a height; joins are named by the piece before them. */
export function joinAtHeight(laid: readonly Laid[], y: number): number {
  let nearest = -1;
  let least = Math.abs(y);
  for (const piece of laid) {
    const far = Math.abs(piece.top + piece.height - y);
    if (far < least) [nearest, least] = [piece.at, far];
  }
  return nearest;
}

/** The height of a join. */
export function heightOfJoin(laid: readonly Laid[], join: number): number {
  const piece = laid[join];
  return piece ? piece.top + piece.height : 0;
}

/** Whether a piece counts for the pace: a picture, and no title, whose slate has no scene. */
function isPicture(piece: Piece): boolean {
  return piece.kind === 'shot' && !(piece.slate && !/^\d/.test(piece.slate));
}

/** The shortest and the longest of the pictures, by position; null without any. */
export function extremes(pieces: readonly Piece[]): { shortest: number; longest: number } | null {
  let found: { shortest: number; longest: number } | null = null;
  pieces.forEach((piece, at) => {
    if (!isPicture(piece)) return;
    const frames = pieceFrames(piece);
    found ??= { shortest: at, longest: at };
    const [shortest, longest] = [pieces[found.shortest], pieces[found.longest]];
    if (shortest && frames < pieceFrames(shortest)) found = { ...found, shortest: at };
    if (longest && frames > pieceFrames(longest)) found = { ...found, longest: at };
  });
  return found;
}
