// The counts of the room and the sums behind them.
import type { Film, RollLog } from '$lib/api/wire';
import type { Counter } from '$lib/desk/counters';
import { footage, paddedFrames } from '$lib/film/footage';
import { grouped } from '$lib/film/grouped';
import { clockOf } from '$lib/film/running_time';
import { speedFrom } from '$lib/film/speed';
import { footageSum, lengthSum, spanSum, type SumLine, timeSum } from '$lib/film/sums';
import type { Length } from './lengths';

type Part = { readonly count: string } | { readonly words: string };

export interface PlateOf {
  readonly label: string;
  readonly parts: readonly Part[];
  readonly sum?: readonly SumLine[];
}

/** `37 ft 60 fr` as the parts of a plate. */
export function footageParts(frames: number, framesPerFoot: number): Part[] {
  const { feet, frames: rest } = footage(frames, framesPerFoot);
  return [
    { count: grouped(feet) },
    { words: 'ft' },
    { count: paddedFrames(rest) },
    { words: 'fr' },
  ];
}

/** All film of the production: in frames, and in feet. */
export function strandCounters(film: Film): Counter[] {
  const perFoot = film.gauge.frames_per_foot;
  const parts = film.rolls.map((roll) => ({ name: roll.roll, frames: roll.frames }));
  const all = parts.reduce((sum, part) => sum + part.frames, 0);
  if (all === 0) return [];
  const atLeast: Part[] = film.rolls.some((roll) => roll.missing > 0 && !roll.proved)
    ? [{ words: 'at least' }]
    : [];
  return [
    {
      of: 'all film',
      parts: [{ words: 'strand' }, ...atLeast, { count: grouped(all) }, { words: 'frames' }],
      sum: lengthSum(parts, perFoot),
    },
    {
      of: 'all film in feet',
      parts: footageParts(all, perFoot),
      sum: footageSum(all, perFoot),
    },
  ];
}

/** Where a frame lies: its name, along the roll, and in time at the speed of the film. */
export function framePlates(
  log: RollLog,
  film: Film,
  frame: number,
  here: Length | null,
): PlateOf[] {
  const perFoot = film.gauge.frames_per_foot;
  const speed = speedFrom(log.film_speed);
  const plates: PlateOf[] = [
    { label: 'frame in the gate', parts: [{ words: log.roll.roll }, { count: grouped(frame) }] },
    {
      label: 'from the head of the roll',
      parts: footageParts(frame, perFoot),
      sum: footageSum(frame, perFoot),
    },
  ];
  if (!here) return plates;
  const into = frame - here.first;
  return [
    ...plates,
    {
      label: 'into the take',
      parts: [{ count: clockOf(into, speed) }, { words: 'into the take' }],
      sum: [
        {
          sum: `${grouped(frame)} − first of the take ${grouped(here.first)}`,
          comes: `${grouped(into)} ${into === 1 ? 'frame' : 'frames'}`,
        },
        ...timeSum(into, speed),
      ],
    },
  ];
}

/** The length of a take in frames, and what it makes in feet and in time. */
export function takeSums(
  length: Length,
  film: Film,
  filmSpeed: string,
): { frames: SumLine[]; feet: SumLine[]; time: SumLine[] } {
  const long = length.thrown - length.first;
  return {
    frames: spanSum(length.first, length.thrown),
    feet: footageSum(long, film.gauge.frames_per_foot),
    time: timeSum(long, speedFrom(filmSpeed)),
  };
}
