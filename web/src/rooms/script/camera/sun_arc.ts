// The sun's way over a compass. Seen from above: north is up, east to the right, the rim
// is the horizon and the middle is overhead.
import type { CameraSunAt } from '$lib/api/wire';

export interface SunHour {
  readonly x: number;
  readonly y: number;
  /** Where its words stand, nearer to the rim. */
  readonly wx: number;
  readonly wy: number;
  readonly words: string;
  readonly written: boolean;
}

export interface SunArc {
  /** The way over the horizon, as a path; empty where it never is. */
  readonly line: string;
  readonly hours: readonly SunHour[];
  place(azimuth: number, altitude: number): readonly [number, number];
}

const RIM = 100;

function place(azimuth: number, altitude: number): readonly [number, number] {
  const out = RIM * (1 - altitude / 90);
  const turn = (azimuth * Math.PI) / 180;
  return [out * Math.sin(turn), -out * Math.cos(turn)];
}

const fine = (value: number) => value.toFixed(1);

/** Where the way crosses the horizon between two of its places. */
function atHorizon(up: CameraSunAt, down: CameraSunAt): readonly [number, number] {
  const share = up.altitude / (up.altitude - down.altitude);
  const turn = ((down.azimuth - up.azimuth + 540) % 360) - 180;
  return place(up.azimuth + share * turn, 0);
}

export function sunArc(path: readonly CameraSunAt[]): SunArc {
  const parts: string[] = [];
  const hours: SunHour[] = [];
  path.forEach((at, index) => {
    const before = path[index - 1];
    const isUp = at.altitude > 0;
    const wasUp = before !== undefined && before.altitude > 0;
    if (isUp) {
      const [x, y] = place(at.azimuth, at.altitude);
      if (!wasUp && before) {
        const [hx, hy] = atHorizon(at, before);
        parts.push(`M${fine(hx)},${fine(hy)}`);
      } else if (!wasUp) parts.push(`M${fine(x)},${fine(y)}`);
      parts.push(`L${fine(x)},${fine(y)}`);
      // The day's last place is the next day's first.
      if (at.hour.endsWith(':00') && at.hour !== '24:00') hours.push(hourOf(at, x, y));
    } else if (wasUp && before) {
      const [hx, hy] = atHorizon(before, at);
      parts.push(`L${fine(hx)},${fine(hy)}`);
    }
  });
  return { line: parts.join(''), hours, place };
}

function hourOf(at: CameraSunAt, x: number, y: number): SunHour {
  const hour = Number.parseInt(at.hour, 10);
  // Words stand inside of the way, or outside where the sun passes near overhead.
  const [wx, wy] = place(at.azimuth, at.altitude > 62 ? at.altitude - 14 : at.altitude + 12);
  return { x, y, wx, wy, words: String(hour), written: hour % 3 === 0 };
}
