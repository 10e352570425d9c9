// What the projector is threaded with: a version, or a roll from end to end.
import type { Cut, Film, Piece } from '$lib/api/wire';
import { PlayPlan, type Segment } from '$lib/play/play_plan';

function segment(piece: Piece): Segment {
  if (piece.kind === 'shot') {
    return { kind: 'shot', roll: piece.roll ?? '', first: piece.in ?? 0, thrown: piece.out ?? 0 };
  }
  const frames = piece.frames ?? 0;
  if (piece.kind === 'card') return { kind: 'card', frames, title: piece.title ?? '' };
  return { kind: 'leader', frames, shade: 'black' };
}

export function planOfCut(cut: Pick<Cut, 'pieces'>): PlayPlan {
  return new PlayPlan(cut.pieces.map(segment));
}

export function planOfRoll(film: Film, roll: string): PlayPlan {
  const found = film.rolls.find((one) => one.roll === roll);
  return new PlayPlan(found ? [{ kind: 'shot', roll, first: 0, thrown: found.frames }] : []);
}
