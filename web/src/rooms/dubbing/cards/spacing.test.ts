// @vitest-environment node
import { expect, it } from 'vitest';
import { boatDub } from '../boat_dub';
import { blankColumn } from '../new_parts';
import { centimetres, laidOn, spacingSum, tapesOf } from './spacing';

const measured = { num: 459, den: 25 };
const own = { num: 18, den: 1 };

it('gives story 11: splash to bell at the measured speed, and what the nominal would cost', () => {
  expect(spacingSum(560, measured, own, 1905)).toEqual([
    { sum: 'at 18 f/s it would be 592.7 cm', comes: '11 frames late' },
    { sum: '560 frames ÷ 18.36 f/s', comes: '30.50 s' },
    { sum: '× 19.05 cm/s', comes: '581.0 cm' },
  ]);
  expect(spacingSum(560, own, own, 1905).at(-1)?.comes).toBe('592.7 cm');
  expect(centimetres(0, measured, 476)).toBe('0.0');
});

it('lays what shares a tape in one row, each from the one before', () => {
  const columns = [
    { id: 1, column: { ...blankColumn('effects'), tape: 'Tape A' } },
    { id: 2, column: blankColumn('music') },
    { id: 3, column: { ...blankColumn('steps'), tape: ' tape a ' } },
  ];
  expect(tapesOf(columns)).toEqual([
    { name: 'Tape A', columns: [1, 3] },
    { name: 'music', columns: [2] },
  ]);
  const cues = boatDub().cues.map((one) => ({ ...one, state: 'held' as const }));
  const row = laidOn([1, 3], cues).map(({ cue, from, leader }) => [cue.id, from, leader]);
  // The bells begin 18 and 19 frames after one another and each has 18.
  expect(row).toEqual([
    [21, 1392, 1392],
    [22, 18, 0],
    [23, 19, 1],
  ]);
  // An orphan has no place on a tape.
  expect(laidOn([1], boatDub().cues)).toEqual([]);
});
