// Words of the bench.
import { problemWords } from '$lib/api/problem_words';
import type { Problem } from '$lib/api/wire';
import type { Counter } from '$lib/desk/counters';
import { grouped } from '$lib/film/grouped';
import type { BenchAct, OnTheBench } from './bench_types';

const KIND: Record<string, string> = {
  mount: 'roll',
  wind: 'winding',
  cut: 'cut',
  hang: 'strip to hang',
  join: 'join',
  unmount: 'roll to take off',
  turn_back: 'film to wind back',
  mount_made: 'film to put on',
  wind_made: 'winding',
  lead: 'head to lead on',
  unjoin: 'join to open',
  open: 'join to open',
};

/** `cut 31 of 46`. */
export function actCounted(act: BenchAct): string {
  return `${KIND[act.act] ?? act.act} ${act.number} of ${act.of}`;
}

interface Positions {
  readonly position?: number | null | undefined;
  readonly last_position?: number | null | undefined;
}

/** `17`, or `18 to 20` where several pieces run on in one strip. */
export function positionsOf(hangs: Positions): string {
  const { position, last_position: last } = hangs;
  if (!position) return '';
  return last && last !== position ? `${position}–${last}` : String(position);
}

/** `about 1 h 8 min left`. */
export function minutesWords(minutes: number | null | undefined, about = 'about '): string {
  if (minutes === null || minutes === undefined) return '';
  const all = Math.max(1, Math.round(minutes));
  const [hours, rest] = [Math.floor(all / 60), all % 60];
  const said = hours === 0 ? `${rest} min` : rest === 0 ? `${hours} h` : `${hours} h ${rest} min`;
  return `${about}${said}`;
}

/** `90 s`, `2 min`. */
export function secondsWords(seconds: number): string {
  return seconds % 60 === 0 && seconds > 0 ? `${seconds / 60} min` : `${seconds} s`;
}

export const WINDING: Record<string, string> = {
  one_pass: 'Each roll is wound once, from its head.',
  tails: 'A roll may be worked from its tail.',
  to_and_fro: 'A roll may be wound to and fro.',
};

export const LAID_WORDS: Record<string, string> = {
  right: 'as it should',
  turned_over: 'turned over',
  end_for_end: 'end for end',
  end_over_end: 'both',
};

/** The plates in the head of the page. */
export function countersOfBench(bench: OnTheBench): Counter[] {
  const roll: Counter = bench.roll
    ? {
        of: 'the roll on the rewinds',
        parts: [
          { words: bench.roll.is_made ? 'the film of' : 'roll' },
          { count: bench.roll.roll },
          { words: bench.roll.lies },
        ],
      }
    : { of: 'the rewinds', parts: [{ words: 'no roll on the rewinds' }] };
  const wound: Counter = {
    of: 'frames wound',
    parts: [
      { words: 'wound' },
      { count: grouped(bench.wound.done) },
      { words: `of ${grouped(bench.wound.all)}` },
    ],
  };
  return [roll, wound];
}

/** What is heard when another act is looked at. */
export function actSpoken(act: BenchAct): string {
  return `${actCounted(act)}. ${act.title}. ${act.what}`;
}

/** Why something was not written down. */
export function refusalWords(problem: Problem): string {
  return problem.code === 'store.stale'
    ? 'Something else was written at the bench since this was shown.'
    : problemWords(problem);
}

/** How a roll lies, out of what is said of it. */
export function liesWords(what: string): string | undefined {
  return ['heads out', 'tails out', 'part on either reel'].find((words) => what.includes(words));
}
