import { describe, expect, it } from 'vitest';
import type { FilmNote } from '$lib/api/wire';
import { sideRows, UNSIGNED, writersOf } from './side_by_side';

let ids = 0;
const at = (running: number, writer: string, words: string) => {
  const note: FilmNote = { id: (ids += 1), roll: 'R1', frame: running, words, writer, made: '' };
  return { note, running, position: 1 };
};

describe('notes side by side', () => {
  const fallen = [
    at(30, 'Mara', 'soft'),
    at(4, '', 'good'),
    at(4, 'Ida', 'too long'),
    at(4, 'Ida', 'and dark'),
  ];

  it('have a column for each writer, who did not sign last', () => {
    expect(writersOf(fallen.map((one) => one.note))).toEqual(['Ida', 'Mara', UNSIGNED]);
    expect(writersOf([{ writer: ' Ida ' }, { writer: 'Ida' }])).toEqual(['Ida']);
    expect(writersOf([])).toEqual([]);
  });

  it('have a row for each frame in running order, several notes in one cell', () => {
    const rows = sideRows(fallen, ['Ida', 'Mara', UNSIGNED]);
    const words = rows.map((row) => [
      row.running,
      row.cells.map((cell) => cell.map((n) => n.words)),
    ]);
    expect(words).toEqual([
      [4, [['too long', 'and dark'], [], ['good']]],
      [30, [[], ['soft'], []]],
    ]);
  });

  it('leave out whoever is not asked for, and rows that are empty then', () => {
    expect(sideRows(fallen, ['Mara']).map((row) => row.running)).toEqual([30]);
    expect(sideRows(fallen, [])).toEqual([]);
  });
});
