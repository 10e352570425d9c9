// What a cue holds to: a frame of the roll, the join before a piece, or the clock.
import { grouped } from '$lib/film/grouped';
import type { Anchor, CueWords, Dub, PieceOnChart } from './dub_types';

export type HoldsTo = Anchor['to'];

export const HOLDS_WORDS: Record<HoldsTo, string> = {
  frame: 'a frame',
  join: 'a join',
  clock: 'the clock',
};

/** The piece that is on the screen at a running frame. */
export function pieceAt(pieces: readonly PieceOnChart[], at: number): PieceOnChart | null {
  return pieces.find((piece) => at >= piece.at && at < piece.at + piece.frames) ?? null;
}

/**
 * An anchor of one kind for a running frame. A frame of the roll only where film of a roll
 * is shown; else, as in the leader, the clock takes its place.
 */
export function anchorAt(pieces: readonly PieceOnChart[], at: number, to: HoldsTo): Anchor {
  const piece = pieceAt(pieces, at);
  if (to === 'frame' && piece?.roll) {
    return { to, roll: piece.roll, frame: piece.first + at - piece.at, offset: 0 };
  }
  if (to === 'join' && piece) {
    // A join before leader or a card has no roll: the running frame names it.
    const frame = piece.roll ? piece.first : piece.at;
    return { to, roll: piece.roll ?? '', frame, offset: at - piece.at };
  }
  return { to: 'clock', roll: '', frame: Math.max(at, 0), offset: Math.min(at, 0) };
}

/** The cue begins at another running frame and holds to the same kind of thing there. */
export function movedTo(cue: CueWords, from: number, at: number, dub: Dub): CueWords {
  const start =
    cue.start.to === 'join'
      ? // Music to a scene still belongs to its join when it is let in a little later.
        { ...cue.start, offset: cue.start.offset + at - from }
      : anchorAt(dub.pieces, at, cue.start.to);
  // An end that holds to something of its own stays where it is.
  return { ...cue, start };
}

/** Where the user has put a cue is where it was laid. */
export function laidHere(cue: CueWords, dub: Dub, at: number, frames: number): CueWords {
  return { ...cue, left: false, laid: { cut: dub.cut, at, frames } };
}

/** What a card says of an anchor besides its kind. */
export function anchorSaid(anchor: Anchor): string {
  const { to, roll, frame, offset } = anchor;
  const further =
    offset === 0
      ? ''
      : `, ${grouped(Math.abs(offset))} ${Math.abs(offset) === 1 ? 'frame' : 'frames'} ${offset > 0 ? 'later' : 'earlier'}`;
  if (to === 'clock') return `running frame ${grouped(frame)}${further}`;
  if (to === 'join') {
    return roll
      ? `the join before ${roll} ${grouped(frame)}${further}`
      : `the join at ${grouped(frame)}${further}`;
  }
  return `${roll} ${grouped(frame)}${further}`;
}
