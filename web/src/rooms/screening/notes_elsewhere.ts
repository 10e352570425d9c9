// Notes on frames that a version no longer shows, and why it does not.
import type { Cut, FilmNote, Piece } from '$lib/api/wire';
import { notesOfCut } from './notes_of_cut';

export interface NoteElsewhere {
  readonly note: FilmNote;
  /** Why the version does not show the frame, as a sentence. */
  readonly why: string;
}

type Asked = Pick<Cut, 'pieces' | 'joins' | 'usual_join'>;
type OnRoll = { readonly piece: Piece; readonly at: number; first: number; thrown: number };

/** The notes whose frames the cut does not show, by roll and frame. */
export function notesElsewhere(cut: Asked, notes: readonly FilmNote[]): NoteElsewhere[] {
  const shown = new Set(notesOfCut(cut, notes).map((one) => one.note.id));
  return notes
    .filter((note) => !shown.has(note.id))
    .map((note) => ({ note, why: whyNot(cut, note) }));
}

function whyNot(cut: Asked, note: FilmNote): string {
  const pieces = piecesOf(cut, note.roll);
  if (pieces.length === 0) return `This version shows nothing of ${note.roll}.`;
  return eaten(cut, pieces, note.frame) ?? cutOff(pieces, note.frame);
}

function piecesOf(cut: Asked, roll: string): OnRoll[] {
  return cut.pieces.flatMap((piece, at) => {
    const { in: first, out: thrown } = piece;
    if (piece.kind !== 'shot' || piece.roll !== roll || first == null || thrown == null) return [];
    return [{ piece, at, first, thrown }];
  });
}

/** A frame that a join eats is not shown, though the piece reaches up to it. */
function eaten(cut: Asked, pieces: readonly OnRoll[], frame: number): string | null {
  for (const { at, first, thrown } of pieces) {
    const after = costAt(cut, at);
    if (after && frame >= thrown && frame < thrown + after.out_tail) {
      return `The ${after.join} join after no. ${at + 1} eats it.`;
    }
    const before = costAt(cut, at - 1);
    if (before && frame < first && frame >= first - before.in_head) {
      return `The ${before.join} join before no. ${at + 1} eats it.`;
    }
  }
  return null;
}

/** What the join behind a piece costs; nothing where the film runs on. */
function costAt(cut: Asked, at: number) {
  const piece = cut.pieces[at];
  if (piece?.runs_on) return null;
  const kind = piece?.join ?? cut.usual_join;
  return cut.joins.find((row) => row.join === kind) ?? null;
}

/** Where the frame lies beside the nearest piece of its own take. */
function cutOff(pieces: readonly OnRoll[], frame: number): string {
  let nearest: { off: number; says: string } | null = null;
  for (const { piece, at, first, thrown } of pieces) {
    const { take } = piece;
    if (take && (frame < take.in || frame >= take.out)) continue;
    const after = frame >= thrown;
    const off = after ? frame - thrown + 1 : first - frame;
    const frames = off === 1 ? '1 frame' : `${off} frames`;
    const says = after
      ? `It lies ${frames} after the last frame of no. ${at + 1}.`
      : `It lies ${frames} before the first frame of no. ${at + 1}.`;
    if (!nearest || off < nearest.off) nearest = { off, says };
  }
  return nearest?.says ?? 'This version shows nothing of this take.';
}
