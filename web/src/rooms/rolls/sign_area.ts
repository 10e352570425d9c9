// Where a sign is ringed on its picture.
import type { SignArea } from './signs_of_take';

/** A box on a picture, in per cent of it. */
export interface PlaceOnPicture {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** Air about what is ringed, and the least that is ringed. Unit: per cent. */
const [AIR, LEAST] = [1.5, 3];

function along(from: number, to: number): { at: number; long: number } {
  const [first, last] = [from / 10 - AIR, to / 10 + AIR];
  const grow = Math.max(0, LEAST - (last - first)) / 2;
  const at = Math.max(0, first - grow);
  return { at, long: Math.min(100, last + grow) - at };
}

/** The ring about a part of the picture; a line gets a narrow upright one. */
export function placeOfArea(area: SignArea): PlaceOnPicture {
  const [x, y] = [along(area.left, area.right), along(area.top, area.bottom)];
  return { left: x.at, top: y.at, width: x.long, height: y.long };
}
