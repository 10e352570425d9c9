import { expect, it } from 'vitest';
import { Figures, time } from './figures';
import { Table, verdict } from './table';

it('a measure meets its limit up to and at it; what is no number meets nothing', () => {
  expect(verdict(50, 50, time)).toBe('meets');
  expect(verdict(62, 50, time)).toBe('MISSES by 12.0 ms');
  expect(verdict(NaN, 50, time)).not.toBe('meets');
});

it('columns stand under each other also with signs of two bytes', () => {
  const table = new Table();
  table.limited('nudge, ↓', 41.25, 50, time);
  table.told('a run', '1.40 s');
  expect(table.toString()).toBe(
    [
      '          measured    limit',
      'nudge, ↓   41.3 ms  50.0 ms  meets',
      'a run       1.40 s        -  reported',
    ].join('\n'),
  );
});

it('median, ninety-ninth and worst do not care for order', () => {
  const hundred = new Figures(Array.from({ length: 100 }, (_, at) => 100 - at));
  expect([hundred.median, hundred.ninetyNinth, hundred.worst]).toEqual([50.5, 99, 100]);
  expect(new Figures([9000, 1, 3]).median).toBe(3);
  expect(new Figures([]).median).toBeNaN();
});
