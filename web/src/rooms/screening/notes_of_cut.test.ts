import { describe, expect, it } from 'vitest';
import type { FilmNote, Piece } from '$lib/api/wire';
import { notesOfCut, notesOfRoll } from './notes_of_cut';

const shot = (roll: string, first: number, thrown: number, starts_at: number): Piece => ({
  kind: 'shot',
  roll,
  in: first,
  out: thrown,
  starts_at,
  action: '',
  runs_on: false,
  note: '',
});
const note = (id: number, roll: string, frame: number): FilmNote => ({
  id,
  roll,
  frame,
  words: 'too dark',
  writer: '',
  made: '2026-11-25T12:00:00Z',
});

describe('notes in a cut', () => {
  const leader: Piece = { ...shot('R1', 0, 0, 10), kind: 'leader', frames: 5 };
  const pieces = [shot('R2', 100, 110, 0), leader, shot('R1', 40, 60, 15)];

  it('fall where their frame is shown, in running order', () => {
    const found = notesOfCut({ pieces }, [
      note(1, 'R1', 59),
      note(2, 'R2', 109),
      note(3, 'R1', 40),
    ]);
    expect(found.map((one) => [one.note.id, one.running, one.position])).toEqual([
      [2, 9, 1],
      [3, 15, 3],
      [1, 34, 3],
    ]);
  });

  it('the first thrown frame is not shown', () => {
    const notes = [note(1, 'R1', 60), note(2, 'R3', 5)];
    expect(notesOfCut({ pieces }, notes)).toEqual([]);
  });

  it('on a roll come by frame, and then as they were made', () => {
    const notes = [note(3, 'R1', 7), note(2, 'R1', 9), note(1, 'R1', 9), note(4, 'R2', 1)];
    expect(notesOfRoll('R1', notes).map((one) => [one.note.id, one.running])).toEqual([
      [3, 7],
      [1, 9],
      [2, 9],
    ]);
  });
});
