// @vitest-environment node
import { describe, expect, it } from 'vitest';
import { geometryFrom } from '$lib/film/gauge_geometry';
import { comparePair } from './compare_pair';
import { hangingPlan, hangingWords } from './hanging_plan';
import { cellsOf, placeOfCell } from './hung_pictures.svelte';
import { lengthsOf } from './lengths';
import { framesToHave, nearSight, SHEET } from './near_film';
import { filmOf, logOf, takeOf } from './pretend_log';
import { flagsOf, hangingSigns, signsOf, signWords, stripMarks } from './signs_of_take';

const SUPER8 = geometryFrom(filmOf([]).gauge);
const SIXTEEN = geometryFrom({
  width_mm: 15.95,
  pitch_mm: 7.62,
  picture: { w: 10.26, h: 7.49, left: 2.845 },
  hole: { w: 1.83, h: 1.27, edge: 0.91, radius: 0.25 },
  place: 'edge_on_frame_line',
});

describe('how a roll hangs', () => {
  it('the longest take ends before the table does, whatever the table', () => {
    for (const height of [200, 300, 440, 600, 900]) {
      for (const [longest, foot, geometry] of [
        [702, 72, SUPER8],
        [3600, 72, SUPER8],
        [4000, 40, SIXTEEN],
      ] as const) {
        const plan = hangingPlan(longest, foot, geometry, height);
        const long = (longest / plan.each) * geometry.pitch_mm * plan.scale;
        expect(long, `${longest} in ${height}`).toBeLessThanOrEqual(height + 0.001);
        expect(plan.scale).toBeLessThanOrEqual(8);
      }
    }
  });

  it('is as fine as the room allows', () => {
    expect(hangingPlan(702, 72, SUPER8, 620).each).toBe(36);
    expect(hangingPlan(702, 72, SUPER8, 440).each).toBe(48);
    expect(hangingPlan(702, 72, SUPER8, 400).each).toBe(60);
    expect(hangingWords(36, 72)).toBe('One picture every half foot.');
    expect(hangingWords(72, 72)).toBe('One picture every foot.');
    expect(hangingWords(144, 72)).toBe('One picture every 2 feet.');
    expect(hangingWords(50, 72)).toBe('One picture every 50 frames.');
    expect(hangingWords(1, 72)).toBe('Every frame hangs here.');
  });

  it('fills the table, whether its takes are short or long', () => {
    for (const height of [285, 300, 440, 620]) {
      for (const longest of [48, 66, 120, 288, 702, 3600]) {
        const plan = hangingPlan(longest, 72, SUPER8, height);
        const share = ((longest / plan.each) * SUPER8.pitch_mm * plan.scale) / height;
        expect(share, `${longest} in ${height}`).toBeGreaterThan(0.7);
        expect(plan.scale, `${longest} in ${height}`).toBeGreaterThanOrEqual(6.8);
      }
    }
    // Of a handful of frames each one hangs there, no larger than film may hang.
    expect(hangingPlan(5, 72, SUPER8, 620)).toEqual({ each: 1, scale: 8 });
  });

  it('finds each picture in a contact strip', () => {
    const cells = cellsOf('80 60 80 64 24');
    expect(cells).toEqual({ w: 80, h: 60, across: 80, down: 64, rows: 24 });
    expect(placeOfCell(cells!, 25)).toEqual({ x: 80, y: 64 });
    for (const odd of [null, '', '80 60', '80 60 0 64 24', 'a b c d e']) {
      expect(cellsOf(odd)).toBeNull();
    }
  });
});

describe('the film near by', () => {
  it('has the frame one is at in the middle', () => {
    const sight = nearSight(547, 3600, 540, 72);
    expect(sight.gate).toBe(234);
    expect(sight.top + (547 - sight.from) * 72).toBe(sight.gate);
    expect(sight.frames[0]).toBe(543);
    expect(sight.shown * 72 + sight.top).toBe(540);
  });

  it('begins and ends with the roll', () => {
    const head = nearSight(1, 3600, 540, 72);
    expect([head.from, head.top, head.frames[0]]).toEqual([0, 162, 0]);
    const tail = nearSight(3599, 3600, 540, 72);
    expect(tail.frames.at(-1)).toBe(3599);
    expect(nearSight(0, 1, 540, 72).frames).toEqual([0]);
  });

  it('has the pictures that come next in either way', () => {
    const on = framesToHave(SHEET + 40, 3600, 1);
    expect([on[0], on.at(-1)]).toEqual([SHEET, 3 * SHEET - 1]);
    const back = framesToHave(SHEET + 4, 3600, -1);
    expect([...back].sort((a, b) => a - b)[0]).toBe(0);
    expect(framesToHave(3599, 3600, 1).every((frame) => frame < 3600)).toBe(true);
    expect(framesToHave(0, 3600, -1).every((frame) => frame >= 0)).toBe(true);
  });
});

describe('signs', () => {
  const takes = [
    takeOf(24, 390, { setup: '1', take: 1, flash_frames: 1, flash_stops: 1.2 }),
    takeOf(390, 500, { setup: '1', take: 2 }),
  ];
  const sign = (kind: string, first: number, thrown: number) => ({
    kind,
    in: first,
    out: thrown,
    measure: kind === 'flash' ? 1.2 : 0.41,
    unit: kind === 'flash' ? 'stops over the take' : 'of 3-T2',
  });
  const log = logOf(takes, 600, {
    missing: 5,
    signs: [sign('flash', 24, 25), sign('soft', 100, 120), sign('hair', 390, 500)],
    anomalies: [{ at: 380, frames: 5, frames_low: 5, frames_high: 5, kind: 'skip' }],
  });
  const [, one, two] = lengthsOf(takes, 600);

  it('are those of the take, each once', () => {
    expect(signsOf(log, one!).map((each) => [each.kind, each.first, each.covers])).toEqual([
      ['flash', 24, 'flash'],
      ['soft', 100, 'part'],
      ['not seen', 380, 'part'],
    ]);
    expect(signsOf(log, two!).map((each) => [each.kind, each.covers])).toEqual([['hair', 'whole']]);
    expect(stripMarks(signsOf(log, one!), one!, 36).signs[1]).toEqual({
      from: 76 / 36,
      to: 96 / 36,
      kind: 'part',
    });
  });

  it('no flag lies on another', () => {
    const flags = flagsOf(signsOf(log, one!), (frame) => (frame - 24) / 10, 36);
    const tops = flags.map((flag) => flag.top);
    tops.slice(1).forEach((top, at) => expect(top - (tops[at] ?? 0)).toBeGreaterThanOrEqual(44));
  });

  it('show the frame and one without the sign', () => {
    const [flash, soft] = signsOf(log, one!);
    expect(comparePair(flash!, one!, takes)?.map((shown) => shown.frame)).toEqual([24, 36]);
    expect(comparePair(soft!, one!, takes)?.map((shown) => shown.words)).toEqual([
      'this take',
      '1-T2',
    ]);
    expect(comparePair(soft!, one!, takes)?.[1].frame).toBe(390 + 85);
    expect(comparePair(signsOf(log, one!)[2]!, one!, takes)).toBeNull();
    const [hair] = signsOf(log, two!);
    expect(comparePair(hair!, { ...two!, take: takeOf(390, 500) }, [])).toBeNull();
    expect(signWords(soft!)).toBe('Soft from 100 to 119: 0.41 of 3-T2.');
  });
});

it('what was measured to show most and least of a sign is compared, before any guess', () => {
  const takes = [
    takeOf(0, 100, { setup: '1', take: 1 }),
    takeOf(100, 200, { setup: '1', take: 2 }),
  ];
  const hair = { kind: 'hair', in: 20, out: 60, measure: 0.4, unit: '% of the picture' };
  const pairOf = (more: object) => {
    const log = logOf(takes, 200, { signs: [{ ...hair, ...more }] });
    const [length] = lengthsOf(log.takes, 200);
    const [sign] = signsOf(log, length!);
    return comparePair(sign!, length!, takes)?.map((shown) => [shown.frame, shown.words]);
  };
  expect(pairOf({ most: 33, least: 70 })).toEqual([
    [33, 'most of it'],
    [70, 'least of it'],
  ]);
  expect(pairOf({})?.[1]).toEqual([139, '1-T2']);
});

describe('flags of a hanging take', () => {
  const sign = (kind: string, first: number, measure = '') => ({
    kind,
    first,
    thrown: first + 5,
    measure,
    where: null,
    area: null,
    most: null,
    least: null,
    covers: 'part' as const,
  });
  const all = [sign('flash', 0), sign('shake', 2), sign('hair', 4), sign('soft', 9)];
  const kinds = (chosen: boolean, long: number) =>
    hangingSigns(all, chosen, long, 16).map((one) => one.kind);

  it('hang for what has a place; a flash only where one is, and last of all', () => {
    expect(kinds(false, 400)).toEqual(['hair', 'soft']);
    expect(kinds(true, 400)).toEqual(['flash', 'hair', 'soft']);
    expect(kinds(true, 150)).toEqual(['hair', 'soft']);
  });
  it('are no more than the film is long for, and one at least', () => {
    expect(kinds(true, 100)).toEqual(['hair']);
    expect(kinds(true, 10)).toEqual(['hair']);
  });
  it('say a measure without what it is a share of', () => {
    const [flag] = flagsOf([sign('hair', 0, '0.13 % of the picture')], () => 0, 100);
    expect(flag?.measure).toBe('0.13 %');
  });
});
