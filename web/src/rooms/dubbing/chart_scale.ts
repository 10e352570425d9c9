// The chart's measure: film runs down it, so many px a foot.
import { paddedFrames } from '$lib/film/footage';

/** So many px a foot, from the nearest to the farthest look. */
export const ZOOMS = [12, 24, 49, 98, 196, 392] as const;
export const USUAL_ZOOM = 49;

/** The frames between two running frames; `to` is the first that is not among them. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

export interface Mark {
  readonly frame: number;
  readonly y: number;
  /** Whole feet; nothing for the smaller marks between. */
  readonly feet: number | null;
}

export class ChartScale {
  /**
   * @param perFoot frames a foot of this gauge.
   * @param pxPerFoot how large the chart is drawn.
   */
  constructor(
    readonly perFoot: number,
    readonly pxPerFoot: number,
  ) {}

  /** Height of one frame. Unit: px. */
  get frame(): number {
    return this.pxPerFoot / this.perFoot;
  }

  /** Where a running frame begins, from the first picture down; the leader lies above it. */
  y(frame: number): number {
    return (frame * this.pxPerFoot) / this.perFoot;
  }

  /** The frame whose picture is nearest to a height. */
  frameAt(y: number): number {
    return Math.round((y * this.perFoot) / this.pxPerFoot);
  }

  /** What is to be drawn about a frame in so much room, in whole feet so that it seldom changes. */
  about(at: number, above: number, below: number): Stretch {
    const feet = (frames: number) => frames / this.perFoot;
    const first = Math.floor(feet(at) - above / this.pxPerFoot) - 1;
    const last = Math.ceil(feet(at) + below / this.pxPerFoot) + 1;
    return { from: first * this.perFoot, to: last * this.perFoot };
  }

  /** Marks of the ruler: each foot, and between them so many that none stand closer than 9 px. */
  marks(stretch: Stretch): Mark[] {
    const parts = [12, 6, 4, 2, 1].find((each) => this.pxPerFoot / each >= 9) ?? 1;
    const every = this.pxPerFoot >= 20 ? 1 : 5;
    const found: Mark[] = [];
    const first = Math.ceil(stretch.from / this.perFoot);
    for (let foot = first; foot * this.perFoot < stretch.to; foot += 1) {
      const named = foot >= 0 && foot % every === 0;
      found.push({
        frame: foot * this.perFoot,
        y: foot * this.pxPerFoot,
        feet: named ? foot : null,
      });
      for (let part = 1; part < parts; part += 1) {
        const y = (foot + part / parts) * this.pxPerFoot;
        found.push({ frame: this.frameAt(y), y, feet: null });
      }
    }
    return found;
  }

  /** The next nearer or farther look. */
  zoomed(by: 1 | -1): number {
    const at = ZOOMS.findIndex((each) => each >= this.pxPerFoot);
    return ZOOMS[Math.min(Math.max(at + by, 0), ZOOMS.length - 1)] ?? USUAL_ZOOM;
  }
}

/** `23+30`, as the reading rule says it; in the leader `−1+02`, a foot and two frames before. */
export function ruleText(frame: number, perFoot: number): string {
  const away = Math.abs(frame);
  const feet = `${Math.floor(away / perFoot)}+${paddedFrames(away % perFoot)}`;
  return frame < 0 ? `−${feet}` : feet;
}

export const overlaps = (from: number, frames: number, seen: Stretch) =>
  from < seen.to && from + Math.max(frames, 1) > seen.from;
