// What comes next beside a running projector: cues by column, moves of the hands, and when.
import { cueCalled } from '../cue_words';
import type { Column, Cue, Dub } from '../dub_types';
import type { Followed } from './run_types';

/** The running frames at which pieces begin: the known cuts. */
export function cutsOf(dub: Dub): number[] {
  return dub.pieces.map((piece) => piece.at);
}

/** So many frames are asked for at once at most. */
const ASKED = 40;

/** The frames of which it is asked when they come: starts of cues and moves of hands ahead. */
export function framesAsked(dub: Dub, frame: number): number[] {
  const cues = dub.cues.filter((cue) => cue.state !== 'orphan').map((cue) => cue.at);
  const moves = dub.hands.moves.map((move) => move.from);
  const ahead = [...cues, ...moves].filter((at) => at > frame - 1 && at >= 0);
  return [...new Set(ahead)].sort((one, other) => one - other).slice(0, ASKED);
}

/** A cue that comes. */
export interface Coming {
  readonly key: string;
  readonly at: number;
  readonly what: string;
  /** The column or the hand that it belongs to. */
  readonly of: string;
  /** Until it comes; null while nothing is known. Unit: s. */
  readonly seconds: number | null;
  /** Half the range of 95 of 100. Unit: frames. */
  readonly error: number | null;
}

function whenOf(at: number, known: Followed | null, now: number) {
  const comes = known?.comes.find((one) => one.frame === at);
  if (comes) return { seconds: comes.at - now, error: comes.error_frames };
  const live = known?.live;
  if (!live) return { seconds: null, error: null };
  // Not asked yet: as fast as it runs now.
  return { seconds: (at - live.frame) / live.speed + live.at - now, error: null };
}

/** It stays on the list so long after its time, for whoever blinks. Unit: frames. */
const JUST_GONE = 9;

/** The next cue of each column, the nearest first. */
export function nextByColumn(
  dub: Dub,
  frame: number | null,
  known: Followed | null,
  now: number,
): Coming[] {
  const from = (frame ?? 0) - JUST_GONE;
  const next = (column: Column): Cue | undefined =>
    dub.cues.find(
      (cue) => cue.cue.column === column.id && cue.state !== 'orphan' && cue.at >= from,
    );
  const all = dub.columns.flatMap((column) => {
    const cue = next(column);
    if (!cue) return [];
    const what = cueCalled(cue, dub.sounds);
    const of = column.column.tape
      ? `${column.column.name}, tape ${column.column.tape}`
      : column.column.name;
    return [{ key: `cue ${cue.id}`, at: cue.at, what, of, ...whenOf(cue.at, known, now) }];
  });
  return all.sort((one, other) => one.at - other.at);
}

/** The next moves of the hands. */
export function nextMoves(
  dub: Dub,
  frame: number | null,
  known: Followed | null,
  now: number,
  most = 4,
): Coming[] {
  const from = (frame ?? 0) - JUST_GONE;
  const moves = dub.hands.moves.filter((move) => move.from >= from);
  return moves
    .sort((one, other) => one.from - other.from)
    .slice(0, most)
    .map((move) => ({
      key: `move ${move.column} ${move.cue} ${move.from} ${move.what}`,
      at: move.from,
      what: move.what,
      of: dub.columns.find((one) => one.id === move.column)?.column.name ?? '',
      ...whenOf(move.from, known, now),
    }));
}

/** Which of the three lights are on: three, two, one second before; all at its time. */
export function lights(seconds: number | null): readonly boolean[] {
  return [3, 2, 1].map((left) => seconds !== null && seconds <= left && seconds > -0.5);
}

/** `12.4 s`, `now`, `gone`; a dash while nothing is known. */
export function untilSaid(seconds: number | null): string {
  if (seconds === null) return '–';
  if (seconds > 0.25) return `${seconds.toFixed(1)} s`;
  return seconds > -0.5 ? 'now' : 'gone';
}
