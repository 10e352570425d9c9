// Facts about the pieces of a cutting sheet, as the server gives them.
import type { Piece, PieceForm } from '$lib/api/wire';

/** A piece that shows frames of a roll. */
export type Shot = Piece & { readonly roll: string; readonly in: number; readonly out: number };

export function isShot(piece: Piece | undefined): piece is Shot {
  return (
    piece?.kind === 'shot' &&
    typeof piece.roll === 'string' &&
    typeof piece.in === 'number' &&
    typeof piece.out === 'number'
  );
}

/** How many frames a piece runs. */
export function pieceFrames(piece: PieceForm): number {
  if (piece.kind === 'shot') return (piece.out ?? 0) - (piece.in ?? 0);
  return piece.frames ?? 0;
}

/** A piece as it is asked for: without what the server tells of its place. */
export function formOf(piece: PieceForm): PieceForm {
  const { kind, slate, join, effect, note } = piece;
  const shared = {
    kind,
    slate: slate ?? null,
    join: join ?? null,
    effect: effect ?? null,
    note: note ?? '',
  };
  if (kind === 'shot') {
    return { ...shared, roll: piece.roll ?? null, in: piece.in ?? null, out: piece.out ?? null };
  }
  return { ...shared, frames: piece.frames ?? null, title: piece.title ?? null };
}

const WORDS = ['kind', 'roll', 'in', 'out', 'slate', 'join', 'effect', 'title'] as const;

/** Whether two pieces are the same film in the same words. */
export function sameForm(one: PieceForm, other: PieceForm): boolean {
  return (
    WORDS.every((word) => (one[word] ?? null) === (other[word] ?? null)) &&
    (one.note ?? '') === (other.note ?? '') &&
    (one.kind === 'shot' || (one.frames ?? 0) === (other.frames ?? 0))
  );
}

/** Whether two sheets hold the same pieces in the same order. */
export function samePieces(one: readonly Piece[], other: readonly Piece[]): boolean {
  return (
    one.length === other.length && one.every((piece, at) => sameForm(piece, other[at] ?? piece))
  );
}

/** The first position at which two sheets differ; null when they do not. */
export function firstDifference(one: readonly Piece[], other: readonly Piece[]): number | null {
  const most = Math.max(one.length, other.length);
  for (let at = 0; at < most; at += 1) {
    const [here, there] = [one[at], other[at]];
    if (!here || !there || !sameForm(here, there)) return at;
  }
  return null;
}

/** Whether a piece runs on into the next on the film, so that nothing is cut between them. */
export function runsOn(piece: PieceForm, next: PieceForm | undefined): boolean {
  return (
    piece.kind === 'shot' &&
    next?.kind === 'shot' &&
    piece.roll === next.roll &&
    piece.out === next.in &&
    !piece.effect &&
    !next.effect
  );
}
