// What is on trial: pieces trimmed on this screen and not kept yet. The server
// says what comes of it; until its answer is there, lengths and places are
// reckoned here so that a nudge is drawn at once.
import type { Cut, CutChange, Piece, PieceForm } from '$lib/api/wire';
import { formOf, isShot, pieceFrames, runsOn, sameForm } from './pieces';

export type Side = 'out' | 'in';

/** Pieces on trial, by position counted from 0. */
export type Trial = ReadonlyMap<number, PieceForm>;

export const NOTHING_ON_TRIAL: Trial = new Map();

/** The piece whose end a side of a join is. */
export function pieceOfSide(join: number, side: Side): number {
  return side === 'out' ? join : join + 1;
}

/** The frame at a side of a join: the last kept of the outgoing piece, the first of the incoming. */
export function edgeFrame(piece: Piece, side: Side): number | null {
  if (!isShot(piece)) return null;
  return side === 'out' ? piece.out - 1 : piece.in;
}

/** The frames at which a side can lie: the piece keeps one frame, the film has an end. */
export function edgeBounds(piece: PieceForm, side: Side, rollFrames: number): [number, number] {
  const [first, thrown] = [piece.in ?? 0, piece.out ?? 0];
  return side === 'out' ? [first, Math.max(rollFrames - 1, thrown - 1)] : [0, thrown - 1];
}

/** The piece with its end at another frame, as near as the film allows; null where it has none. */
export function trimmedTo(
  piece: PieceForm,
  side: Side,
  frame: number,
  rollFrames: number,
): PieceForm | null {
  if (piece.kind !== 'shot') return null;
  const [least, most] = edgeBounds(piece, side, rollFrames);
  const at = Math.max(least, Math.min(frame, most));
  return side === 'out' ? { ...piece, out: at + 1 } : { ...piece, in: at };
}

/** The trial with one more piece on it; a piece put back as it stands is off it again. */
export function withPiece(trial: Trial, base: Cut, at: number, form: PieceForm): Trial {
  const stands = base.pieces[at];
  if (!stands) return trial;
  const next = new Map(trial);
  if (sameForm(stands, form)) next.delete(at);
  else next.set(at, formOf(form));
  return next;
}

/** The change that keeps a trial, with whatever else is to be done at once; null for nothing. */
export function changeOf(trial: Trial, more: readonly CutChange[] = []): CutChange | null {
  const trims = [...trial]
    .sort(([one], [other]) => one - other)
    .map(([at, piece]): CutChange => ({ change: 'replace', at, piece }));
  const all = [...trims, ...more];
  if (all.length === 0) return null;
  return all.length === 1 ? (all[0] ?? null) : { change: 'all', changes: all };
}

/** The version as it is shown with a trial before the server has answered. */
export function tried(base: Cut, trial: Trial): Cut {
  if (trial.size === 0) return base;
  const forms = base.pieces.map((piece, at): Piece => {
    const form = trial.get(at);
    return form ? { ...piece, ...form, frames: pieceFrames(form) } : piece;
  });
  let starts = 0;
  const pieces = forms.map((piece, at): Piece => {
    const starts_at = starts;
    starts += pieceFrames(piece);
    return { ...piece, starts_at, runs_on: runsOn(piece, forms[at + 1]) };
  });
  return { ...base, pieces, frames: starts, on_trial: true };
}

/** What has come onto a trial since it was sent; what was nudged back stands as it was. */
export function triedSince(trial: Trial, sent: Trial, base: Cut): Trial {
  const since = new Map([...trial].filter(([at, form]) => sent.get(at) !== form));
  for (const at of sent.keys()) {
    const stood = base.pieces[at];
    if (!trial.has(at) && stood) since.set(at, formOf(stood));
  }
  return since;
}

/** Where each piece of a trial stands in a version that was changed meanwhile; null when one is gone. */
export function trialOn(trial: Trial, was: Cut, now: Cut): Trial | null {
  const found = new Map<number, PieceForm>();
  for (const [at, form] of trial) {
    const stood = was.pieces[at];
    const place = stood ? placeAgain(stood, at, now.pieces) : null;
    if (place === null || found.has(place)) return null;
    found.set(place, form);
  }
  return found;
}

function placeAgain(stood: Piece, at: number, pieces: readonly Piece[]): number | null {
  const alike = pieces.flatMap((piece, place) => (isAlike(stood, piece) ? [place] : []));
  alike.sort((one, other) => Math.abs(one - at) - Math.abs(other - at));
  return alike[0] ?? null;
}

/** Whether a piece may be the one that stood there, trimmed meanwhile. */
function isAlike(stood: Piece, piece: Piece): boolean {
  if (stood.kind !== piece.kind) return false;
  if (!isShot(stood) || !isShot(piece)) return stood.title === piece.title;
  return stood.roll === piece.roll && stood.in < piece.out && piece.in < stood.out;
}
