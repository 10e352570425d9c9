// Joins that were on a roll before anybody cut it: where they lie on the film, and
// what is said of them. A join lies on the line over the first frame after it.
import type { RollLog } from '$lib/api/wire';
import { grouped } from '$lib/film/grouped';
import type { HangingMarks } from '$lib/ui/film/draw_hanging';
import type { Length } from './lengths';

export type JoinOnFilmKind = 'tape' | 'cement' | 'weld' | 'not-known';

const KINDS: readonly JoinOnFilmKind[] = ['tape', 'cement', 'weld', 'not-known'];

export interface JoinOnFilm {
  /** The first frame after it. */
  readonly frame: number;
  readonly kind: JoinOnFilmKind;
  /** `cement join`; `join` where nobody knows its kind. */
  readonly words: string;
  readonly note: string;
}

function joinOf(found: RollLog['inspection']['joins'][number]): JoinOnFilm {
  const kind = KINDS.find((one) => one === found.kind) ?? 'not-known';
  const words = kind === 'not-known' ? 'join' : `${kind} join`;
  return { frame: found.frame, kind, words, note: found.note };
}

/** Every join found on a roll, from its head down. */
export function joinsOf(log: RollLog): JoinOnFilm[] {
  return log.inspection.joins.map(joinOf);
}

/** Those that lie on a length of it; one that it begins at is its own. */
export function joinsOn(log: RollLog, length: Pick<Length, 'first' | 'thrown'>): JoinOnFilm[] {
  return joinsOf(log).filter((join) => length.first <= join.frame && join.frame < length.thrown);
}

/** The join over a frame. */
export function joinAt(log: RollLog, frame: number): JoinOnFilm | null {
  return joinsOf(log).find((join) => join.frame === frame) ?? null;
}

/** `A cement join lies between 1,401 and 1,402.` */
export function joinSentence(join: JoinOnFilm): string {
  const kind = join.kind === 'not-known' ? ', nobody knows of which kind,' : '';
  return `A ${join.words}${kind} lies between ${grouped(join.frame - 1)} and ${grouped(join.frame)}, found with the film in the hand.`;
}

/** Said when one steps to the first frame after it. */
export function joinSaid(log: RollLog | null, frame: number): string {
  const join = log ? joinAt(log, frame) : null;
  return join ? `, first frame after a ${join.words}` : '';
}

/** As they are drawn across hanging film, counted in pictures from its head. */
export function joinStripMarks(
  joins: readonly JoinOnFilm[],
  first: number,
  each: number,
): NonNullable<HangingMarks['joins']> {
  return joins.map((join) => ({ at: (join.frame - first) / each, kind: join.kind }));
}
