// A ruler of distances whose marks draw together with distance, as on a lens:
// places are by 1 ÷ distance, so that infinity is on it.

export interface RulerTick {
  readonly mm: number;
  readonly words: string;
}

export interface DepthRuler {
  readonly from: number;
  readonly to: number;
  readonly ticks: readonly RulerTick[];
  /** Where a distance lies; infinity for none. */
  at(mm: number | null): number;
  shows(mm: number): boolean;
}

const FROM = 48;
const TO = 432;
const MARKS = [
  100, 150, 200, 250, 300, 400, 500, 600, 700, 800, 900, 1000, 1200, 1500, 2000, 2500, 3000, 4000,
  5000, 7000, 10000, 15000, 20000, 30000, 50000, 100000,
];
/** Words stand this far apart at least. Unit: that of the drawing. */
const APART = 34;

export function depthRuler(near: number, focus: number, far: number | null): DepthRuler {
  // What is shown begins before the near limit, and ends well behind the far one, but where
  // that is infinity.
  const first = near / 1.35;
  const last = far === null || far > 40 * near ? null : far + (far - near) * 0.5 + focus * 0.1;
  const inverse = (mm: number | null) => (mm === null ? 0 : 1 / mm);
  const span = inverse(first) - inverse(last);
  const at = (mm: number | null) =>
    Math.min(TO, FROM + ((inverse(first) - inverse(mm)) / span) * (TO - FROM));
  const shows = (mm: number) => mm >= first && (last === null || mm <= last);
  const ticks: RulerTick[] = [];
  let written = FROM - APART;
  for (const mm of MARKS.filter(shows)) {
    const room = at(mm) - written >= APART && TO - at(mm) >= (last === null ? APART : 12);
    if (room) written = at(mm);
    ticks.push({ mm, words: room ? metres(mm) : '' });
  }
  return { from: FROM, to: TO, ticks, at, shows };
}

/** `0.8 m`, `3 m`. */
function metres(mm: number): string {
  return `${mm / 1000} m`;
}
