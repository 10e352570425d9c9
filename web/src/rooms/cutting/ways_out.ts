// The ways out of a conflict as buttons: what is done, and what it costs.
import type { Conflict, Cut, CutChange, Piece, Remedy, Ways } from '$lib/api/wire';
import { grouped } from '$lib/film/grouped';
import { joinCosts, joinKind, joinRow } from './joins';
import { pieceFrames } from './pieces';

/** A button of a slip that makes a change. */
export interface WayOut {
  readonly words: string;
  /** What it costs. */
  readonly small: string;
  readonly change: CutChange;
}

const capital = (words: string) => words.charAt(0).toUpperCase() + words.slice(1);

/** A remedy as a button: what is done, and what it costs in small letters. */
export function wayOut(remedy: Remedy, cut: Cut): WayOut {
  const way = plainWay(remedy, cut);
  if (!remedy.warns) return way;
  return { ...way, small: way.small === '' ? 'with a warning' : `${way.small}, with a warning` };
}

function plainWay(remedy: Remedy, cut: Cut): WayOut {
  if (remedy.kind === 'other_join') {
    const match = /join (.+) with (\w+)$/.exec(remedy.text);
    // Several joins are said as they stand.
    if (!match || /, | and /.test(match[1] ?? '')) {
      return { words: capital(remedy.text), small: '', change: remedy.change };
    }
    const kind = joinKind(match[2] ?? '');
    const row = joinRow(cut, kind);
    const eats = joinCosts({ ...row, scar_out: 0, scar_in: 0 });
    const words = `${capital(kind)} at ${match[1]}`;
    return { words, small: eats, change: remedy.change };
  }
  const comma = remedy.text.lastIndexOf(', ');
  const [words, small] =
    comma < 0 ? [remedy.text, ''] : [remedy.text.slice(0, comma), remedy.text.slice(comma + 2)];
  return { words: capital(words), small, change: remedy.change };
}

/** A conflict as it is shown, with what is known of its ways out. */
export interface Known {
  readonly conflict: Conflict;
  readonly mendAll: readonly Remedy[];
  /** Whether they are still being looked for. */
  readonly awaited: boolean;
}

/**
 * What is known of the ways out of a conflict: the check says it, or, where there are
 * too many, what was found when it was asked for.
 */
export function knownWays(cut: Cut, conflict: Conflict, found: Found | null): Known {
  if (!cut.ways_later) return { conflict, mendAll: cut.check.mend_all, awaited: false };
  if (found?.conflict !== conflict) return { conflict, mendAll: [], awaited: true };
  const { remedies, mend_all } = found.ways;
  return { conflict: { ...conflict, remedies }, mendAll: mend_all, awaited: false };
}

/** What was found of a conflict that was asked about. */
export interface Found {
  readonly conflict: Conflict;
  readonly ways: Ways;
}

/** Longer words than this do not fit beside the others. Unit: letters. */
const LONGEST_SMALL = 36;

/** One step that mends all there is, where several things are refused. */
export function wayOutOfAll(cut: Cut, mend_all: readonly Remedy[]): WayOut | null {
  const { conflicts } = cut.check;
  const refused = conflicts.filter((one) => one.severity === 'refused').length;
  const [best] = mend_all;
  if (refused < 2 || !best) return null;
  const { change, text } = best;
  const steps = change.change === 'all' ? change.changes.length : 1;
  const small = text.length <= LONGEST_SMALL ? text : `${steps} changes in one step`;
  return { words: `Mend all ${refused}`, small, change };
}

/**
 * All ways out of a conflict. A piece whose every frame stands elsewhere too
 * cannot be trimmed out of it: one of the two is lifted.
 */
export function waysOut(conflict: Conflict, cut: Cut): WayOut[] {
  const ways = conflict.remedies.map((remedy) => wayOut(remedy, cut));
  const { kind, positions } = conflict;
  if (ways.length > 0 || kind !== 'doubled' || positions.length !== 2) return ways;
  return [...positions].reverse().flatMap((position) => {
    const piece = cut.pieces[position - 1];
    const change: CutChange = { change: 'remove', at: position - 1 };
    return piece ? [{ words: `Lift ${position}`, small: framesShort(piece), change }] : [];
  });
}

function framesShort(piece: Piece): string {
  const frames = pieceFrames(piece);
  return `${grouped(frames)} ${frames === 1 ? 'frame' : 'frames'} less`;
}
