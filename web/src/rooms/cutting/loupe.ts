// How large film lies on the table, and how much of it is in sight.
import type { GaugeGeometry } from '$lib/film/gauge_geometry';

/** Frames in sight: two whole pictures and a good part of the next. */
const IN_SIGHT = 2.8125;
/** Unit: px per mm. */
const LEAST = 4;
const MOST = 64;

export interface Room {
  readonly width: number;
  readonly height: number;
}

export interface Loupe {
  /** Unit: px per mm. */
  readonly scale: number;
  /** Frames in sight, a fraction. */
  readonly shown: number;
  /** Whole frames to lay on either side of the line. */
  readonly reach: number;
}

/** Room for words beside one strip. Unit: px. */
const BESIDE = { least: 140, most: 200, share: 0.27 } as const;

/** What words have on either side of a strip: on a narrow table less, so that the film is as large as its height allows. Unit: px. */
export function besideStrip(width: number): number {
  return Math.max(BESIDE.least, Math.min(BESIDE.most, width * BESIDE.share));
}

/** The scale at which so many strips fit side by side with so many px about them. */
export function loupe(geometry: GaugeGeometry, room: Room, strips: number, about: number): Loupe {
  const across = (room.width - about) / (strips * geometry.width_mm);
  const down = room.height / (IN_SIGHT * geometry.pitch_mm);
  const scale = Math.max(LEAST, Math.min(MOST, across, down));
  const shown = room.height / (scale * geometry.pitch_mm);
  return { scale, shown, reach: Math.ceil(shown / 2) + 1 };
}
