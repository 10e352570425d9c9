// @vitest-environment node
import { describe, expect, it } from 'vitest';
import {
  type GaugeGeometry,
  geometryFrom,
  holeColumns,
  pictureShape,
  scaleForWidth,
  stripHeight,
  stripHoles,
  stripLayout,
} from './gauge_geometry';
import {
  frameAtHeight,
  framesForEach,
  heightOfFrame,
  hungPictures,
  hungWords,
} from './hanging_strip';
import { span } from './span';

const SUPER8: GaugeGeometry = {
  width_mm: 7.976,
  pitch_mm: 4.234,
  picture: { w: 5.79, h: 4.01, left: 1.46 },
  hole: { w: 0.914, h: 1.143, edge: 0.51, radius: 0.13 },
  place: 'beside_picture',
};
const SIXTEEN: GaugeGeometry = {
  width_mm: 15.95,
  pitch_mm: 7.62,
  picture: { w: 10.26, h: 7.49, left: 2.845 },
  hole: { w: 1.83, h: 1.27, edge: 0.91, radius: 0.25 },
  place: 'edge_on_frame_line',
};
const NINE_FIVE: GaugeGeometry = {
  width_mm: 9.5,
  pitch_mm: 7.54,
  picture: { w: 8.5, h: 6.5, left: 0.5 },
  hole: null,
  place: 'centre_on_frame_line',
};

describe('the strip to scale', () => {
  it('Super 8 has one hole beside the middle of each picture', () => {
    const layout = stripLayout(SUPER8, 10);
    const hole = layout.holes[0];
    expect(layout.holes).toHaveLength(1);
    expect(hole?.x).toBeCloseTo(5.1);
    // The middle of the hole is the middle of the picture.
    const middle = layout.picture.y + layout.picture.h / 2;
    expect((hole?.y ?? 0) + (hole?.h ?? 0) / 2).toBeCloseTo(middle);
    expect(layout.picture.y).toBeCloseTo(1.12);
    expect(layout.picture.x).toBeCloseTo(14.6);
    expect(stripHoles(layout, 3).map((each) => each.y)).toHaveLength(3);
    expect(stripHeight(layout, 3)).toBeCloseTo(127.02);
  });

  it('16 mm has its holes on the frame lines, on one or both edges', () => {
    const layout = stripLayout(SIXTEEN, 6, 'both');
    expect(layout.holes.map((hole) => hole.x)).toEqual([0.91 * 6, (15.95 - 0.91 - 1.83) * 6]);
    expect(layout.holes.every((hole) => hole.y === (-1.27 / 2) * 6)).toBe(true);
    // Three frames have four lines; a hole at either end is cut through its middle.
    const left = stripHoles(stripLayout(SIXTEEN, 6), 3);
    expect(left).toHaveLength(4);
    const last = left[3];
    expect((last?.y ?? 0) + (last?.h ?? 0) / 2).toBeCloseTo(3 * 7.62 * 6);
    expect(holeColumns(layout)).toHaveLength(2);
  });

  it('9.5 has no hole until one is measured, then one in the middle', () => {
    expect(stripHoles(stripLayout(NINE_FIVE, 6), 5)).toEqual([]);
    const measured = { ...NINE_FIVE, hole: { w: 2.4, h: 1, edge: 0, radius: 0.2 } };
    const hole = stripLayout(measured, 1).holes[0];
    expect((hole?.x ?? 0) + (hole?.w ?? 0) / 2).toBeCloseTo(9.5 / 2);
    expect((hole?.y ?? 0) + (hole?.h ?? 0) / 2).toBeCloseTo(0);
  });

  it('35 mm has four holes on both edges of each picture', () => {
    const hole = { w: 2.8, h: 1.98, edge: 2, radius: 0.5 };
    const picture = { w: 22.05, h: 16.03, left: 6.5 };
    const place = 'four_both_edges' as const;
    const layout = stripLayout({ width_mm: 34.975, pitch_mm: 19, picture, hole, place }, 5);
    expect(layout.holes).toHaveLength(8);
    expect(stripHoles(layout, 2)).toHaveLength(16);
    expect(holeColumns(layout)).toHaveLength(2);
  });

  it('draws a plain row when small, and the stripe away from the holes', () => {
    expect(stripLayout(SUPER8, 4.9).plain).toBe(true);
    expect(stripLayout(SUPER8, 5).plain).toBe(false);
    const { stripe, width, holes } = stripLayout(SUPER8, 42);
    expect(stripe.x + stripe.w).toBeCloseTo(width);
    expect(stripe.x).toBeGreaterThan(holes[0]?.x ?? Infinity);
    expect(scaleForWidth(SUPER8, 7.976 * 7)).toBeCloseTo(7);
    expect(pictureShape(SUPER8)).toEqual({ w: 5.79, h: 4.01 });
  });
});

it('comes out of a document of the server', () => {
  const { hole: _none, ...words } = { ...NINE_FIVE, frames_per_foot: 40, name: '9.5 mm' };
  expect(geometryFrom(words)).toEqual(NINE_FIVE);
  expect(geometryFrom({ ...SUPER8 })).toEqual(SUPER8);
  expect(() => geometryFrom({ ...SUPER8, place: 'nowhere' })).toThrow(RangeError);
});

describe('a hanging strip', () => {
  const take = span('R1', 1352, 1568);

  it('shows one picture for several frames and says how many', () => {
    const hung = hungPictures(take, 36);
    expect(hung.map((picture) => picture.frame)).toEqual([1352, 1388, 1424, 1460, 1496, 1532]);
    expect(hungPictures(span('R1', 0, 40), 36)).toEqual([
      { frame: 0, standsFor: 36 },
      { frame: 36, standsFor: 4 },
    ]);
    expect(hungWords(36)).toBe('One picture every 36 frames.');
    expect(hungWords(1)).toBe('Every frame.');
    expect(framesForEach(216, 6)).toBe(36);
    expect(framesForEach(217, 6)).toBe(37);
    expect(framesForEach(3, 10)).toBe(1);
  });

  it('knows the frame under a finger', () => {
    expect(frameAtHeight(take, 36, 30, 0)).toBe(1352);
    expect(frameAtHeight(take, 36, 30, 45)).toBe(1406);
    expect(frameAtHeight(take, 36, 30, -5)).toBe(1352);
    expect(frameAtHeight(take, 36, 30, 9999)).toBe(1567);
    expect(heightOfFrame(take, 36, 30, 1406)).toBe(45);
  });
});
