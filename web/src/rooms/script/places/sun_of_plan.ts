// The sun over a place on its day, asked for over the wire.
import type { CameraDesk } from '../camera/camera_desk';
import type { FloorPlan } from '../script_types';

/** Where the sun stands at an hour. */
export interface SunAt {
  readonly hour: string;
  /** From north by east. Unit: degrees. */
  readonly azimuth: number;
  /** Over the horizon. Unit: degrees. */
  readonly altitude: number;
}

/** The sun over the day, half-hour by half-hour; null where place or day is not said. */
export async function sunOfPlan(desk: CameraDesk, plan: FloorPlan): Promise<SunAt[] | null> {
  if (plan.latitude == null || plan.longitude == null) return null;
  if (!/^\d{4}-\d\d-\d\d$/.test(plan.day)) return null;
  const asked = {
    latitude: plan.latitude / 1000,
    longitude: plan.longitude / 1000,
    date: plan.day,
    hour: '12:00',
    clock: clockText(plan.utc_offset),
  };
  const answer = await desk.answer('sun', asked);
  return answer.name === 'sun' ? answer.found.path : null;
}

/** How far a clock is ahead of UTC: `+02:00`. */
export function clockText(minutes: number): string {
  const all = Math.abs(minutes);
  const two = (count: number) => String(count).padStart(2, '0');
  return `${minutes < 0 ? '-' : '+'}${two(Math.floor(all / 60))}:${two(all % 60)}`;
}

/** Minutes of `+02:00`, `-3:30` or `2`; null where it cannot be read. */
export function clockMinutes(text: string): number | null {
  const found = /^([+-]?)(\d{1,2})(?::(\d\d))?$/.exec(text.trim());
  if (!found) return null;
  const minutes = Number(found[2]) * 60 + Number(found[3] ?? 0);
  if (minutes > 14 * 60) return null;
  return found[1] === '-' ? -minutes : minutes;
}
