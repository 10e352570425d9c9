// @vitest-environment node
import { expect, it } from 'vitest';
import { clockTime } from './clock_time';

it.each([
  [14, 2, '14:02'],
  [0, 0, '00:00'],
  [9, 59, '09:59'],
])('%d h %d is %s', (hours, minutes, said) => {
  expect(clockTime(new Date(2026, 4, 1, hours, minutes, 40))).toBe(said);
});
