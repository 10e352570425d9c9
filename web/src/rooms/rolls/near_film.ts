// Which frames of a roll lie in sight near by, and where: the frame in the gate
// stands in the middle of the table and the film moves.

export interface NearSight {
  /** The first frame in sight, may be a fraction. */
  readonly from: number;
  /** Frames in sight, may be a fraction. */
  readonly shown: number;
  /** Where the film begins. Unit: px from the top of the table. */
  readonly top: number;
  /** Where the frame in the gate begins. Unit: px from the top of the table. */
  readonly gate: number;
  /** Whole frames of which any part is in sight. */
  readonly frames: readonly number[];
}

/** The sight of a table so high, with film of a pitch. Unit: px. */
export function nearSight(frame: number, frames: number, height: number, pitch: number): NearSight {
  const gate = (height - pitch) / 2;
  const wanted = frame - gate / pitch;
  const from = Math.max(0, wanted);
  const top = (from - wanted) * pitch;
  const shown = Math.max(0, Math.min((height - top) / pitch, frames - from));
  const [first, last] = [Math.floor(from), Math.ceil(from + shown)];
  return {
    from,
    shown,
    top,
    gate,
    frames: Array.from({ length: Math.max(0, last - first) }, (_, off) => first + off),
  };
}

/** Pictures are fetched in sheets of so many frames. */
export const SHEET = 48;

/** The frames to have about one: its sheet and the next in the way one goes. */
export function framesToHave(frame: number, frames: number, way: 1 | -1): number[] {
  const sheet = Math.floor(frame / SHEET);
  const next = frame % SHEET >= SHEET / 3 === (way === 1) ? sheet + way : sheet - way;
  return [sheet, next]
    .filter((each) => each >= 0 && each * SHEET < frames)
    .flatMap((each) => Array.from({ length: SHEET }, (_, off) => each * SHEET + off))
    .filter((each) => each < frames);
}
