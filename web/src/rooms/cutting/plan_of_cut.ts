// What runs when a cut is shown, for the player.
import type { Piece } from '$lib/api/wire';
import { acrossJoin, type AcrossJoin, PlayPlan, type Segment } from '$lib/play/play_plan';
import type { Speed } from '$lib/film/speed';
import { isShot, pieceFrames } from './pieces';

/** How long it runs on either side of a join. Unit: tenths of a second. */
const REACH_TENTHS = 15;

function segmentOf(piece: Piece): Segment {
  if (isShot(piece)) {
    return { kind: 'shot', roll: piece.roll, first: piece.in, thrown: piece.out };
  }
  const frames = pieceFrames(piece);
  if (piece.kind === 'card') return { kind: 'card', frames, title: piece.title ?? '' };
  return { kind: 'leader', frames };
}

export function planOfPieces(pieces: readonly Piece[]): PlayPlan {
  return new PlayPlan(pieces.map(segmentOf));
}

/** A second and a half of film on either side of a join. */
export function aboutJoin(pieces: readonly Piece[], join: number, speed: Speed): AcrossJoin {
  const reach = Math.max(1, Math.round((REACH_TENTHS * speed.num) / (10 * speed.den)));
  return acrossJoin(planOfPieces(pieces), join, reach);
}

/** Part of what runs when a join is shown, and what is said of it. */
export interface Round {
  /** The running frame it begins at. */
  readonly from: number;
  /** The running frame that comes first after the join. */
  readonly joinAt: number;
  /** Which of two it is; empty where only one runs. */
  readonly which: string;
}

/** What runs about a join: once, or as it was and then as it would be. */
export interface Rounds {
  readonly plan: PlayPlan;
  readonly rounds: readonly Round[];
}

/** A third of a second of black leader stands between the two. Unit: tenths of a second. */
const BETWEEN_TENTHS = 3;

export function roundsAbout(
  pieces: readonly Piece[],
  before: readonly Piece[] | null,
  join: number,
  speed: Speed,
): Rounds {
  const now = aboutJoin(pieces, join, speed);
  if (!before) return { plan: now.plan, rounds: [{ from: 0, joinAt: now.joinAt, which: '' }] };
  const was = aboutJoin(before, join, speed);
  const frames = Math.max(1, Math.round((BETWEEN_TENTHS * speed.num) / (10 * speed.den)));
  const gap = { kind: 'leader' as const, frames, shade: 'black' as const };
  const second = was.plan.length + frames;
  return {
    plan: new PlayPlan([...was.plan.segments, gap, ...now.plan.segments, gap]),
    rounds: [
      { from: 0, joinAt: was.joinAt, which: 'as the sheet has it' },
      { from: second, joinAt: second + now.joinAt, which: 'on trial' },
    ],
  };
}

/** What is said of a running frame: `on trial, 3 before the join`. */
export function whereItRuns(rounds: readonly Round[], running: number): string {
  const round = rounds.filter((one) => one.from <= running).at(-1);
  if (!round) return '';
  const beyond = running - round.joinAt;
  const place =
    beyond < 0
      ? `${-beyond} before the join`
      : beyond === 0
        ? 'first after the join'
        : `${beyond} after the join`;
  return round.which === '' ? place : `${round.which}, ${place}`;
}
