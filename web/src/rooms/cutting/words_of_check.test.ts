import { describe, expect, it } from 'vitest';
import type { Conflict, Cut } from '$lib/api/wire';
import { boat, boatOneFrameShort, bitten, conflict, roll, shot, standing } from './boat_v1';
import { joinOfQuestion, joinsOfConflict, ringOfConflict } from './conflict_places';
import { tagsOfJoins } from './conflict_tags';
import { knownWays } from './ways_out';
import { answeredAt, nextPlace, whatSlipSays } from './what_slip_says';
import { framesWords, type Run, wordsOfConflict } from './words_of_check';

const rolls = [roll('R1'), roll('R2', { base: 'polyester' }), roll('R3', { fit: 'never-cut' })];
const plain = (runs: readonly Run[]) =>
  runs.map((run) => (typeof run === 'string' ? run : run.count)).join('');
const said = (one: Conflict, cut: Cut = boat()) => {
  const words = wordsOfConflict(one, cut, rolls);
  return { ...words, body: plain(words.body) };
};
const against = (cut: Cut, ...conflicts: Conflict[]): Cut => ({
  ...cut,
  check: { ...cut.check, ok: false, conflicts },
});

describe('the sixth story', () => {
  const cut = boatOneFrameShort();
  it('is said with the frame, who wants it, and by how much it fails', () => {
    const words = said(bitten(), cut);
    expect(words.heading).toBe('Strand check: with cement join 6 | 7 cannot be made.');
    expect(words.body).toBe(
      'R1·2939 is wanted twice: as the tongue of 6 | 7 and as the first frame of 8.',
    );
    expect(words.stamp).toEqual(['one frame', 'short']);
  });
  it('offers its ways out, cheapest first, each with its price', () => {
    expect(said(bitten(), cut).waysOut.map((way) => [way.words, way.small])).toEqual([
      ['Tape at 6 | 7', 'eats none'],
      ['Start 8 at R1·2940', '1 frame later'],
    ]);
  });
  it('is seen at both joins, and ringed where the frame is shown', () => {
    expect(joinsOfConflict(bitten(), cut)).toEqual([5, 6]);
    expect(ringOfConflict(bitten(), cut)).toBe(6);
    expect([...tagsOfJoins(cut, 0)]).toEqual([[6, '1 frame short']]);
    expect([...tagsOfJoins(cut, 5)]).toEqual([[5, '1 frame short']]);
    expect([...tagsOfJoins(boat(), 5)]).toEqual([]);
  });
});

describe('a whole take laid in twice', () => {
  const forms = [
    shot('1-T1', 'R1', 24, 84, 'the landing'),
    shot('2-T1', 'R1', 762, 800, 'she runs'),
    shot('1-T1', 'R1', 24, 84, 'the landing'),
  ];
  const twice = conflict({
    kind: 'doubled',
    positions: [1, 3],
    span: { roll: 'R1', in: 24, out: 84 },
    frames: 60,
  });
  const cut = against({ ...boat(), pieces: standing(forms) }, twice);
  it('cannot be trimmed: either is lifted, the later first', () => {
    expect(said(twice, cut).waysOut).toEqual([
      { words: 'Lift 3', small: '60 frames less', change: { change: 'remove', at: 2 } },
      { words: 'Lift 1', small: '60 frames less', change: { change: 'remove', at: 0 } },
    ]);
  });
  it('is ringed on a line of the sheet, not above its first row', () => {
    expect(joinsOfConflict(twice, cut)).toEqual([-1, 0, 1, 2]);
    expect([...tagsOfJoins(cut, -1)]).toEqual([[1, '60 frames twice']]);
    expect([...tagsOfJoins(cut, 2)]).toEqual([[2, '60 frames twice']]);
  });
});

describe('what stands in the way, in words', () => {
  it('frames shown twice', () => {
    const forms = [...boat().pieces.slice(0, 8), shot('3-T2', 'R1', 2900, 2930, 'a look back')];
    const cut: Cut = { ...boat(), pieces: standing(forms) };
    const words = said(
      conflict({
        kind: 'doubled',
        positions: [6, 9],
        span: { roll: 'R1', in: 2900, out: 2930 },
        frames: 30,
      }),
      cut,
    );
    expect(words.heading).toBe('Strand check: 30 frames are wanted in 6 and 9.');
    expect(words.body).toBe(
      'R1·2900 to 2929 stand in 6 (3-T2) and 9 (3-T2). The film has them once.',
    );
    expect(words.stamp).toEqual(['30 frames', 'twice']);
  });
  it('frames that the roll does not have', () => {
    const words = said(
      conflict({
        kind: 'outside_roll',
        positions: [12],
        span: { roll: 'R1', in: 3600, out: 3610 },
        frames: 10,
      }),
    );
    expect(words.heading).toBe('Strand check: R1 does not have all that 12 asks for.');
    expect(words.body).toBe('R1 ends at R1·3599; 10 frames more are asked for, up to R1·3609.');
  });
  it('an effect', () => {
    const cut = boat();
    const pieces = cut.pieces.map((piece, at) =>
      at === 2 ? { ...piece, effect: 'freeze' } : piece,
    );
    const words = said(conflict({ kind: 'effect', positions: [3] }), { ...cut, pieces });
    expect(words.heading).toBe('Strand check: no bench can make a held frame in 3.');
  });
  it('cement on polyester', () => {
    const words = said(conflict({ kind: 'base', positions: [6, 7] }), boat('cement'));
    expect(words.heading).toBe('Strand check: cement does not hold at 6 | 7.');
    expect(words.body).toBe('R2 is polyester. It takes tape only.');
  });
  it('two gauges, and a roll that may not be cut', () => {
    expect(said(conflict({ kind: 'gauge', positions: [6, 7] })).heading).toContain('6 | 7');
    const words = said(
      conflict({ kind: 'protected', positions: [1], span: { roll: 'R3', in: 3075, out: 3255 } }),
    );
    expect(words.body).toContain('R3 is never to be cut');
  });
  it('what is only to be looked at again has no stamp', () => {
    const cut = boat('cement');
    const words = said(
      conflict({ kind: 'short', severity: 'warned', positions: [9], frames: 3 }),
      cut,
    );
    expect(words.stamp).toBeNull();
    expect(words.body).toBe('It has 45 frames; with these joins at least 8 are wanted.');
    const outside = said(
      conflict({ kind: 'outside_take', severity: 'warned', positions: [8] }),
      cut,
    );
    expect(outside.body).toBe('R1·2996 to 3121. 3-T2 runs from 2611 to 3312.');
  });
  it('counts in words up to nine', () => {
    expect([1, 2, 9, 10, 1234].map(framesWords)).toEqual([
      'one frame',
      'two frames',
      'nine frames',
      '10 frames',
      '1,234 frames',
    ]);
  });
});

describe('the slip', () => {
  const short = conflict({ kind: 'short', severity: 'warned', positions: [2], frames: 1 });
  it('speaks of the chosen join first', () => {
    const slip = whatSlipSays(boatOneFrameShort(), 5);
    expect(slip.subject).toMatchObject({ what: 'conflict', here: true });
    expect(slip.goTo).toBeNull();
  });
  it('then of what concerns a piece that is joined there', () => {
    const slip = whatSlipSays(boatOneFrameShort(), 7);
    expect(slip).toMatchObject({ subject: { what: 'conflict', here: true }, goTo: null });
  });
  it('else of what stops the cut elsewhere, and where to go', () => {
    const slip = whatSlipSays(boatOneFrameShort(), 0);
    expect(slip.subject).toMatchObject({ what: 'conflict', here: false });
    expect(slip.goTo).toBe(6);
  });
  it('says that it can be made when nothing is refused, and names other places', () => {
    const slip = whatSlipSays(against(boat(), short), 9);
    expect(slip.subject).toEqual({ what: 'proved' });
    expect(slip.more).toEqual([0]);
    expect(nextPlace(slip.more, 9)).toBe(0);
    expect(nextPlace([2, 5], 3)).toBe(5);
  });
  it('asks at the join, until it is left so', () => {
    const question = {
      kind: 'jump',
      positions: [10, 11],
      text: '4-T2 is joined to itself: is it meant?',
      key: 'jump||R2·1495|R2·1532',
    };
    const cut = boat();
    const asked: Cut = { ...cut, check: { ...cut.check, questions: [question] } };
    expect(whatSlipSays(asked, 9).subject.what).toBe('question');
    expect(answeredAt(asked, 9)).toEqual([]);
    const left: Cut = { ...cut, check: { ...cut.check, answered: [{ ...question, note: '' }] } };
    expect(whatSlipSays(left, 9)).toMatchObject({ subject: { what: 'proved' }, more: [] });
    expect(answeredAt(left, 9).map((one) => one.key)).toEqual([question.key]);
    expect(answeredAt(left, 8)).toEqual([]);
  });
  it('asks where the later picture comes in, whatever stands between', () => {
    const at = (...positions: number[]) =>
      joinOfQuestion({ kind: 'light', positions, text: '', key: '' });
    expect(at(10, 11)).toBe(9);
    expect(at(3, 5)).toBe(3);
    // Of one piece the join behind it.
    expect(at(4)).toBe(3);
  });
  it('has nothing to say of an empty sheet', () => {
    expect(whatSlipSays({ ...boat(), pieces: [] }, -1).subject.what).toBe('empty');
  });
});

describe('the ways out of one of very many conflicts', () => {
  const cut = { ...boat('cement'), ways_later: true };
  const conflict = bitten();
  const bare = { ...conflict, remedies: [] };

  it('are awaited until they were found, and stand for no other conflict', () => {
    expect(knownWays(cut, bare, null)).toEqual({ conflict: bare, mendAll: [], awaited: true });
    const ways = { remedies: conflict.remedies, mend_all: [] };
    expect(knownWays(cut, bare, { conflict: bare, ways }).conflict).toEqual(conflict);
    expect(knownWays(cut, { ...bare }, { conflict: bare, ways }).awaited).toBe(true);
  });

  it('of few conflicts stand in the check', () => {
    const few = { ...cut, ways_later: false };
    expect(knownWays(few, conflict, null)).toEqual({ conflict, mendAll: [], awaited: false });
  });
});
