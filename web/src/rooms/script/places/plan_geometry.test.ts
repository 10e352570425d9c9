import { expect, test } from 'vitest';
import {
  bearing,
  fieldAngle,
  metres,
  overTheLine,
  scaleOf,
  sunOnPlan,
  towards,
} from './plan_geometry';
import { clockMinutes, clockText } from './sun_of_plan';

const plan = {
  name: 'the landing',
  scenes: [],
  width: 2000,
  height: 1000,
  north: 90,
  latitude: 54000,
  longitude: 10000,
  day: '2026-06-21',
  utc_offset: 120,
  lines: [],
  line_of_action: null,
  cameras: [],
  marks: [],
};

test('angles go clockwise from the top of the drawing', () => {
  const [x, y] = towards([100, 100], 90, 50);
  expect([x, y].map(Math.round)).toEqual([150, 100]);
  expect([0, 90, 180, 270].map((turn) => bearing([0, 0], towards([0, 0], turn, 10)))).toEqual([
    0, 90, 180, 270,
  ]);
});

test('a lens sees as wide as the rows of the house say', () => {
  // O032 and O041: Super 8 at 12.5 mm, 16 mm at 12.5 mm, computed from their gates.
  expect(fieldAngle(5.79, 125)).toBeCloseTo(26.08, 1);
  expect(fieldAngle(10.26, 125)).toBeCloseTo(44.63, 1);
  expect(fieldAngle(5.79, 0)).toBe(0);
});

test('a camera over the line is told, one on the line is not', () => {
  const line = [
    [0, 0],
    [100, 0],
  ] as const;
  expect(overTheLine(line, [50, 40], [20, -10])).toBe(true);
  expect(overTheLine(line, [50, 40], [20, 10])).toBe(false);
  expect(overTheLine(line, [50, 40], [20, 0])).toBe(false);
  expect(overTheLine(null, [50, 40], [20, -10])).toBe(false);
});

test('the sun comes from where it stands, with north where the drawing has it', () => {
  const [low, high] = sunOnPlan(plan, [
    { hour: '06:00', azimuth: 90, altitude: 0 },
    { hour: '12:00', azimuth: 180, altitude: 60 },
    { hour: '23:00', azimuth: 350, altitude: -10 },
  ]);
  // North lies to the right, so east lies below.
  expect(low?.at.map(Math.round)).toEqual([1000, 970]);
  expect(high?.at.map(Math.round)).toEqual([765, 500]);
  expect(sunOnPlan(plan, [{ hour: '23:00', azimuth: 0, altitude: -1 }])).toEqual([]);
});

test('the scale is a round length, the clock is read both ways', () => {
  expect([2000, 900, 60].map(scaleOf)).toEqual([200, 100, 10]);
  expect(metres(250)).toBe('2.5 m');
  expect(['+02:00', '-3:30', '2', '25', 'x'].map(clockMinutes)).toEqual([
    120,
    -210,
    120,
    null,
    null,
  ]);
  expect([120, -210, 0].map(clockText)).toEqual(['+02:00', '-03:30', '+00:00']);
});
