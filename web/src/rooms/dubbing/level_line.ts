// The level line of a cue, its fades and its warning ticks, as they are drawn. Levels are
// whole tenths of a decibel; a column is drawn from silence at its left to the loudest.
import type { Speed } from '$lib/film/speed';
import type { ChartScale } from './chart_scale';
import type { CueWords, LevelPoint } from './dub_types';

/** The line's left end stands for this and all below. Unit: tenths of a decibel. */
export const SOFTEST = -400;
/** Its right end. */
export const LOUDEST = 120;

export const clampLevel = (level: number) => Math.min(Math.max(Math.round(level), -960), LOUDEST);

/** Where a level stands across a column: 0 at the left, 1 at the right. */
export function across(level: number): number {
  return (Math.min(Math.max(level, SOFTEST), LOUDEST) - SOFTEST) / (LOUDEST - SOFTEST);
}

/** The level at a place across a column. Unit: tenths of a decibel, whole half decibels. */
export function levelAt(share: number): number {
  const within = Math.min(Math.max(share, 0), 1);
  return Math.round((SOFTEST + within * (LOUDEST - SOFTEST)) / 5) * 5;
}

/** `−6.5 dB`, `+3 dB`, `0 dB`. */
export function levelText(level: number): string {
  const sign = level > 0 ? '+' : level < 0 ? '−' : '';
  const size = Math.abs(level);
  return `${sign}${Math.floor(size / 10)}${size % 10 === 0 ? '' : `.${size % 10}`} dB`;
}

/** Reads `-6.5`, `−6`, `+3 dB`; tenths of a decibel, null for all else. */
export function readLevel(typed: string): number | null {
  const plain = typed
    .trim()
    .replace(/\s*dB$/i, '')
    .replace('−', '-')
    .replace(',', '.');
  if (!/^[+-]?\d+(\.\d+)?$/.test(plain)) return null;
  const level = Math.round(Number(plain) * 10);
  return level >= -960 && level <= LOUDEST ? level : null;
}

/** The level of a cue so many frames after its in: its own level and what its line adds. */
export function levelIn(cue: Pick<CueWords, 'level' | 'line'>, at: number): number {
  const before = cue.line.filter((point) => point.at <= at).at(-1);
  const after = cue.line.find((point) => point.at > at);
  if (!before) return cue.level + (after?.level ?? 0);
  if (!after) return cue.level + before.level;
  const share = (at - before.at) / (after.at - before.at);
  return cue.level + before.level + (after.level - before.level) * share;
}

export interface Handle {
  /** Which point of the line; −1 for the level of a cue that has none. */
  readonly point: number;
  readonly x: number;
  readonly y: number;
}

/** The line and its handles, in px from the top left corner of the cue. */
export function lineOf(
  cue: Pick<CueWords, 'level' | 'line'>,
  frames: number,
  scale: ChartScale,
  width: number,
): { readonly path: string; readonly handles: readonly Handle[] } {
  const at = (frame: number, level: number) => ({
    x: across(cue.level + level) * width,
    y: scale.y(frame),
  });
  const points = cue.line.map((point) => at(point.at, point.level));
  const first = points[0] ?? at(0, 0);
  const last = points.at(-1) ?? first;
  const all = [{ ...first, y: 0 }, ...points, { ...last, y: scale.y(frames) }];
  const path = all
    .map(({ x, y }, nth) => `${nth === 0 ? 'M' : 'L'}${x.toFixed(1)} ${y.toFixed(1)}`)
    .join('');
  const handles =
    points.length > 0
      ? points.map((point, nth) => ({ point: nth, ...point }))
      : [{ point: -1, ...at(Math.floor(frames / 2), 0) }];
  return { path, handles };
}

/** A line with one of its points elsewhere; it stays between its neighbours and in the cue. */
export function movedPoint(
  line: readonly LevelPoint[],
  nth: number,
  to: LevelPoint,
  frames: number,
): LevelPoint[] {
  const low = nth > 0 ? (line[nth - 1]?.at ?? -1) + 1 : 0;
  const high = nth < line.length - 1 ? (line[nth + 1]?.at ?? frames) - 1 : frames;
  const at = Math.min(Math.max(to.at, low), Math.max(low, high));
  return line.map((point, each) => (each === nth ? { at, level: clampLevel(to.level) } : point));
}

/** A line with one more point where the line already is, so that nothing is heard of it. */
export function withPoint(cue: Pick<CueWords, 'level' | 'line'>, at: number): LevelPoint[] {
  if (cue.line.some((point) => point.at === at)) return [...cue.line];
  const level = Math.round(levelIn(cue, at) - cue.level);
  return [...cue.line, { at, level }].sort((one, other) => one.at - other.at);
}

/** A fade as a wedge from the softest to the level of the cue there, in px from the cue's corner. */
export function wedge(
  cue: Pick<CueWords, 'level' | 'line' | 'fade_in' | 'fade_out'>,
  frames: number,
  which: 'in' | 'out',
  scale: ChartScale,
  width: number,
): string | null {
  const length = Math.min(which === 'in' ? cue.fade_in.frames : cue.fade_out.frames, frames);
  if (length === 0) return null;
  const [from, to] = which === 'in' ? [0, length] : [frames - length, frames];
  const full = across(levelIn(cue, which === 'in' ? to : from)) * width;
  const [top, bottom] = [scale.y(from).toFixed(1), scale.y(to).toFixed(1)];
  // Loud end as broad as the level, soft end a point at the left.
  return which === 'in'
    ? `M0 ${top}L${full.toFixed(1)} ${bottom}L0 ${bottom}Z`
    : `M0 ${top}L${full.toFixed(1)} ${top}L0 ${bottom}Z`;
}

/** Three, two and one second before a move, growing longer. Frames are whole and not before. */
export function warningTicks(
  at: number,
  speed: Speed,
): { readonly frame: number; readonly length: number }[] {
  return [3, 2, 1].map((seconds) => ({
    frame: at - Math.round((seconds * speed.num) / speed.den),
    length: (4 - seconds) * 6,
  }));
}
