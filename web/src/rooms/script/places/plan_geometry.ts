// A floor plan as it is drawn: centimetres on paper, angles clockwise from the top.
import type { FloorPlan } from '../script_types';
import type { SunAt } from './sun_of_plan';

export type Point = readonly [number, number];

/** A point as the program gives it. */
export const pointOf = (raw: readonly number[]): Point => [raw[0] ?? 0, raw[1] ?? 0];

/** The point so far away in a direction. */
export function towards([x, y]: Point, degrees: number, far: number): Point {
  const turn = (degrees * Math.PI) / 180;
  return [x + far * Math.sin(turn), y - far * Math.cos(turn)];
}

/** Which way one point lies from another, in whole degrees. */
export function bearing([x, y]: Point, [tx, ty]: Point): number {
  const turn = (Math.atan2(tx - x, y - ty) * 180) / Math.PI;
  return (Math.round(turn) + 360) % 360;
}

/** What a camera sees, as the corners of a wedge so far out. */
export function wedge(at: Point, looks: number, angle: number, far: number): Point[] {
  return [at, towards(at, looks - angle / 2, far), towards(at, looks + angle / 2, far)];
}

export const pointsText = (points: readonly Point[]) =>
  points.map(([x, y]) => `${x.toFixed(1)},${y.toFixed(1)}`).join(' ');

/** Where the sun comes from on the drawing, as far as it is up. */
export function sunOnPlan(plan: FloorPlan, sun: readonly SunAt[]): (SunAt & { at: Point })[] {
  const middle: Point = [plan.width / 2, plan.height / 2];
  const most = Math.min(plan.width, plan.height) * 0.47;
  return sun
    .filter((one) => one.altitude >= 0)
    .map((one) => {
      // The higher it stands the nearer the middle: the drawing seen from above.
      const far = most * Math.cos((one.altitude * Math.PI) / 180);
      return { ...one, at: towards(middle, one.azimuth + plan.north, far) };
    });
}

/** A round length for the scale below the drawing, about a fifth of its width. Unit: centimetres. */
export function scaleOf(width: number): number {
  const wanted = width / 5;
  const ten = 10 ** Math.floor(Math.log10(Math.max(wanted, 1)));
  return [5, 2, 1].map((times) => times * ten).find((one) => one <= wanted) ?? ten;
}

export const metres = (cm: number) => `${Number((cm / 100).toFixed(2))} m`;

/** How wide a lens sees far away: the twin of the program's own. Unit: degrees. */
export function fieldAngle(pictureMm: number, lensTenths: number): number {
  return lensTenths > 0 ? (2 * Math.atan((pictureMm * 5) / lensTenths) * 180) / Math.PI : 0;
}

/** Whether a camera stands on the other side of the line of action than the first one. */
export function overTheLine(
  line: readonly (readonly number[])[] | null | undefined,
  first: Point,
  camera: Point,
): boolean {
  if (!line) return false;
  const [[fx, fy], [tx, ty]] = [pointOf(line[0] ?? []), pointOf(line[1] ?? [])];
  const side = ([x, y]: Point) => Math.sign((tx - fx) * (y - fy) - (ty - fy) * (x - fx));
  return side(first) * side(camera) < 0;
}
