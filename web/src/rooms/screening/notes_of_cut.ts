// Notes fall on film frames; where they come in a cut is worked out.
import type { Cut, FilmNote } from '$lib/api/wire';

export interface NoteAt {
  readonly note: FilmNote;
  /** The running frame of the cut. */
  readonly running: number;
  /** The position of its piece, from 1. */
  readonly position: number;
}

/** The notes that a cut shows, as they come; a frame shown twice has its note twice. */
export function notesOfCut(cut: Pick<Cut, 'pieces'>, notes: readonly FilmNote[]): NoteAt[] {
  return cut.pieces.flatMap((piece, index) => {
    const { roll, in: first, out: thrown } = piece;
    if (piece.kind !== 'shot' || roll == null || first == null || thrown == null) return [];
    return notes
      .filter((note) => note.roll === roll && note.frame >= first && note.frame < thrown)
      .map((note) => ({
        note,
        running: piece.starts_at + note.frame - first,
        position: index + 1,
      }))
      .sort((a, b) => a.running - b.running);
  });
}

/** How many notes lie on frames that the cut does not show. */
export function notesElsewhere(cut: Pick<Cut, 'pieces'>, notes: readonly FilmNote[]): number {
  const shown = new Set(notesOfCut(cut, notes).map((one) => one.note.id));
  return notes.filter((note) => !shown.has(note.id)).length;
}
