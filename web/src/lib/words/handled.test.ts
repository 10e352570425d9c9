import { describe, expect, it } from 'vitest';
import { entryWords, handledWords } from './handled';

const none = {
  runs: 0,
  by_projector: 0,
  by_viewer: 0,
  scans: 0,
  cleanings: 0,
  wound: 0,
  cuts: 0,
  joins_opened: 0,
  repairs: 0,
  inspections: 0,
};

describe('what was done to an original', () => {
  it('is summed, and what was never done is left out', () => {
    expect(handledWords(none)).toBe('never run');
    expect(handledWords({ ...none, runs: 3, by_projector: 2, scans: 1, cuts: 12 })).toBe(
      'run 3 times (twice under a hot lamp, scanned once), cut 12 times',
    );
    expect(handledWords({ ...none, joins_opened: 1, inspections: 2 })).toBe(
      'never run, a join opened once, looked at twice',
    );
    expect(handledWords(undefined)).toBe('');
  });

  it('is told entry by entry', () => {
    const entry = { kind: 'run', through: 'viewer', by: 'Ida', times: 1 };
    expect(entryWords(entry)).toBe('through the viewer, by Ida');
    expect(entryWords({ ...entry, kind: 'cut', through: '', times: 12 })).toBe(
      'cut, 12 times, by Ida',
    );
    expect(entryWords({ kind: 'opened', through: '', by: '' })).toBe('join opened');
  });
});
