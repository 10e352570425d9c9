import { describe, expect, it } from 'vitest';
import { runsWords } from './runs';

const run = { number: 1, on: '2026-03-03', through: 'viewer', by: 'Ida', note: '' };

describe('runs of the originals', () => {
  it('are counted for each roll', () => {
    expect(
      runsWords([
        { roll: 'R1', runs: [run, run, run] },
        { roll: 'R2', runs: [] },
        { roll: 'R3', runs: [run] },
      ]),
    ).toBe('The originals were run: R1 3 times, R2 never, R3 once.');
  });

  it('that never were are said to be none', () => {
    expect(runsWords([{ roll: 'R1' }, { roll: 'R2' }])).toBe('The originals were never run.');
    expect(runsWords([{ roll: 'R1' }])).toBe('The original was never run: R1.');
  });

  it('of one day that were several count as several', () => {
    expect(runsWords([{ roll: 'R1', runs: [{ ...run, times: 2 }] }])).toBe(
      'The originals were run: R1 twice.',
    );
  });
});
