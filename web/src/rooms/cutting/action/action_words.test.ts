// @vitest-environment node
import { describe, expect, it } from 'vitest';
import type { Matched, MatchPoint } from '$lib/api/wire';
import {
  entryAt,
  howKnown,
  knownWords,
  overlapChoices,
  phaseWords,
  repeatWords,
} from './action_words';

const entry = (overlap: number, enter: number, repeats: number) => ({
  overlap,
  enter,
  repeats,
  phase: overlap - repeats,
});
/** The fifth story: leaving the master at 2939 is due at 547.33. */
const POINT: MatchPoint = {
  leave: 2939,
  due: 547.3333,
  uncertain: 0,
  moves: 0.5,
  entries: [entry(0, 547, 0.3333), entry(2, 545, 2.3333)],
};
const found = (more: Partial<Matched>): Matched => ({
  from: { roll: 'R1', in: 2611, out: 3313, slate: '3-T2' },
  to: { roll: 'R2', in: 470, out: 668, slate: '3B-T2' },
  by: 'marks',
  marks: [],
  marks_kept: true,
  cannot_tell: null,
  pace: 49 / 48,
  pace_exact: '49/48',
  strength: null,
  points: [],
  back: [],
  ...more,
});

describe('what is said of a place to cut', () => {
  it('a third of a frame early, and what is repeated', () => {
    const [none, two] = [entryAt(POINT, 0), entryAt(POINT, 2)];
    expect(none && [phaseWords(none), repeatWords(none)]).toEqual([
      '0.3 frame early',
      '0.3 frame repeated',
    ]);
    expect(two && [two.enter, repeatWords(two)]).toEqual([545, '2.3 frames repeated']);
    expect(phaseWords(entry(0, 548, 0.02))).toBe('to the frame');
    expect(phaseWords(entry(0, 548, -0.6667))).toBe('0.7 frame late');
    expect(repeatWords(entry(0, 549, -1.6))).toBe('1.6 frames left out');
    expect(repeatWords(entry(0, 547, 1))).toBe('1 frame repeated');
  });

  it('the nearest overlap that may be taken stands for the one wished for', () => {
    expect(entryAt(POINT, 3)?.overlap).toBe(2);
    expect(entryAt({ ...POINT, entries: [] }, 0)).toBeUndefined();
    expect(overlapChoices(POINT).map((one) => one.words)).toEqual(['none', 'two']);
  });

  it('how far it is known is said where it was found, and not of marks', () => {
    expect(knownWords(POINT)).toBe('');
    expect(knownWords({ ...POINT, uncertain: 1.24 })).toBe('known to ± 1.2 frames');
  });
});

describe('what is said of two takes', () => {
  it('by marks or by what moves, at which pace', () => {
    expect(howKnown(found({}))).toBe('By your two marks: 49 frames there for 48 here.');
    expect(howKnown(found({ pace: 1, pace_exact: '1' }))).toBe(
      'By your two marks: both run at one pace.',
    );
    expect(howKnown(found({ pace: 2, pace_exact: '2' }))).toBe(
      'By your two marks: 2 frames there for 1 here.',
    );
    expect(howKnown(found({ by: 'pictures', pace: 1.049 }))).toBe(
      'By what moves in both: the other take has 4.9 % more frames of it.',
    );
    expect(howKnown(found({ by: 'pictures', pace: 0.957 }))).toContain('4.3 % fewer');
    expect(howKnown(found({ by: 'nothing' }))).toBe('');
  });
});
