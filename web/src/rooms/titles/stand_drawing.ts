// Where everything stands on the drawings of the copy stand. Unit: millimetres; x to the
// right, y down, the artwork in the middle at 0, 0.
import type { StandReckoned } from './stand_reckoned';

export interface StandPlan {
  /** Left, top, width, height of what is drawn. */
  readonly box: readonly [number, number, number, number];
  readonly lens: number;
  /** Half of the artwork's field, across and from front to back. */
  readonly half: readonly [number, number];
  /** Where each lamp hangs beside the axis and over the board. */
  readonly lamp: { readonly aside: number; readonly over: number };
  /** Over the board, above and below 0: from where to where it is sharp. */
  readonly sharp: readonly [number, number] | null;
  /** How large letters and lines are drawn. */
  readonly unit: number;
}

const BODY = 170;

export function standPlan(stand: StandReckoned): StandPlan {
  const { angle, distance } = stand.lamps;
  const turn = (angle * Math.PI) / 180;
  const lamp = { aside: distance * Math.sin(turn), over: distance * Math.cos(turn) };
  const half = [stand.field[0] / 2, stand.field[1] / 2] as const;
  const top = Math.max(stand.distance + BODY, lamp.over + 120) + 60;
  const side = Math.max(lamp.aside + 190, half[0] + 240, 0.42 * top);
  const foot = 150;
  const wide = 2 * side;
  return {
    box: [-side, -top, wide, top + foot],
    lens: stand.distance,
    half,
    lamp,
    sharp: stand.sharp
      ? [stand.distance - stand.sharp[0], Math.max(stand.distance - stand.sharp[1], -foot + 30)]
      : null,
    unit: wide / 310,
  };
}

/** A map of the light, at most so many cells a side, for a small drawing. */
export function sampled(map: readonly (readonly number[])[], most: number): number[][] {
  const picks = (count: number) => {
    const cells = Math.min(count, most);
    return Array.from({ length: cells }, (_, nth) =>
      cells === 1 ? 0 : Math.round((nth * (count - 1)) / (cells - 1)),
    );
  };
  return picks(map.length).map((row) => {
    const cells = map[row] ?? [];
    return picks(cells.length).map((cell) => cells[cell] ?? 0);
  });
}

/** Stops as one says them: `+ 0.07`, `− 0.12`, `0`. */
export function stopsWords(stops: number): string {
  const plain = Math.abs(stops).toFixed(2);
  if (Number(plain) === 0) return '0';
  return `${stops < 0 ? '−' : '+'} ${plain}`;
}
