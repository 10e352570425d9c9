// @vitest-environment node
import { describe, expect, it } from 'vitest';
import { arrivedWords } from './arrived_words';
import { lengthsOf } from './lengths';
import { headOf, logOf, takeOf } from './pretend_log';
import {
  brightestFlash,
  differenceWords,
  fogWords,
  foundWords,
  lengthName,
  nextRollName,
  rulerHeading,
  signSentence,
  slateOf,
  stepSaid,
  stopsWords,
  takeSaid,
} from './words_of_roll';

const NAMED = takeOf(470, 668, { setup: '3B', take: 2, rating: 'circled' });
const [first, named, rest] = lengthsOf([takeOf(290, 470), NAMED], 3600).slice(1);
const fog = (from: number, to: number) => ({
  kind: 'fog',
  in: from,
  out: to,
  measure: to - from,
  unit: 'frames',
});

describe('the ruler', () => {
  it('agrees, falls short, is longer, or was never asked', () => {
    const roll = (more: object) => headOf('R1', 3597, { expected: 3600, ...more });
    expect(rulerHeading(headOf('R1', 3600, { expected: 3600, difference: 0 }))).toBe(
      'R1 agrees with the ruler',
    );
    expect(rulerHeading(roll({ difference: -3 }))).toBe('R1 is 3 frames short of the ruler');
    expect(rulerHeading(roll({ difference: 1 }))).toBe('R1 is 1 frame longer than the ruler');
    expect(rulerHeading(headOf('R1', 3600))).toBe('Nobody has measured R1');
    expect(rulerHeading(headOf('R1', 3600, { expected: 3600, difference: 0, missing: 4 }))).toBe(
      'R1 agrees with the ruler, but 4 frames were not seen',
    );
  });

  it('says the difference', () => {
    expect(differenceWords(logOf([], 3600, { expected: 3600, difference: 0 }))).toBe(
      'Difference 0. ',
    );
    expect(differenceWords(logOf([], 3597, { expected: 3600, difference: -3 }))).toBe(
      'Difference −3. ',
    );
    expect(differenceWords(logOf([], 3597))).toBe('');
  });
});

describe('what was found', () => {
  it('is counted in words', () => {
    const takes = [takeOf(24, 390, { flash_frames: 1 }), takeOf(390, 762)];
    expect(foundWords(3, takes)).toBe('3 boundaries, 2 takes, 1 flash frame.');
    expect(foundWords(1, [])).toBe('1 boundary, 0 takes.');
  });

  it('fog and flash are told with their frames', () => {
    expect(fogWords([fog(0, 24), fog(3572, 3600)])).toBe('Fog 0 to 23 and 3,572 to 3,599.');
    expect(fogWords([fog(0, 24)])).toBe('Fog 0 to 23.');
    expect(fogWords([])).toBe('');
    const takes = [
      takeOf(24, 390, { flash_frames: 1, flash_stops: 1.16 }),
      takeOf(390, 762, { flash_frames: 1, flash_stops: 1.2 }),
      takeOf(762, 800, { flash_frames: 0, flash_stops: 9 }),
    ];
    expect(brightestFlash(takes)).toEqual({ at: 390, stops: 1.2 });
    expect(brightestFlash([takeOf(0, 5)])).toBeNull();
    expect(stopsWords(1.16)).toBe('+ 1.2 stop');
    expect(stopsWords(-0.5)).toBe('− 0.5 stop');
    const soft = { kind: 'soft', in: 2010, out: 2106, measure: 0.41, unit: 'of 3-T2' };
    expect(signSentence(soft)).toBe('Soft at 2,010 to 2,105: 0.41 of 3-T2.');
  });

  it('a new roll says what a ruler would give', () => {
    const log = logOf([takeOf(0, 3600, { flash_frames: 1 })], 3600);
    expect(arrivedWords(log, 72)).toBe(
      '3,600 frames, 1 take, 1 flash frame. A ruler would give 50 ft 00 fr.',
    );
    expect(arrivedWords(logOf([], 3600, { missing: 2 }), 72)).toMatch(/^At least 3,600 frames/);
  });
});

describe('what is said at each step', () => {
  it('names roll, frame, take and how far into it', () => {
    expect(stepSaid('R2', 547, named ?? null)).toBe('R2 547, take 3B-T2, frame 78 of 198');
    expect(stepSaid('R2', 290, first ?? null)).toBe('R2 290, take 1, not named, frame 1 of 180');
    expect(stepSaid('R2', 700, rest ?? null)).toBe('R2 700, in no take, frame 33 of 2932');
    expect(takeSaid('R2', named!, 13)).toBe('Take 3B-T2, 2 of 13, R2 470, 198 frames, circled');
  });

  it('a take without a slate has its number', () => {
    expect([first, named, rest].map((each) => lengthName(each!))).toEqual([
      'take 1',
      '3B-T2',
      'no take',
    ]);
    expect(slateOf({ setup: '3B', take: null })).toBeNull();
  });
});

it('the next roll follows the highest', () => {
  expect(nextRollName(['R1', 'R10', 'r2', 'spare'])).toBe('R11');
  expect(nextRollName([])).toBe('R1');
});
