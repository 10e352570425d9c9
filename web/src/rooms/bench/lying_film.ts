// Film as it lies on the user's bench, from left to right: where its pictures and holes
// are, and how a picture is turned. The same rules as on the printed frame cards.
import { type GaugeGeometry, type Rect, stripHoles, stripLayout } from '$lib/film/gauge_geometry';
import type { BenchSetUp } from './bench_types';

/** How film lies on the bench. */
export interface Lies {
  /** Whether the emulsion is up; else the base. */
  readonly emulsionUp: boolean;
  /** Whether the head is at the left; else at the right. */
  readonly headLeft: boolean;
}

export interface LyingFilm {
  /** Unit: px. */
  readonly long: number;
  /** Unit: px. */
  readonly wide: number;
  /** One frame along the film. Unit: px. */
  readonly pitch: number;
  /** Where a picture stands, before it is turned about its middle, by place from the left. */
  readonly pictures: readonly Rect[];
  readonly holes: readonly Rect[];
  readonly radius: number;
  /** A picture is mirrored where its film is seen from the side that it does not read through. */
  readonly mirrored: boolean;
  /** How far a picture is turned, after it is mirrored, clockwise. Unit: degrees. */
  readonly turn: 90 | -90;
}

/** Where nothing is kept: as the program takes it too. */
export const USUAL_SET_UP: BenchSetUp = { pins: 12, up: 'base', head: 'left', longest_count: 144 };

export function liesFrom(setUp: BenchSetUp): Lies {
  return { emulsionUp: setUp.up === 'emulsion', headLeft: setUp.head === 'left' };
}

/** The words for it: "Base up, head to the left". */
export function liesWords({ emulsionUp, headLeft }: Lies): string {
  return `${emulsionUp ? 'Emulsion' : 'Base'} up, head to the ${headLeft ? 'left' : 'right'}`;
}

/** What comes first in the roll stands where its head lies. */
export function asItLies<Thing>(fromHead: readonly Thing[], { headLeft }: Lies): Thing[] {
  return headLeft ? [...fromHead] : [...fromHead].reverse();
}

/** Where the blade goes: so many frames from the left, from so many from the head. */
export function bladeFromLeft(cut: number, frames: number, { headLeft }: Lies): number {
  return headLeft ? cut : frames - cut;
}

/** So many frames at so many px per mm. */
export function lyingFilm(
  geometry: GaugeGeometry,
  scale: number,
  frames: number,
  lies: Lies,
  isPrint: boolean,
): LyingFilm {
  const layout = stripLayout(geometry, scale);
  const { pitch, width: wide } = layout;
  const long = frames * pitch;
  // The left edge, seen through the base with heads up, lies below or above.
  const leftBelow = lies.headLeft !== lies.emulsionUp;
  const laid = ({ x, y, w, h }: Rect): Rect => ({
    x: lies.headLeft ? y : long - y - h,
    y: leftBelow ? wide - x - w : x,
    w: h,
    h: w,
  });
  const pictures = Array.from({ length: frames }, (_, place) => {
    const { x, y, w, h } = laid({
      ...layout.picture,
      y: layout.picture.y + place * pitch,
    });
    // Upright about the same middle: it is turned where it is drawn.
    return { x: x + (w - h) / 2, y: y + (h - w) / 2, w: h, h: w };
  });
  const clipped = (hole: Rect): Rect => {
    const from = Math.max(0, hole.x);
    return { ...hole, x: from, w: Math.min(long, hole.x + hole.w) - from };
  };
  return {
    long,
    wide,
    pitch,
    pictures: asItLies(pictures, lies),
    holes: stripHoles(layout, frames).map((hole) => clipped(laid(hole))),
    radius: layout.radius,
    mirrored: lies.emulsionUp !== isPrint,
    turn: lies.headLeft ? -90 : 90,
  };
}
