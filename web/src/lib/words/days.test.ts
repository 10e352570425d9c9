import { describe, expect, it } from 'vitest';
import { dayAndTime, dayOf, dayWords, today } from './days';

const now = new Date(2026, 10, 26, 3, 20);

describe('days', () => {
  it('are said with the year only where it is another', () => {
    expect(dayWords('2026-03-03', now)).toBe('3 March');
    expect(dayWords('2025-12-31', now)).toBe('31 December 2025');
    expect(dayWords('some day', now)).toBe('some day');
    expect(dayOf('2026-11-25T12:00:00Z', now)).toBe('25 November');
    expect(dayOf('', now)).toBe('');
  });

  it.each([
    [new Date(2026, 10, 26, 9, 3), 'today at 09:03'],
    [new Date(2026, 10, 25, 23, 59), 'on 25 November at 23:59'],
    [new Date(2025, 0, 1, 0, 0), 'on 1 January 2025 at 00:00'],
    [new Date('nonsense'), 'at a time that is not known'],
  ])('and the hour: %s', (at, words) => {
    expect(dayAndTime(at, now)).toBe(words);
  });

  it('of today is written as the ledger wants it', () => {
    expect(today(now)).toBe('2026-11-26');
    expect(today(new Date(2026, 2, 3, 23, 59))).toBe('2026-03-03');
  });
});
