// Where everything stands on the drawings of the copy stand. Unit: millimetres; x to the
// right, y down, the artwork in the middle at 0, 0.
import type { StandField, StandLight } from './stand_reckoned';

export interface StandPlan {
  /** Left, top, width, height of what is drawn. */
  readonly box: readonly [number, number, number, number];
  readonly lens: number;
  /** Half of the artwork's field, across and from front to back. */
  readonly half: readonly [number, number];
  /** Each lamp: how far beside the axis, seen from the front, and over the board. */
  readonly lamps: readonly { readonly aside: number; readonly over: number }[];
  /** Over the board, above and below 0: from where to where it is sharp. */
  readonly sharp: readonly [number, number] | null;
  /** How large letters and lines are drawn. */
  readonly unit: number;
}

/** Camera over the lens, and what is drawn under the board. */
const BODY = 170;
const FOOT = 150;

export function standPlan(field: StandField, light: StandLight | null): StandPlan {
  const lens = field.subject_mm;
  const lamps = (light?.lamps_mm ?? []).map(([aside = 0, , over = 0]) => ({ aside, over }));
  const [wide = 0, high = 0] = field.field_mm;
  const half = [wide / 2, high / 2] as const;
  const top = Math.max(lens + BODY, ...lamps.map((lamp) => lamp.over + 120)) + 60;
  const side = Math.max(...lamps.map((lamp) => Math.abs(lamp.aside) + 190), half[0] + 240);
  const all = Math.max(side, 0.42 * top);
  const { near_mm: near, far_mm: far } = field;
  return {
    box: [-all, -top, 2 * all, top + FOOT],
    lens,
    half,
    lamps,
    // Beyond the foot of the drawing it goes on.
    sharp: near == null ? null : [lens - near, Math.max(lens - (far ?? Infinity), 30 - FOOT)],
    unit: (2 * all) / 310,
  };
}

/** Which of so many cells are shown: both ends, the middle, and what lies evenly between. */
function picks(count: number, most: number): number[] {
  const fits = (cells: number) => cells % 2 === 1 && (count - 1) % (cells - 1) === 0;
  const all = Array.from({ length: Math.max(0, Math.min(count, most) - 2) }, (_, nth) => nth + 3);
  const cells = all.filter(fits).at(-1) ?? Math.min(count, 2);
  const step = cells < 2 ? 0 : (count - 1) / (cells - 1);
  return Array.from({ length: cells }, (_, nth) => nth * step);
}

/** A map of the light, at most so many cells a side, for a small drawing. */
export function sampled(map: readonly (readonly number[])[], most: number): number[][] {
  return picks(map.length, most).map((row) => {
    const cells = map[row] ?? [];
    return picks(cells.length, most).map((cell) => cells[cell] ?? 0);
  });
}

/** Stops as one says them: `+ 0.07`, `− 0.12`, `0`. */
export function stopsWords(stops: number): string {
  const plain = Math.abs(stops).toFixed(2);
  if (Number(plain) === 0) return '0';
  return `${stops < 0 ? '−' : '+'} ${plain}`;
}
