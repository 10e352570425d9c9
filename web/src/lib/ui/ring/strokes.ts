// The strokes of a hand with a grease pencil, as paths. Nothing is straight:
// a path without height has no area for the filter to work on.

const n = (value: number) => value.toFixed(1);

/** A ring drawn in one go around a box, its ends crossing above the middle. */
export function ringPath(x: number, y: number, w: number, h: number): string {
  const at = (along: number, down: number) => `${n(x + along * w)} ${n(y + down * h)}`;
  return (
    `M${at(0.19, 0.1)} C${at(0.52, -0.05)} ${at(1.05, 0)} ${at(0.99, 0.5)}` +
    ` S${at(0.5, 1.05)} ${at(0.3, 0.98)} S${at(-0.06, 0.72)} ${at(0.02, 0.42)}` +
    ` S${at(0.3, -0.02)} ${at(0.5, 0.03)}`
  );
}

/** A line from one point to another that bows a little, as a hand does. */
export function linePath(x1: number, y1: number, x2: number, y2: number, bow = 3): string {
  const length = Math.hypot(x2 - x1, y2 - y1) || 1;
  const across = { x: (-(y2 - y1) / length) * bow, y: ((x2 - x1) / length) * bow };
  const at = (share: number, side: number) =>
    `${n(x1 + (x2 - x1) * share + across.x * side)} ${n(y1 + (y2 - y1) * share + across.y * side)}`;
  return `M${at(0, 0)} C${at(0.25, -1)} ${at(0.7, 1)} ${at(1, 0.3)}`;
}
