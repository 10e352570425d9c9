// @vitest-environment node
import { describe, expect, it } from 'vitest';
import type { RollLog } from '$lib/api/wire';
import { boundariesOf, hungOf, isMissing, lengthAt, lengthsOf, missingRuns } from './lengths';
import { logOf, takeOf } from './pretend_log';

const TAKES = [takeOf(24, 390), takeOf(390, 762), takeOf(800, 900)];

describe('the lengths of a roll', () => {
  it('leave no frame out and hold none twice', () => {
    const lengths = lengthsOf(TAKES, 1000);
    expect(lengths.map((each) => [each.kind, each.first, each.thrown, each.number])).toEqual([
      ['bare', 0, 24, 0],
      ['take', 24, 390, 1],
      ['take', 390, 762, 2],
      ['bare', 762, 800, 0],
      ['take', 800, 900, 3],
      ['bare', 900, 1000, 0],
    ]);
    const covered = lengths.reduce((sum, each) => sum + each.thrown - each.first, 0);
    expect(covered).toBe(1000);
  });

  it('a roll that nobody has logged is one bare length, and hangs whole', () => {
    const lengths = lengthsOf([], 3600);
    expect(lengths).toHaveLength(1);
    expect(hungOf(lengths)).toEqual(lengths);
    expect(hungOf(lengthsOf(TAKES, 1000)).map((each) => each.first)).toEqual([24, 390, 800]);
    expect(lengthsOf([], 0)).toEqual([]);
  });

  it('each frame lies in one', () => {
    const lengths = lengthsOf(TAKES, 1000);
    const firsts = [0, 23, 24, 389, 390, 761, 762, 799, 800, 899, 900, 999].map(
      (frame) => lengthAt(lengths, frame)?.first,
    );
    expect(firsts).toEqual([0, 0, 24, 24, 390, 390, 762, 762, 800, 800, 900, 900]);
    expect(lengthAt([], 5)).toBeNull();
  });

  it('boundaries are the ends of takes inside the roll, each once', () => {
    expect(boundariesOf(TAKES, 1000)).toEqual([24, 390, 762, 800, 900]);
    expect(boundariesOf([takeOf(0, 100)], 100)).toEqual([]);
  });
});

it('frames that no scan shows are known by where the scan jumped', () => {
  const log: RollLog = logOf(TAKES, 1000, {
    missing: 3,
    anomalies: [
      { at: 500, frames: 3, frames_low: 3, frames_high: 3, kind: 'skip' },
      { at: 700, frames: 2, frames_low: 2, frames_high: 2, kind: 'doubled' },
    ],
  });
  expect(missingRuns(log)).toEqual([{ first: 500, thrown: 503 }]);
  expect([499, 500, 502, 503, 700].map((frame) => isMissing(log, frame))).toEqual([
    false,
    true,
    true,
    false,
    false,
  ]);
});
