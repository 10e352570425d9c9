import { describe, expect, it } from 'vitest';
import { dayAndTime } from './day_and_time';

describe('when a version was begun', () => {
  const now = new Date(2026, 10, 26, 20, 5);
  it.each([
    [new Date(2026, 10, 26, 9, 3), 'today at 09:03'],
    [new Date(2026, 10, 25, 23, 59), 'on 25 November at 23:59'],
    [new Date(2025, 0, 1, 0, 0), 'on 1 January 2025 at 00:00'],
    [new Date('nonsense'), 'at a time that is not known'],
  ])('%s', (at, said) => {
    expect(dayAndTime(at, now)).toBe(said);
  });
});
