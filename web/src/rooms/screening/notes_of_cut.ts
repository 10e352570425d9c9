// Notes fall on film frames; where they come in a cut is worked out.
import type { Cut, FilmNote } from '$lib/api/wire';

export interface NoteAt {
  readonly note: FilmNote;
  /** The running frame of the cut. */
  readonly running: number;
  /** The position of its piece, from 1; 0 on a roll that runs from end to end. */
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

/** The notes of a roll, as it runs from end to end. */
export function notesOfRoll(roll: string, notes: readonly FilmNote[]): NoteAt[] {
  return notes
    .filter((note) => note.roll === roll)
    .sort((a, b) => a.frame - b.frame || a.id - b.id)
    .map((note) => ({ note, running: note.frame, position: 0 }));
}
