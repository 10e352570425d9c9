// @vitest-environment node
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import {
  footage,
  footageCell,
  footageSpoken,
  footageText,
  framesFromFootage,
  parseFootage,
} from './footage';
import { grouped, parseGrouped, signed } from './grouped';
import { clockOf, clockText, clockWords, runningTime, secondsText } from './running_time';
import { parseSpeed, speedFrom, speedText, speedWords } from './speed';

// The very tables that the film crate is checked against.
const TABLES = new URL('../../../../crates/film/tests/tables/', import.meta.url);
// Frames a foot as the gauge table has them.
const PER_FOOT: Record<string, number> = {
  regular8: 80,
  super8: 72,
  '9.5': 40,
  '16': 40,
  '35': 16,
};

function rows(name: string): string[][] {
  const text = readFileSync(new URL(name, TABLES), 'utf8');
  const lines = text.split('\n').filter((line) => line !== '' && !line.startsWith('#'));
  return lines.slice(1).map((line) => line.split(','));
}

const cell = (row: string[], at: number) => row[at] ?? '';

describe('the tables of the film crate', () => {
  it('every row of the running time grid', () => {
    const grid = rows('running_times.csv');
    expect(grid).toHaveLength(28);
    for (const row of grid) {
      const perFoot = PER_FOOT[cell(row, 0)] ?? NaN;
      const frames = framesFromFootage({ feet: Number(cell(row, 1)), frames: 0 }, perFoot);
      expect(frames).toBe(Number(cell(row, 3)));
      expect(footage(frames, perFoot)).toEqual({ feet: Number(cell(row, 1)), frames: 0 });
      for (const [at, speed] of [
        [4, '16'],
        [5, '18'],
        [6, '24'],
        [7, '25'],
      ] as const) {
        expect(clockOf(frames, speedFrom(speed)), `${row.join()} at ${speed}`).toBe(cell(row, at));
      }
    }
  });

  it('every worked length that is stated in frames', () => {
    const worked = rows('worked_lengths.csv').filter((row) => cell(row, 4) !== '');
    expect(worked.length).toBeGreaterThanOrEqual(8);
    for (const row of worked) {
      const frames = Number(cell(row, 4));
      expect(clockOf(frames, speedFrom(cell(row, 3))), row.join()).toBe(cell(row, 5));
      const written = parseFootage(cell(row, 1));
      if (written) {
        expect(framesFromFootage(written, PER_FOOT[cell(row, 2)] ?? NaN), row.join()).toBe(frames);
      }
    }
  });
});

describe('running time', () => {
  it('is rounded half up from the exact fraction', () => {
    const eighteen = speedFrom('18');
    expect(clockOf(2724, eighteen)).toBe('2:31.3');
    // 0.95 s exactly is rounded up; in binary fractions it lies below the half.
    expect(clockOf(19, speedFrom('20'))).toBe('0:01.0');
    expect(clockOf(1, speedFrom('20'))).toBe('0:00.1');
    expect(clockOf(1079, eighteen)).toBe('0:59.9');
    expect(clockOf(1080, eighteen)).toBe('1:00.0');
    expect(clockOf(5399, speedFrom('90'))).toBe('1:00.0');
  });

  it('keeps odd speeds exact', () => {
    expect(clockOf(500, speedFrom('50/3'))).toBe('0:30.0');
    expect(clockOf(24_000, speedFrom('24000/1001'))).toBe('16:41.0');
    expect(secondsText(runningTime(2724, speedFrom('18')), 2)).toBe('151.33');
    expect(secondsText(runningTime(100_000_000, speedFrom('24000/1001')), 4)).toBe('4170833.3333');
    expect(clockWords(runningTime(2724, speedFrom('18')))).toBe('2 min 31.3 s');
    expect(clockWords(runningTime(45, speedFrom('18')))).toBe('2.5 s');
  });

  it('refuses what is no number of frames', () => {
    expect(() => runningTime(-1, speedFrom('18'))).toThrow(RangeError);
    expect(() => runningTime(1.5, speedFrom('18'))).toThrow(RangeError);
    expect(clockText(runningTime(0, speedFrom('18')))).toBe('0:00.0');
  });
});

describe('speed', () => {
  it('reads and writes what the film crate does', () => {
    expect(parseSpeed('24000/1001')).toEqual({ num: 24_000, den: 1001 });
    expect(parseSpeed('18.5')).toEqual({ num: 37, den: 2 });
    expect(parseSpeed(' 100 / 6 ')).toEqual({ num: 50, den: 3 });
    for (const text of ['18', '50/3', '24000/1001', '459/25']) {
      expect(speedText(speedFrom(text))).toBe(text);
    }
    expect(parseSpeed('18.36')).toEqual(speedFrom('459/25'));
  });

  it('refuses odd texts', () => {
    const odd = ['', 'x', '18/', '/3', '-18', '0', '18/0', '1e3', '1001/1', 'nan', '.', '1/1001'];
    for (const text of odd) expect(parseSpeed(text), text).toBeNull();
    expect(() => speedFrom('x')).toThrow(RangeError);
  });

  it('is said short', () => {
    const said = ['18', '50/3', '24000/1001', '37/2'].map((text) => speedWords(speedFrom(text)));
    expect(said).toEqual(['18', '16.67', '23.976', '18.5']);
  });
});

describe('feet and frames', () => {
  it('are written with two digits of frames', () => {
    expect(footageText(2724, 72)).toBe('37 ft 60 fr');
    expect(footageCell(216, 72)).toBe('3 ft 00');
    expect(footageCell(7, 72)).toBe('0 ft 07');
    expect(footageSpoken(2724, 72)).toBe('37 feet 60 frames');
    expect(footageSpoken(73, 72)).toBe('1 foot 1 frame');
    expect(footageSpoken(0, 72)).toBe('0 frames');
  });

  it('are read in every written form', () => {
    for (const text of ['37ft60', '37 ft 60 fr', '37+60', '37 ft 60', '37ft60fr']) {
      expect(parseFootage(text), text).toEqual({ feet: 37, frames: 60 });
    }
    expect(parseFootage('1,600ft')).toEqual({ feet: 1600, frames: 0 });
    for (const text of ['', '37', 'ft', '-3ft', '3+', '37ft60m', ',ft', '1.5ft']) {
      expect(parseFootage(text), text).toBeNull();
    }
  });

  it('come back to the same count', () => {
    for (let frames = 0; frames < 500; frames += 1) {
      expect(framesFromFootage(footage(frames, 72), 72)).toBe(frames);
    }
    expect(() => footage(1, 0)).toThrow(RangeError);
    expect(() => footage(-1, 72)).toThrow(RangeError);
  });
});

describe('grouped numbers', () => {
  it('have a comma for thousands and a true minus', () => {
    expect([0, 999, 1000, 2724, 10_800, 1_234_567].map(grouped)).toEqual([
      '0',
      '999',
      '1,000',
      '2,724',
      '10,800',
      '1,234,567',
    ]);
    expect(grouped(-4170)).toBe('−4,170');
    expect([18, -45, 0].map(signed)).toEqual(['+18', '−45', '0']);
    expect(() => grouped(1.5)).toThrow(RangeError);
  });

  it('are read back', () => {
    expect(parseGrouped(' 2,724 ')).toBe(2724);
    expect(parseGrouped('2724')).toBe(2724);
    for (const text of ['', '2,72', '27,24,', '-3', '2.7', 'R1']) {
      expect(parseGrouped(text), text).toBeNull();
    }
  });
});
