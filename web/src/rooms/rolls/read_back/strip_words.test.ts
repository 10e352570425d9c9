import { describe, expect, it } from 'vitest';
import type { StripCandidate } from '$lib/api/wire';
import { hiddenOf, lieOf, someOf, spanOf, stillOf, sureOf } from './strip_words';

const found: StripCandidate = {
  roll: 'R2',
  in: 540,
  out: 549,
  confidence: 0.9712,
  mirrored: false,
  upside_down: false,
  still: false,
  hidden_before: false,
  hidden_behind: false,
  turned: 0,
  frames: 9,
  likeness: 0.9512,
  places: [],
};

describe('a loose strip in words', () => {
  it('is called by its first and its last frame', () => {
    expect(spanOf(found)).toBe('R2·540–548');
    expect(spanOf({ ...found, out: 541 })).toBe('R2·540');
  });

  it('says which way up it lies and from which side it is seen', () => {
    expect(lieOf(found)).toContain('heads up, seen from the side the roll was scanned from');
    const over = lieOf({ ...found, turned: 199.6, upside_down: true, mirrored: true });
    expect(over).toContain('heads down, turned clockwise by 200°');
    expect(over).toContain('turn it over');
    expect(lieOf({ ...found, turned: 359.8 })).not.toContain('turned');
  });

  it('says how sure it is and why, and never that it is certain', () => {
    expect(sureOf(found, 1)).toBe(
      "Sure to 97 of 100: 9 frames were seen, and they are like the roll's by 0.95 of 1.",
    );
    expect(sureOf({ ...found, confidence: 1 }, 1)).toContain('99 of 100');
    const guess = sureOf({ ...found, confidence: 0.4 }, 2);
    expect(guess).toMatch(/^Not sure, 40 of 100/);
    expect(guess).toContain('other places');
    expect(guess).toContain('before you trust it');
  });

  it('says where more of the strip may be hidden', () => {
    expect(hiddenOf(found)).toBeNull();
    expect(hiddenOf({ ...found, hidden_behind: true })).toContain('behind them');
    expect(hiddenOf({ ...found, hidden_before: true })).toContain('before them');
    expect(hiddenOf({ hidden_before: true, hidden_behind: true })).toContain('at both ends');
  });

  it('says of how many frames it may be any', () => {
    expect(stillOf({ ...found, out: 560, still: true })).toContain('which 9 of these 20 frames');
  });
});

describe('some of many', () => {
  it('has both ends and no more than asked for', () => {
    const all = Array.from({ length: 40 }, (_, at) => at);
    const some = someOf(all, 9);
    expect(some).toHaveLength(9);
    expect([some[0], some.at(-1)]).toEqual([0, 39]);
    expect(new Set(some).size).toBe(9);
    expect(someOf([1, 2], 9)).toEqual([1, 2]);
  });
});
