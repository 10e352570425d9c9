// How film winds up, line by line, so that anyone with a pencil can check it.
import { grouped } from '$lib/film/grouped';
import type { SumLine } from '$lib/film/sums';

/** √(hub² + 4 × length × thickness ÷ π), all in millimetres. */
export function acrossSum(
  frames: number,
  perFoot: number,
  hub: number,
  thickness: number,
  across: number,
): SumLine[] {
  const length = Math.round((frames / perFoot) * 304.8);
  const ring = Math.round((4 * (frames / perFoot) * 304.8 * thickness) / Math.PI);
  return [
    { sum: `${grouped(frames)} frames ÷ ${perFoot} × 304.8 mm`, comes: `${grouped(length)} mm` },
    { sum: `4 × ${grouped(length)} × ${thickness} ÷ 3.1416`, comes: `${grouped(ring)} mm²` },
    {
      sum: `hub ${hub} × ${hub} + ${grouped(ring)}`,
      comes: `${grouped(Math.round(hub * hub + ring))} mm²`,
    },
    { sum: 'the root of it', comes: `${across} mm across` },
  ];
}
