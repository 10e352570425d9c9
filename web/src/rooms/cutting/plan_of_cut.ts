// What runs when a cut is shown, for the player.
import type { Piece } from '$lib/api/wire';
import { acrossJoin, type AcrossJoin, PlayPlan, type Segment } from '$lib/play/play_plan';
import type { Speed } from '$lib/film/speed';
import { isShot, pieceFrames } from './pieces';

/** How long it runs on either side of a join. Unit: tenths of a second. */
const REACH_TENTHS = 15;

function segmentOf(piece: Piece): Segment {
  if (isShot(piece)) {
    return { kind: 'shot', roll: piece.roll, first: piece.in, thrown: piece.out };
  }
  const frames = pieceFrames(piece);
  if (piece.kind === 'card') return { kind: 'card', frames, title: piece.title ?? '' };
  return { kind: 'leader', frames };
}

export function planOfPieces(pieces: readonly Piece[]): PlayPlan {
  return new PlayPlan(pieces.map(segmentOf));
}

/** A second and a half of film on either side of a join. */
export function aboutJoin(pieces: readonly Piece[], join: number, speed: Speed): AcrossJoin {
  const reach = Math.max(1, Math.round((REACH_TENTHS * speed.num) / (10 * speed.den)));
  return acrossJoin(planOfPieces(pieces), join, reach);
}
