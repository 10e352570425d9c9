// How a roll hangs: how many frames one picture stands for, and how large the
// film is, so that the longest take ends before the table does.
import type { GaugeGeometry } from '$lib/film/gauge_geometry';
import { grouped } from '$lib/film/grouped';

export interface HangingPlan {
  /** Frames that one picture stands for. */
  readonly each: number;
  /** Unit: px per mm. */
  readonly scale: number;
}

/** Film smaller than this is not legible, larger than that takes the room of its neighbours. */
const SCALE = { least: 7, most: 8 } as const;

/** The widest film that hangs. Unit: px. */
const WIDEST = 104;

/** In frames, finest first: for rolls of short takes, while they are under half a foot. */
const FRAMES = [1, 2, 3, 4, 6, 9, 12, 18, 24, 30] as const;
/** In feet, finest first. */
// prettier-ignore
const FEET = [1 / 2, 2 / 3, 5 / 6, 1, 1.25, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 15, 20, 30, 50] as const;

function stepsOf(framesPerFoot: number): number[] {
  const half = framesPerFoot / 2;
  return [
    ...FRAMES.filter((frames) => frames < half),
    ...FEET.map((feet) => Math.max(1, Math.round(feet * framesPerFoot))),
  ];
}

/** The finest way to hang film of which the longest take has so many frames. */
export function hangingPlan(
  longest: number,
  framesPerFoot: number,
  geometry: GaugeGeometry,
  height: number,
): HangingPlan {
  const most = Math.min(SCALE.most, WIDEST / geometry.width_mm);
  // Wide film may hang a little smaller rather than show much less.
  const least = Math.min(SCALE.least, most * 0.85);
  let plan: HangingPlan = { each: 1, scale: least };
  for (const each of stepsOf(framesPerFoot)) {
    const pictures = Math.max(1, longest / each);
    const scale = height / (pictures * geometry.pitch_mm);
    plan = { each, scale: Math.max(least, Math.min(most, scale)) };
    if (scale >= least) break;
  }
  return plan;
}

/** `Every frame hangs here.`, `One picture every half foot.`, `One picture every 2 feet.` */
export function hangingWords(each: number, framesPerFoot: number): string {
  if (each <= 1) return 'Every frame hangs here.';
  const feet = each / framesPerFoot;
  if (feet === 0.5) return 'One picture every half foot.';
  if (feet === 1) return 'One picture every foot.';
  if (Number.isInteger(feet)) return `One picture every ${grouped(feet)} feet.`;
  return `One picture every ${grouped(each)} frames.`;
}
