// @vitest-environment node
import { describe, expect, it } from 'vitest';
import { compareRolls, frameName, frameSpoken, isRollName, parseFrameName } from './frame_name';
import {
  heldInside,
  lastKept,
  overlap,
  span,
  spanHolds,
  spanLength,
  spanText,
  spanWords,
} from './span';

describe('a frame name', () => {
  it('is written with a raised dot and read with either', () => {
    expect(frameName('R2', 547)).toBe('R2·547');
    expect(frameSpoken('R1', 2939)).toBe('R1 2939');
    for (const text of ['R2·547', 'R2.547', ' R2·547 ']) {
      expect(parseFrameName(text), text).toEqual({ roll: 'R2', frame: 547 });
    }
    expect(parseFrameName('R2·2,939')).toEqual({ roll: 'R2', frame: 2939 });
  });

  it('is refused where the film crate refuses it', () => {
    const odd = ['R2', 'R2·', '·5', 'leader·3', 'R 2·5', 'R2·5x', 'R2·-5', 'R2·100000001', '-R·1'];
    for (const text of odd) expect(parseFrameName(text), text).toBeNull();
    expect(parseFrameName('R2·100000000')).toEqual({ roll: 'R2', frame: 100_000_000 });
    const names = ['', '../R1', 'R 1', 'leader', 'Card', 'R·1', '-R1', 'ABCDEFGHIJKLMNOPQ'];
    for (const name of names) expect(isRollName(name), name).toBe(false);
    expect(['R1', '8mm_a', 'A-1'].every(isRollName)).toBe(true);
  });

  it('rolls sort as people count', () => {
    expect(['R10', 'R2', 'A1', 'R1', 'R'].sort(compareRolls)).toEqual([
      'A1',
      'R',
      'R1',
      'R2',
      'R10',
    ]);
    expect(compareRolls('R1', 'R1')).toBe(0);
  });
});

describe('a span', () => {
  const seven = span('R2', 547, 607);

  it('ends before the first frame thrown', () => {
    expect(spanLength(seven)).toBe(60);
    expect(lastKept(seven)).toBe(606);
    expect(spanText(seven)).toBe('R2·547 to 606');
    expect(spanWords(span('R1', 1352, 1568))).toBe('from 1,352 to 1,567');
    expect([546, 547, 606, 607].map((frame) => spanHolds(seven, 'R2', frame))).toEqual([
      false,
      true,
      true,
      false,
    ]);
    expect(spanHolds(seven, 'R1', 550)).toBe(false);
    expect([1, 560, 700].map((frame) => heldInside(seven, frame))).toEqual([547, 560, 606]);
  });

  it('holds at least one frame', () => {
    expect(spanLength(span('R1', 5, 6))).toBe(1);
    for (const [first, thrown] of [
      [5, 5],
      [6, 5],
      [-1, 5],
      [0.5, 5],
    ] as const) {
      expect(() => span('R1', first, thrown)).toThrow(RangeError);
    }
  });

  it('shares with another what both hold', () => {
    expect(overlap(seven, span('R2', 600, 700))).toEqual(span('R2', 600, 607));
    expect(overlap(seven, span('R2', 607, 700))).toBeNull();
    expect(overlap(seven, span('R1', 547, 607))).toBeNull();
  });
});
