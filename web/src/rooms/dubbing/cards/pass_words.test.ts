import { describe, expect, it } from 'vitest';
import type { Dub, PassWords } from '../dub_types';
import { faultsTyped, faultsWritten, nextPass, passesOf } from './pass_words';

const pass = (words: Partial<PassWords>): PassWords => ({
  pass: '1',
  cut: 'v1',
  start: 0,
  speed: '',
  faults: [],
  keep: 'open',
  ...words,
});
const dub = (...passes: PassWords[]) =>
  ({
    cut: 'v2',
    mix: { leader: 180, speed: '18.37' },
    passes: passes.map((one, nth) => ({ id: nth + 1, pass: one })),
  }) as Dub;

describe('the log of the mix', () => {
  it('reads back what it writes', () => {
    const faults = [
      { at: 0, what: '' },
      { at: 1728, what: 'music late: by half' },
    ];
    expect(faultsWritten(faults)).toBe('0\n1,728 music late: by half');
    expect(faultsTyped(faultsWritten(faults))).toEqual(faults);
  });

  it('puts faults in the order of the film and wants a frame first', () => {
    expect(faultsTyped('2166 door\n\n 18: hum ')).toEqual([
      { at: 18, what: 'hum' },
      { at: 2166, what: 'door' },
    ]);
    expect(faultsTyped('door at 18')).toBeNull();
    expect(faultsTyped('99999999999 door')).toBeNull();
    expect(faultsTyped('')).toEqual([]);
  });

  it('numbers the next pass of the version and begins it with the leader', () => {
    expect(nextPass(dub())).toEqual(pass({ cut: 'v2', start: -180, speed: '18.37' }));
    const film = dub(
      pass({ pass: '7' }),
      pass({ pass: '2', cut: 'v2' }),
      pass({ pass: 'try', cut: '' }),
    );
    expect(passesOf(film).map((one) => one.pass.pass)).toEqual(['2', 'try']);
    expect(nextPass(film).pass).toBe('3');
  });
});
