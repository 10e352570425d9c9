import { describe, expect, it } from 'vitest';
import { boat, film, shot, standing } from './boat_v1';
import { countersOfCut } from './counters_of_cut';
import { extremes, feetMarks, heightOfJoin, joinAtHeight, laidFilm } from './film_in_proportion';
import { joinCosts, joinName, joinRow } from './joins';
import { besideStrip, loupe } from './loupe';
import { joinSays } from './piece_words';
import { firstDifference } from './pieces';
import { aboutJoin } from './plan_of_cut';
import { lineOfDrop } from './row_drag.svelte';
import { RowKeys } from './row_keys';
import { nextVersion } from './version_names';
import { parseFrame, parseLength } from './words_of_length';
import { geometryFrom } from '$lib/film/gauge_geometry';

const speed = { num: 18, den: 1 };

describe('lengths as they are typed', () => {
  it.each([
    ['36', 36],
    ['36 fr', 36],
    ['1 frame', 1],
    ['2ft12', 156],
    ['2+12', 156],
    ['1,200', 1200],
  ])('%s is %i frames', (text, frames) => expect(parseLength(text, 72)).toBe(frames));
  it.each(['', '0', 'soon', '-3', '1.5'])('"%s" is none', (text) =>
    expect(parseLength(text, 72)).toBeNull(),
  );
  it('a frame is written with or without its roll, never with another', () => {
    expect(['2939', 'R1·2939', 'R1.2,939'].map((text) => parseFrame(text, 'R1'))).toEqual([
      2939, 2939, 2939,
    ]);
    expect(parseFrame('R2·2939', 'R1')).toBeNull();
    expect(parseFrame('R2·6o6', 'R2')).toBeNull();
  });
});

describe('the whole film in proportion', () => {
  const { pieces, frames } = boat();
  const laid = laidFilm(pieces, 1000, 24);
  it('fills its height without a gap', () => {
    expect(laid[0]?.top).toBe(0);
    laid.forEach((one, at) => expect(one.top + one.height).toBeCloseTo(laid[at + 1]?.top ?? 1000));
    expect(laid[0]?.height).toBeCloseTo((180 / frames) * 1000);
  });
  it('knows the join nearest to the hand', () => {
    expect(joinAtHeight(laid, heightOfJoin(laid, 6) + 2)).toBe(6);
    expect(joinAtHeight(laid, 0)).toBe(-1);
    expect(joinAtHeight(laid, 5000)).toBe(pieces.length - 1);
  });
  it('marks round feet', () => {
    expect(feetMarks(37.8, 11)).toEqual([0, 5, 10, 15, 20, 25, 30, 35]);
    expect(feetMarks(400, 8)).toEqual([0, 50, 100, 150, 200, 250, 300, 350, 400]);
  });
  it('leaves titles out of the shortest and the longest', () => {
    expect(extremes(pieces)).toEqual({ shortest: 8, longest: 9 });
    expect(extremes([])).toBeNull();
  });
});

describe('film under the loupe', () => {
  it('beside words is as large as a low table allows, not as its width', () => {
    const table = { width: 556, height: 357 };
    const { scale } = loupe(geometry, table, 1, 2 * besideStrip(table.width));
    expect(scale).toBeCloseTo(table.height / (2.8125 * geometry.pitch_mm), 5);
    expect(besideStrip(700)).toBeCloseTo(189, 5);
    expect([besideStrip(2000), besideStrip(300)]).toEqual([200, 140]);
  });
  const geometry = geometryFrom(film([]).gauge);
  it('is 42 px a millimetre on the table that was drawn', () => {
    expect(loupe(geometry, { width: 716, height: 500 }, 2, 46).scale).toBeCloseTo(42, 0);
  });
  it('keeps both strips on a narrow table', () => {
    const { scale } = loupe(geometry, { width: 556, height: 500 }, 2, 46);
    expect(2 * scale * geometry.width_mm + 46).toBeLessThanOrEqual(556.01);
  });
  it('lays enough film to fill what is in sight', () => {
    const { shown, reach } = loupe(geometry, { width: 300, height: 900 }, 2, 46);
    expect(2 * reach).toBeGreaterThan(shown);
  });
});

describe('words', () => {
  it('name a join', () => {
    expect([-1, 6, 11].map((join) => joinName(join, 12))).toEqual([
      'head leader | 1',
      '7 | 8',
      '12 | tail leader',
    ]);
    expect(joinCosts(joinRow(boat(), 'cement'))).toBe('eats 1 frame, marks 1');
    expect(joinCosts(joinRow(boat(), 'tape'))).toBe('eats none, marks 4');
  });
  it('say what a join joins', () => {
    const { pieces } = boat();
    expect(joinSays(pieces[6], pieces[7])).toBe('the rope comes off, then the ferry leaves');
    expect(joinSays(undefined, pieces[0])).toBe('the film begins: main title');
  });
  it('give a new version a free name', () => {
    expect(nextVersion([])).toBe('v1');
    expect(nextVersion(['v1', 'v7', 'with the bell'])).toBe('v8');
  });
  it('stand on the plates, with their sums', () => {
    const plates = countersOfCut({ ...boat(), frames: 2724 }, 72, speed);
    const read = plates.map((plate) =>
      plate.parts.map((part) => ('count' in part ? part.count : part.words)).join(' '),
    );
    expect(read).toEqual(['37 ft 60 fr', '2,724 frames', '2:31.3 at 18 f/s']);
    expect(plates.every((plate) => (plate.sum?.length ?? 0) > 0)).toBe(true);
  });
});

it('the sum of a long cut says what each roll gives', () => {
  const many = standing(
    Array.from({ length: 41 }, (_, at) => shot('1-T1', `R${(at % 2) + 1}`, 9, 19)),
  );
  const [, frames] = countersOfCut({ ...boat(), pieces: many, frames: 410 }, 72, speed);
  expect(frames?.sum?.map((line) => line.sum)).toEqual([
    '21 pieces of R1: 210 frames',
    '20 pieces of R2: 200 frames',
    '410 frames',
  ]);
});

describe('the order of the sheet', () => {
  it('a row put down goes between the two others', () => {
    expect(lineOfDrop(-20, 56, 5)).toBe(0);
    expect(lineOfDrop(2.4 * 56, 56, 5)).toBe(2);
    expect(lineOfDrop(2.6 * 56, 56, 5)).toBe(3);
    expect(lineOfDrop(900, 56, 5)).toBe(5);
  });
  it('two sheets differ at the first piece that is not the same', () => {
    const { pieces } = boat();
    expect(firstDifference(pieces, pieces)).toBeNull();
    expect(
      firstDifference(
        pieces,
        pieces.filter((_, at) => at !== 3),
      ),
    ).toBe(3);
  });
  it('rows keep who they are while one is trimmed, lifted or laid in', () => {
    const known = new RowKeys();
    const forms = ['1-T1', '2-T1', '3-T1', '4-T1'].map((slate, at) =>
      shot(slate, 'R1', at * 50, at * 50 + 20),
    );
    const first = known.of(standing(forms));
    expect(new Set(first).size).toBe(4);
    const trimmed = forms.map((form, at) => (at === 1 ? { ...form, in: 55 } : form));
    expect(known.of(standing(trimmed))).toEqual(first);
    const lifted = trimmed.filter((_, at) => at !== 1);
    expect(known.of(standing(lifted))).toEqual([first[0], first[2], first[3]]);
    const [one, two, three] = lifted.map((form) => form);
    const laid = known.of(
      standing([one, two, shot('5-T1', 'R2', 0, 9), three].flatMap((form) => form ?? [])),
    );
    expect([laid[0], laid[1], laid[3]]).toEqual([first[0], first[2], first[3]]);
    expect(first).not.toContain(laid[2]);
  });
});

it('across a join run a second and a half on either side', () => {
  const { plan, joinAt } = aboutJoin(boat().pieces, 6, speed);
  expect([plan.length, joinAt]).toEqual([54, 27]);
  expect(plan.showing(26)).toEqual({ kind: 'picture', roll: 'R2', frame: 606 });
  expect(plan.showing(27)).toEqual({ kind: 'picture', roll: 'R1', frame: 2996 });
});
