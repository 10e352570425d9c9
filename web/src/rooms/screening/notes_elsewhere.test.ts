import { describe, expect, it } from 'vitest';
import type { Cut, FilmNote, Piece } from '$lib/api/wire';
import { notesElsewhere } from './notes_elsewhere';

const piece = (roll: string, first: number, thrown: number, take?: [number, number]): Piece => ({
  kind: 'shot',
  roll,
  in: first,
  out: thrown,
  starts_at: 0,
  action: '',
  runs_on: false,
  note: '',
  take: take ? { in: take[0], out: take[1] } : null,
});
const note = (roll: string, frame: number): FilmNote => ({
  id: frame + 1,
  roll,
  frame,
  words: '',
  writer: '',
  made: '',
});
const joins: Cut['joins'] = [
  { join: 'tape', out_tail: 0, in_head: 0, scar_out: 2, scar_in: 2, shortest: 6 },
  { join: 'weld', out_tail: 1, in_head: 1, scar_out: 1, scar_in: 1, shortest: 8 },
];
const cut = (pieces: Piece[], usual_join = 'tape') => ({ pieces, joins, usual_join });
const why = (of: ReturnType<typeof cut>, ...notes: FilmNote[]) =>
  notesElsewhere(of, notes).map((one) => one.why);

describe('notes that a version does not show', () => {
  const film = cut([piece('R1', 402, 546, [390, 762]), piece('R1', 1068, 1176, [1050, 1352])]);

  it('say where they lie beside the nearest piece of their take', () => {
    expect(why(film, note('R1', 400), note('R1', 546), note('R1', 1190))).toEqual([
      'It lies 2 frames before the first frame of no. 1.',
      'It lies 1 frame after the last frame of no. 1.',
      'It lies 15 frames after the last frame of no. 2.',
    ]);
  });

  it('say that nothing of the take, or of the roll, is shown', () => {
    expect(why(film, note('R1', 2000), note('R2', 5))).toEqual([
      'This version shows nothing of this take.',
      'This version shows nothing of R2.',
    ]);
  });

  it('say that a join eats the frame, and never where the film runs on', () => {
    const welded = cut(film.pieces, 'weld');
    expect(why(welded, note('R1', 546), note('R1', 547), note('R1', 1067))).toEqual([
      'The weld join after no. 1 eats it.',
      'It lies 2 frames after the last frame of no. 1.',
      'The weld join before no. 2 eats it.',
    ]);
    const onward = cut([{ ...piece('R1', 10, 20), runs_on: true }, piece('R1', 20, 30)], 'weld');
    expect(why(onward, note('R1', 30))).toEqual(['The weld join after no. 2 eats it.']);
    expect(why(onward, note('R1', 15))).toEqual([]);
  });
});
