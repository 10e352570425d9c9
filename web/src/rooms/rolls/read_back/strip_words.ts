// What was found about a loose strip, in words.
import type { StripCandidate } from '$lib/api/wire';

/** From here on a name is told as one. */
export const SURE = 0.9;

/** The frames as a label says them: first and last. */
export function spanOf(found: Pick<StripCandidate, 'roll' | 'in' | 'out'>): string {
  const last = found.out - 1;
  return last === found.in ? `${found.roll}·${found.in}` : `${found.roll}·${found.in}–${last}`;
}

/** How it lies in the photograph: which way up, how far turned, from which side. */
export function lieOf(found: Pick<StripCandidate, 'turned' | 'upside_down' | 'mirrored'>): string {
  const turned = Math.round(found.turned) % 360;
  const way = found.upside_down ? 'heads down' : 'heads up';
  const lies = turned === 0 || turned === 180 ? way : `${way}, turned clockwise by ${turned}°`;
  const side = found.mirrored
    ? 'seen from the other side than the roll was scanned from: turn it over'
    : 'seen from the side the roll was scanned from';
  return `In the photograph it lies ${lies}, ${side}.`;
}

/** Of a hundred, and never all of them: a photograph proves nothing for certain. */
function ofHundred(confidence: number): number {
  return Math.min(99, Math.floor(confidence * 100));
}

/** How sure it is, and why. */
export function sureOf(found: StripCandidate, places: number): string {
  const like = found.likeness.toFixed(2);
  const frames = found.frames === 1 ? '1 frame was seen' : `${found.frames} frames were seen`;
  const why = `${frames}, and they are like the roll's by ${like} of 1`;
  const others = places > 1 ? '; other places are as like or nearly so' : '';
  return found.confidence >= SURE
    ? `Sure to ${ofHundred(found.confidence)} of 100: ${why}${others}.`
    : `Not sure, ${ofHundred(found.confidence)} of 100: ${why}${others}. Lay it beside these pictures before you trust it.`;
}

/** What is not known of a still shot. */
export function stillOf(found: StripCandidate): string {
  const which = found.frames === 1 ? 'which' : `which ${found.frames}`;
  return `Nothing moves enough in the shot to tell ${which} of these ${found.out - found.in} frames it is.`;
}

/** What may lie beyond the frames that were read, or nothing where the strip ends. */
export function hiddenOf(
  found: Pick<StripCandidate, 'hidden_before' | 'hidden_behind'>,
): string | null {
  if (!found.hidden_before && !found.hidden_behind) return null;
  const both = found.hidden_before && found.hidden_behind;
  const where = both ? 'at both ends' : found.hidden_before ? 'before them' : 'behind them';
  return `These frames at least: ${where} the strip may go on, for its end is not seen.`;
}

/** So many of the frames as there is room for, both ends among them. */
export function someOf<T>(all: readonly T[], most: number): T[] {
  if (all.length <= most) return [...all];
  const step = (all.length - 1) / (most - 1);
  return Array.from({ length: most }, (_, at) => all[Math.round(at * step)] as T);
}
