// Pace: how long the pictures stand. A picture of the lengths, never advice.
import type { Piece } from '$lib/api/wire';
import type { Speed } from '$lib/film/speed';

/** What a piece counts as: only pictures count, the rest is drawn and told apart. */
export type Counted = 'picture' | 'title' | 'leader' | 'card';

export interface Bar {
  /** The position, from 1. */
  readonly position: number;
  readonly counts: Counted;
  readonly frames: number;
  /** Where it begins in the running cut. */
  readonly startsAt: number;
}

export interface PaceFigures {
  /** Pictures counted. */
  readonly pictures: number;
  /** Unit of the four: frames; mean and median need not be whole. */
  readonly mean: number;
  readonly median: number;
  readonly shortest: Bar;
  readonly longest: Bar;
}

/** One place of the running curve. */
export interface CurvePoint {
  /** Between the first and the last bar of its window, counted in bars from 0. */
  readonly row: number;
  /** The mean of the window. Unit: frames. */
  readonly mean: number;
}

/** A title's slate names no scene; leader and cards have no picture at all. */
export function countsAs(piece: Pick<Piece, 'kind' | 'slate'>): Counted {
  if (piece.kind !== 'shot') return piece.kind;
  return piece.slate && !/^\d/.test(piece.slate) ? 'title' : 'picture';
}

export function barsOf(pieces: readonly Piece[]): Bar[] {
  return pieces.map((piece, at) => ({
    position: at + 1,
    counts: countsAs(piece),
    frames: piece.kind === 'shot' ? (piece.out ?? 0) - (piece.in ?? 0) : (piece.frames ?? 0),
    startsAt: piece.starts_at,
  }));
}

/** The figures of the pictures; null where there is none. */
export function figuresOf(bars: readonly Bar[]): PaceFigures | null {
  const pictures = bars.filter((bar) => bar.counts === 'picture');
  const [first] = pictures;
  if (!first) return null;
  const sorted = pictures.map((bar) => bar.frames).sort((a, b) => a - b);
  const total = sorted.reduce((sum, frames) => sum + frames, 0);
  const middle = (sorted[(sorted.length - 1) >> 1] ?? 0) + (sorted[sorted.length >> 1] ?? 0);
  // Of several alike the first is named.
  const least = pictures.reduce((one, other) => (other.frames < one.frames ? other : one), first);
  const most = pictures.reduce((one, other) => (other.frames > one.frames ? other : one), first);
  return {
    pictures: pictures.length,
    mean: total / pictures.length,
    median: middle / 2,
    shortest: least,
    longest: most,
  };
}

/**
 * The mean over so many pictures that follow each other, drawn in the middle of
 * them; only where the whole window lies inside the film.
 */
export function runningCurve(bars: readonly Bar[], window_: number): CurvePoint[] {
  const rows = bars.flatMap((bar, row) => (bar.counts === 'picture' ? [{ row, bar }] : []));
  return rows.flatMap((_, at) => {
    const within = rows.slice(at, at + window_);
    const [first, last] = [within[0], within.at(-1)];
    if (!first || !last || within.length < window_) return [];
    const total = within.reduce((sum, each) => sum + each.bar.frames, 0);
    return [{ row: (first.row + last.row) / 2, mean: total / window_ }];
  });
}

/** Frames as seconds with so many decimals, half up: `6.52`. */
export function secondsWords(frames: number, speed: Speed, places: number): string {
  const scale = 10 ** places;
  return (Math.round((frames * speed.den * scale) / speed.num + 1e-9) / scale).toFixed(places);
}

/** Marks of the scale in seconds, at round numbers, at most so many. */
export function secondMarks(longest: number, most: number): number[] {
  const steps = [1, 2, 5, 10, 15, 30, 60, 120, 300, 600];
  const step = steps.find((each) => longest / each <= most) ?? 1200;
  return Array.from({ length: Math.floor(longest / step) + 1 }, (_, at) => at * step);
}

/** How many pictures a window may have; what was typed, or null where it is no window. */
export function windowFrom(typed: string, pictures: number): number | null {
  const plain = typed.trim();
  if (!/^\d{1,4}$/.test(plain)) return null;
  const asked = Number(plain);
  return asked >= 2 && asked <= Math.max(2, pictures) ? asked : null;
}
