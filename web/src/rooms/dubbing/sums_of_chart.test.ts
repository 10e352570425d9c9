// @vitest-environment node
import { describe, expect, it } from 'vitest';
import { ChartScale, ruleText } from './chart_scale';
import { wordsBelow } from './cue_words';
import {
  across,
  levelAt,
  levelIn,
  levelText,
  lineOf,
  LOUDEST,
  movedPoint,
  readLevel,
  SOFTEST,
  warningTicks,
  wedge,
  withPoint,
} from './level_line';
import { peaksOfCue, wavePath } from './wave';

const NONE = { frames: 0, shape: 'equal_power' as const };
const cue = { level: -60, line: [], fade_in: NONE, fade_out: NONE };
const scale = new ChartScale(72, 49);

describe('the measure of the chart', () => {
  it('stands 49 px a foot apart, and reads back each frame', () => {
    expect([scale.y(0), scale.y(72), scale.y(1656)]).toEqual([0, 49, 23 * 49]);
    for (let frame = -90; frame < 3000; frame += 7) {
      expect(scale.frameAt(scale.y(frame))).toBe(frame);
    }
  });
  it('says feet and frames, before the first picture too', () => {
    // 23 ft × 72 + 30 = 1,686, the frame of the drawing of this room.
    expect([ruleText(1686, 72), ruleText(0, 72), ruleText(-74, 72)]).toEqual([
      '23+30',
      '0+00',
      '−1+02',
    ]);
  });
  it('rules no two marks closer than nine px, each foot among them', () => {
    for (const zoom of [12, 24, 49, 98, 196, 392]) {
      const marks = new ChartScale(72, zoom).marks({ from: -72, to: 720 });
      const gaps = marks.slice(1).map((mark, nth) => mark.y - (marks[nth]?.y ?? 0));
      expect(Math.min(...gaps)).toBeGreaterThanOrEqual(9);
      for (let foot = -1; foot < 10; foot += 1)
        expect(marks.some(({ y }) => y === foot * zoom)).toBe(true);
    }
  });
  it('draws what is about the rule in whole feet, and a foot more at both ends', () => {
    const seen = scale.about(1686, 240, 420);
    expect(seen.from % 72 === 0 && seen.to % 72 === 0).toBe(true);
    expect(scale.y(seen.from)).toBeLessThanOrEqual(scale.y(1686) - 240);
    expect(scale.y(seen.to)).toBeGreaterThanOrEqual(scale.y(1686) + 420);
  });
  it('goes nearer and farther, and no further than it can', () => {
    expect([scale.zoomed(1), scale.zoomed(-1)]).toEqual([98, 24]);
    expect(new ChartScale(72, 392).zoomed(1)).toBe(392);
    expect(new ChartScale(72, 12).zoomed(-1)).toBe(12);
  });
});

describe('the level line', () => {
  it('stands across the column as loud as it is, and reads back in half decibels', () => {
    expect([across(SOFTEST), across(LOUDEST), across(-9999)]).toEqual([0, 1, 0]);
    for (let level = SOFTEST; level <= LOUDEST; level += 5)
      expect(levelAt(across(level))).toBe(level);
  });
  it('writes and reads decibels', () => {
    expect([-65, 30, 0, -5].map(levelText)).toEqual(['−6.5 dB', '+3 dB', '0 dB', '−0.5 dB']);
    expect(['-6.5', '−6 dB', '+3', '0,5', 'loud', '13', '-97'].map(readLevel)).toEqual([
      -65,
      -60,
      30,
      5,
      null,
      null,
      null,
    ]);
    for (let level = -960; level <= LOUDEST; level += 1)
      expect(readLevel(levelText(level))).toBe(level);
  });
  it('goes straight from point to point, and stays at its ends', () => {
    const lined = {
      level: -60,
      line: [
        { at: 10, level: 0 },
        { at: 20, level: -100 },
      ],
    };
    expect([0, 10, 15, 20, 99].map((at) => levelIn(lined, at))).toEqual([
      -60, -60, -110, -160, -160,
    ]);
  });
  it('is not heard to change when a point is put on it', () => {
    const lined = {
      level: -60,
      line: [
        { at: 10, level: 0 },
        { at: 30, level: -100 },
      ],
    };
    const more = { ...lined, line: withPoint(lined, 20) };
    expect(more.line).toHaveLength(3);
    for (let at = 0; at < 40; at += 1) expect(levelIn(more, at)).toBeCloseTo(levelIn(lined, at), 9);
    expect(withPoint(more, 20)).toEqual(more.line);
  });
  it('keeps its points in their order and in the cue', () => {
    const line = [
      { at: 10, level: 0 },
      { at: 20, level: 0 },
      { at: 30, level: 0 },
    ];
    expect(movedPoint(line, 1, { at: 5, level: -30 }, 40)[1]).toEqual({ at: 11, level: -30 });
    expect(movedPoint(line, 2, { at: 99, level: 999 }, 40)[2]).toEqual({ at: 40, level: LOUDEST });
    expect(movedPoint(line, 0, { at: -4, level: 0 }, 40)[0]?.at).toBe(0);
  });
  it('has one handle in the middle where it has no points, else one on each', () => {
    expect(lineOf(cue, 72, scale, 100).handles).toEqual([
      { point: -1, x: across(-60) * 100, y: scale.y(36) },
    ]);
    const lined = {
      ...cue,
      line: [
        { at: 0, level: 0 },
        { at: 72, level: -60 },
      ],
    };
    expect(lineOf(lined, 72, scale, 100).handles.map(({ y }) => y)).toEqual([0, 49]);
  });
  it('draws a fade as a wedge as long as it is, and none where there is none', () => {
    expect(wedge(cue, 72, 'in', scale, 100)).toBeNull();
    const faded = { ...cue, level: LOUDEST, fade_out: { ...NONE, frames: 36 } };
    expect(wedge(faded, 72, 'out', scale, 100)).toBe('M0 24.5L100.0 24.5L0 49.0Z');
  });
  it('warns three, two, one second before, longer each time', () => {
    // At 18 f/s: 1,728 − 54, − 36, − 18.
    const ticks = warningTicks(1728, { num: 18, den: 1 });
    expect(ticks.map(({ frame }) => frame)).toEqual([1674, 1692, 1710]);
    expect(ticks.map(({ length }) => length)).toEqual([6, 12, 18]);
    expect(warningTicks(1728, { num: 1837, den: 100 })[0]?.frame).toBe(1728 - 55);
  });
});

describe('the waveform', () => {
  const peaks = Array.from({ length: 100 }, (_, nth) => nth / 100);
  it('shows the part that is played, the highest of each stretch', () => {
    expect(peaksOfCue(peaks, 0, 1, 10, false).at(0)).toBe(0.09);
    expect(peaksOfCue(peaks, 0.5, 1, 5, false)).toEqual([0.59, 0.69, 0.79, 0.89, 0.99]);
  });
  it('is silent behind the end of a sound, unless that goes round', () => {
    expect(peaksOfCue(peaks, 0, 2, 4, false).slice(2)).toEqual([0, 0]);
    const round = peaksOfCue(peaks, 0, 2, 4, true);
    expect(round.slice(2)).toEqual(round.slice(0, 2));
  });
  it('is a closed shape about the middle', () => {
    expect(wavePath([1, 0], 20, 2)).toBe('M18.0 0L10.6 2L10 4L9.4 2L2.0 0Z');
    expect(wavePath([], 20, 2)).toBe('');
  });
});

describe('words of cues', () => {
  const stroke = (id: number, at: number, column = 1) =>
    ({ id, at, frames: 1, state: 'held', cue: { column, stroke: true } }) as never;
  it('stand below one another where strokes follow fast, and are left out where none fits', () => {
    // Bell strokes of the example are 19 frames apart: 13 px on the usual chart.
    const bells = [stroke(1, 1349), stroke(2, 1368), stroke(3, 1387), stroke(9, 1350, 2)];
    const words = wordsBelow(bells, scale);
    const tops = [1, 2, 3].map((id, nth) => scale.y(1349 + 19 * nth) + (words.get(id) ?? 99));
    expect((tops[1] ?? 0) - (tops[0] ?? 0)).toBeCloseTo(19, 6);
    expect((tops[2] ?? 0) - (tops[1] ?? 0)).toBeCloseTo(19, 6);
    expect([words.get(1), words.get(9)]).toEqual([0, 0]);
    // A bed that begins where the last word stands has its name below that.
    const bed = { id: 5, at: 1400, frames: 500, state: 'held', cue: { column: 1 } } as never;
    const below = (wordsBelow([...bells, bed], scale).get(5) ?? 0) + scale.y(1400);
    expect(below - (tops[2] ?? 0)).toBeCloseTo(19, 6);
    const many = Array.from({ length: 12 }, (_, nth) => stroke(nth, 100 + 3 * nth));
    const fast = wordsBelow(many, scale);
    const written = many.filter((_, nth) => fast.get(nth) !== null);
    expect(written.length).toBeGreaterThan(2);
    expect(written.length).toBeLessThan(12);
  });
});
