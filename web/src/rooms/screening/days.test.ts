import { describe, expect, it } from 'vitest';
import { dayOf, dayWords, today } from './days';

const now = new Date(2026, 10, 26, 3, 20);

describe('days', () => {
  it('are said with the year only where it is another', () => {
    expect(dayWords('2026-03-03', now)).toBe('3 March');
    expect(dayWords('2025-12-31', now)).toBe('31 December 2025');
    expect(dayWords('some day', now)).toBe('some day');
    expect(dayOf('2026-11-25T12:00:00Z', now)).toBe('25 November');
    expect(dayOf('', now)).toBe('');
  });

  it('of today is written as the ledger wants it', () => {
    expect(today(now)).toBe('2026-11-26');
    expect(today(new Date(2026, 2, 3, 23, 59))).toBe('2026-03-03');
  });
});
