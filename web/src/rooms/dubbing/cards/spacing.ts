// Spacing leader on a tape that is laid beforehand, at the speed the projector was measured at.
import { grouped } from '$lib/film/grouped';
import { runningTime, secondsText } from '$lib/film/running_time';
import { type Speed, speedWords } from '$lib/film/speed';
import type { SumLine } from '$lib/film/sums';
import type { Column, Cue } from '../dub_types';

/** Speeds of tape machines. Unit: hundredths of cm a second. Source: IEC 60094-1, from memory. */
export const TAPE_SPEEDS = [476, 953, 1905, 3810] as const;

/** A sound on the tape, and what lies before it. */
export interface Laid {
  readonly cue: Cue;
  /** From where the one before begins, or from the first picture. Unit: frames. */
  readonly from: number;
  /** Of it leader: from where the one before ends; negative where they overlap. */
  readonly leader: number;
  readonly before: Cue | null;
}

/** Columns that share a tape, by the name of the tape; a column without one is its own. */
export function tapesOf(columns: readonly Column[]): { name: string; columns: number[] }[] {
  const tapes = new Map<string, { name: string; columns: number[] }>();
  for (const { id, column } of columns) {
    const tape = column.tape.trim();
    const key = tape === '' ? `column ${String(id)}` : tape.toLowerCase();
    const known = tapes.get(key) ?? { name: tape || column.name, columns: [] };
    known.columns.push(id);
    tapes.set(key, known);
  }
  return [...tapes.values()];
}

/** The sounds of a tape in the order in which they are laid. */
export function laidOn(columns: readonly number[], cues: readonly Cue[]): Laid[] {
  const here = cues
    .filter((one) => columns.includes(one.cue.column) && one.state !== 'orphan' && one.at >= 0)
    .sort((a, b) => a.at - b.at || a.id - b.id);
  return here.map((cue, nth) => {
    const before = here[nth - 1] ?? null;
    return {
      cue,
      before,
      from: cue.at - (before?.at ?? 0),
      leader: cue.at - (before ? before.at + before.frames : 0),
    };
  });
}

/** How long so many frames are on the tape. Unit: cm, to a millimetre. */
export function centimetres(frames: number, speed: Speed, tape: number): string {
  const { num, den } = runningTime(frames, speed);
  // Tenths of a cm, half up: hundredths of cm a second make a thousandth too much.
  const tenths = (num * BigInt(tape) * 2n + den * 10n) / (den * 20n);
  return `${grouped(Number(tenths / 10n))}.${String(tenths % 10n)}`;
}

const seconds = (frames: number, speed: Speed) => secondsText(runningTime(frames, speed), 2);
const tapeWords = (tape: number) => (tape / 100).toFixed(2);

/** The sum of a piece of spacing; and what it would be at the film's own speed. */
export function spacingSum(frames: number, speed: Speed, own: Speed, tape: number): SumLine[] {
  const lines: SumLine[] = [
    {
      sum: `${grouped(frames)} frames ÷ ${speedWords(speed)} f/s`,
      comes: `${seconds(frames, speed)} s`,
    },
    {
      sum: `× ${tapeWords(tape)} cm/s`,
      comes: `${centimetres(frames, speed, tape)} cm`,
    },
  ];
  if (speed.num * own.den === own.num * speed.den) return lines;
  // At the film's own speed the same frames last otherwise, and on this projector that is off.
  const off = Math.round((frames * own.den * speed.num) / (own.num * speed.den)) - frames;
  const late =
    off === 0 ? 'no frame' : `${grouped(Math.abs(off))} frames ${off > 0 ? 'late' : 'early'}`;
  return [
    {
      sum: `at ${speedWords(own)} f/s it would be ${centimetres(frames, own, tape)} cm`,
      comes: late,
    },
    ...lines,
  ];
}
