// Notes of several people side by side: a row for each frame, a column for each writer.
import type { FilmNote } from '$lib/api/wire';
import type { NoteAt } from './notes_of_cut';

/** What stands over the notes that nobody signed. */
export const UNSIGNED = 'not signed';

/** Who wrote, as it is shown. */
export function writerOf(note: Pick<FilmNote, 'writer'>): string {
  return note.writer.trim() || UNSIGNED;
}

/** Everybody who wrote, by name; whoever did not sign stands last. */
export function writersOf(notes: readonly Pick<FilmNote, 'writer'>[]): string[] {
  return [...new Set(notes.map(writerOf))].sort((a, b) => {
    if (a === UNSIGNED || b === UNSIGNED) return a === b ? 0 : a === UNSIGNED ? 1 : -1;
    return a.localeCompare(b);
  });
}

export interface SideRow {
  readonly running: number;
  readonly position: number;
  readonly roll: string;
  readonly frame: number;
  /** One for each writer, in the order of the columns. */
  readonly cells: readonly (readonly FilmNote[])[];
}

/** The rows in running order; a writer who is not among the columns is left out. */
export function sideRows(fallen: readonly NoteAt[], writers: readonly string[]): SideRow[] {
  const frames = new Map<number, NoteAt[]>();
  for (const one of fallen) {
    if (!writers.includes(writerOf(one.note))) continue;
    frames.set(one.running, [...(frames.get(one.running) ?? []), one]);
  }
  return [...frames.values()]
    .sort(([a], [b]) => (a?.running ?? 0) - (b?.running ?? 0))
    .flatMap((notes) => {
      const [first] = notes;
      if (!first) return [];
      const { running, position, note } = first;
      const cells = writers.map((writer) =>
        notes.map((one) => one.note).filter((each) => writerOf(each) === writer),
      );
      return [{ running, position, roll: note.roll, frame: note.frame, cells }];
    });
}
