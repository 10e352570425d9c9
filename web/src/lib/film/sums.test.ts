// @vitest-environment node
import { expect, it } from 'vitest';
import { speedFrom } from './speed';
import { footageSum, lengthSum, spanSum, startSum, timeSum } from './sums';

it('feet and frames come by division, and back', () => {
  expect(footageSum(2724, 72)).toEqual([
    { sum: '2,724 frames ÷ 72 to the foot', comes: '37 ft, rest 60' },
    { sum: '37 × 72 + 60', comes: '2,724 frames' },
  ]);
  expect(footageSum(1, 72)[0]?.sum).toBe('1 frame ÷ 72 to the foot');
});

it('running time says where it was rounded', () => {
  expect(timeSum(2724, speedFrom('18'))).toEqual([
    { sum: '2,724 frames ÷ 18 f/s', comes: 'about 151.33 s' },
    { sum: '2 × 60 s + 31.3 s', comes: '2:31.3' },
  ]);
  expect(timeSum(45, speedFrom('18'))).toEqual([
    { sum: '45 frames ÷ 18 f/s', comes: '2.50 s' },
    { sum: '2.5 s', comes: '0:02.5' },
  ]);
  expect(timeSum(500, speedFrom('50/3'))[0]).toEqual({
    sum: '500 frames × 3 ÷ 50 (50/3 f/s)',
    comes: '30 s',
  });
});

it('a length is the sum of its parts', () => {
  const parts = [
    { name: '1 M-T1', frames: 180 },
    { name: '2 1-T2', frames: 144 },
  ];
  expect(lengthSum(parts, 72)).toEqual([
    { sum: '1 M-T1: 180 frames', comes: '180' },
    { sum: '2 1-T2: 144 frames', comes: '324' },
    { sum: '324 frames', comes: '4 ft 36 fr' },
  ]);
  expect(startSum(parts, 'piece 3', 72)).toEqual([
    { sum: 'the 2 pieces before piece 3', comes: '324 frames' },
    { sum: '324 frames ÷ 72 to the foot', comes: '4 ft, rest 36' },
    { sum: '4 × 72 + 36', comes: '324 frames' },
  ]);
  expect(startSum([], 'piece 1', 72)).toEqual([
    { sum: 'piece 1 stands first', comes: '0 ft 00 fr' },
  ]);
  expect(startSum(parts.slice(0, 1), 'piece 2', 72)[0]?.sum).toBe('the piece before piece 2');
});

it('the length of a span is said both ways', () => {
  expect(spanSum(547, 607)).toEqual([
    { sum: 'first thrown 607 − first kept 547', comes: '60 frames' },
    { sum: 'last kept 606 − first kept 547 + 1', comes: '60 frames' },
  ]);
});
