// What is drawn at the bench, as plans: ruler, frame card, pins, tallies, and words.
import { describe, expect, it } from 'vitest';
import {
  actCounted,
  countersOfBench,
  minutesWords,
  positionsOf,
  secondsWords,
} from './bench_words';
import { ACTS, CARD, CEMENT_TAIL, count, ON_THE_BENCH, SET_UP } from './boat_bench';
import { BeginForm } from './begin_form.svelte';
import { bladeWords, changesCounted, endOfStrip } from './card_frames';
import { foreseen } from './foreseen';
import { framesAPicture, hungFrames } from './hanging_pictures';
import { joinSides } from './join_sides';
import { rulerPlan } from './ruler_plan';
import { stripsFrom } from './strips_from';
import { MOST_GATES, tallyOf } from './tally';

const picture = (roll: string, frame: number) => `${roll}/${frame}`;

describe('the frame card', () => {
  it('of story 7: last thrown 546, first kept 547; last kept 606, first thrown 607', () => {
    const head = endOfStrip('R2', CARD.head, 'head', picture);
    expect(head.frames.map((one) => [one.name, one.state, one.words])).toEqual([
      ['R2·546', 'thrown', 'last thrown'],
      ['R2·547', 'kept', 'first kept'],
    ]);
    expect(head.cut).toBe(1);
    const tail = endOfStrip('R2', CARD.tail, 'tail', picture);
    expect(tail.frames.map((one) => [one.name, one.state, one.words])).toEqual([
      ['R2·606', 'kept', 'last kept'],
      ['R2·607', 'thrown', 'first thrown'],
    ]);
    expect(tail.cut).toBe(1);
  });

  it('with cement the blade goes behind the tongue', () => {
    const place = CEMENT_TAIL.card?.tail;
    if (!place) throw new Error('it has a card');
    const tail = endOfStrip('R2', place, 'tail', picture);
    expect(tail.frames.map((one) => [one.name, one.state])).toEqual([
      ['R2·606', 'kept'],
      ['R2·607', 'eaten'],
      ['R2·608', 'thrown'],
    ]);
    expect(tail.cut).toBe(2);
  });

  it('where the roll ends nothing is cut; a frame wanted elsewhere says where', () => {
    const ends = { ...CARD.tail, blade: 'roll_ends', thrown: null };
    expect(endOfStrip('R2', ends, 'tail', picture)).toMatchObject({ cut: undefined });
    const wanted = { ...CARD.head, thrown_in: 6 };
    expect(endOfStrip('R2', wanted, 'head', picture).frames[0]?.words).toBe('wanted in shot 6');
    expect(bladeWords('cut_before')).toBe('cut already');
    expect(bladeWords('cuts')).toBe('');
  });
});

describe('strong changes on the frame card', () => {
  it('are shown once, where the count goes from one', () => {
    expect(changesCounted(CARD.head)).toEqual([]);
    const change = count('it gets darker', 'change', 531, 16);
    const place = { ...CARD.head, chain: [...CARD.head.chain, change], nearer: change };
    expect(changesCounted(place)).toEqual([change]);
  });
});

describe('the ruler', () => {
  it('has the landmarks in their order and the two counts under it', () => {
    const plan = rulerPlan(CARD, 40);
    expect(plan.marks.map((mark) => mark.words)).toEqual([
      'camera stop 3B-T2',
      'rope leaves bollard',
      'splash',
    ]);
    expect(plan.counts.map((one) => one.frames)).toEqual([77, 60]);
    expect(plan.head).toBeLessThan(plan.tail);
    const frames = (plan.tail - plan.head) / ((plan.head - (plan.marks[0]?.at ?? 0)) / 77);
    expect(frames).toBeCloseTo(60, 6);
    expect(plan.rows).toBe(1);
  });

  it('words that would lie over each other stand in two rows', () => {
    expect(rulerPlan(CARD, 14).rows).toBeGreaterThan(1);
  });

  it('counts that lie over each other are not both drawn', () => {
    const plan = rulerPlan({ ...CARD, this_end: 'tail' }, 40);
    expect(plan.counts.map((one) => one.frames)).toEqual([137]);
  });

  it('a count backwards is drawn from its landmark as well', () => {
    const head = { ...CARD.head, chain: [count('flash', 'flash', 560, 13, 'head')], nearer: null };
    const plan = rulerPlan({ ...CARD, head }, 40);
    expect(plan.marks.map((mark) => mark.words)).toContain('flash');
    expect(plan.counts[0]?.frames).toBe(13);
  });
});

describe('the ruler where the roll was cut before', () => {
  it('shows that cut, from which is counted, and nothing beyond its ends', () => {
    const chain = [count('last cut', 'last_cut', 511, 36, 'tail')];
    const head = { ...CARD.head, chain, nearer: null };
    const tail = { ...CARD.tail, chain: [], nearer: null };
    const plan = rulerPlan({ ...CARD, head, tail }, 40);
    expect(plan.marks.map((mark) => mark.words)).toEqual(['last cut']);
    for (const one of plan.counts) {
      expect(Math.min(one.from, one.to)).toBeGreaterThanOrEqual(0);
      expect(Math.max(one.from, one.to)).toBeLessThanOrEqual(1);
    }
  });

  it('does not name the other cut of the strip a landmark', () => {
    const chain = [count('last cut', 'last_cut', CARD.head.at, 60, 'tail')];
    const tail = { ...CARD.tail, chain, nearer: null };
    const plan = rulerPlan({ ...CARD, tail, this_end: 'tail' }, 40);
    expect(plan.marks.map((mark) => mark.words)).not.toContain('last cut');
  });
});

describe('what hangs', () => {
  it('is drawn longer where it is longer, with pictures of itself only', () => {
    const each = framesAPicture([45, 270]);
    const short = hungFrames({ roll: 'R1', in: 1822, out: 1867 }, each);
    const long = hungFrames({ roll: 'R3', in: 2505, out: 2775 }, each);
    const drawn = (one: typeof long) => one.frames.length - 1 + one.last;
    expect(drawn(long)).toBeGreaterThan(drawn(short));
    expect(drawn(long)).toBeLessThanOrEqual(6);
    expect(long.frames[0]).toBe(2505);
    for (const frame of short.frames) expect(frame >= 1822 && frame < 1867).toBe(true);
    expect(new Set(long.frames).size).toBe(long.frames.length);
  });

  it('a strip of one frame is one picture of it', () => {
    const one = hungFrames({ roll: 'R1', in: 7, out: 8 }, 45);
    expect(new Set(one.frames)).toEqual(new Set([7]));
  });
});

describe('tallies', () => {
  it('30 of 46 are six gates full, the last of one bar', () => {
    const { gates } = tallyOf(30, 46);
    expect(gates).toHaveLength(10);
    expect(gates.filter((gate) => gate.done === 5)).toHaveLength(6);
    expect(gates.at(-1)).toEqual({ done: 0, all: 1 });
  });

  it('of a long tally the gates about the last bar are in sight', () => {
    for (const done of [0, 299, 600]) {
      const { gates } = tallyOf(done, 600);
      expect(gates).toHaveLength(MOST_GATES);
      const bars = gates.reduce((sum, gate) => sum + gate.done, 0);
      expect(bars > 0).toBe(done > 0);
      expect(bars < 50).toBe(done < 600);
    }
  });
});

describe('words', () => {
  it('counts, positions, times', () => {
    expect(actCounted(ACTS.cut)).toBe('cut 31 of 46');
    expect(positionsOf({ position: 18, last_position: 20 })).toBe('18–20');
    expect(positionsOf({ position: null })).toBe('');
    expect(minutesWords(68)).toBe('about 1 h 8 min');
    expect(minutesWords(0.2)).toBe('about 1 min');
    expect(minutesWords(null)).toBe('');
    expect(secondsWords(90)).toBe('90 s');
    expect(secondsWords(120)).toBe('2 min');
  });

  it('the plates say the roll and what is wound', () => {
    const [roll, wound] = countersOfBench(ON_THE_BENCH);
    expect(roll?.parts).toContainEqual({ count: 'R2' });
    expect(wound?.parts).toEqual([{ words: 'wound' }, { count: '6,482' }, { words: 'of 9,724' }]);
  });

  it('the ends of the reel are joined to leader', () => {
    expect(joinSides(ACTS.join)).toEqual({ out: '6', into: '7' });
    const first = { ...ACTS.join, outgoing: null, position: 1, incoming: null };
    expect(joinSides(first)).toEqual({ out: 'leader', into: '1' });
    const last = { ...ACTS.join, incoming: null, position: null };
    expect(joinSides(last)).toEqual({ out: '6', into: 'leader' });
  });
});

describe('what comes', () => {
  it('strips of a roll, once each, up to where it comes off', () => {
    const other = { ...ACTS.cut, span: { roll: 'R2', in: 1280, out: 1496 }, position: 10 };
    const acts = [
      ACTS.mount,
      ACTS.cut,
      ACTS.tail,
      other,
      { ...ACTS.unmount, roll: 'R2' },
      ACTS.cut,
    ];
    expect(stripsFrom('R2', acts).map((one) => one.position)).toEqual([7, 10]);
  });

  it('a tick of another bench is not foreseen', () => {
    const bench = {
      revision: 1,
      lines: 47,
      on_the_bench: ON_THE_BENCH,
      versions: [],
      assumptions: [],
      set_up: SET_UP,
    };
    const waiting = [{ key: 'a', write: { bench: 'tick' as const, lines: 46 } }];
    expect(foreseen(bench, waiting, new Date(0))).toBe(bench);
  });

  it('what is hung takes its pin, and gives it back when it is joined', () => {
    const hang = { ...ACTS.hang, pin: 11 };
    const join = { ...ACTS.join, pin: 11 };
    const on = { ...ON_THE_BENCH, acts: [hang, join] };
    const bench = {
      revision: 1,
      lines: 1,
      on_the_bench: on,
      versions: [],
      assumptions: [],
      set_up: SET_UP,
    };
    const tick = (lines: number) => ({ key: `${lines}`, write: { bench: 'tick' as const, lines } });
    const hung = foreseen(bench, [tick(1)], new Date(0)).on_the_bench;
    expect(hung?.pins_taken.done).toBe(10);
    expect(hung?.pins[10]?.hangs?.frames).toBe(126);
    const joined = foreseen(bench, [tick(1), tick(2)], new Date(0)).on_the_bench;
    expect(joined?.pins_taken.done).toBe(9);
    expect(joined?.joins.done).toBe(7);
  });

  it('begins with the version chosen, the first that can be else', () => {
    const form = new BeginForm();
    expect(form.write).toBeNull();
    const one = { frames: 9, pieces: 1, join: 'tape', not_proved: [] };
    form.versions = [
      { ...one, name: 'a', why_not: 'no' },
      { ...one, name: 'b', why_not: null },
      { ...one, name: 'c', why_not: null },
    ];
    expect(form.version?.name).toBe('b');
    form.chosen = 'a';
    expect(form.version?.name).toBe('b');
    form.chosen = 'c';
    form.winding = 'tails';
    expect(form.write).toEqual({
      bench: 'begin',
      cut: 'c',
      pins: 12,
      tails: true,
      to_and_fro: false,
    });
  });
});
