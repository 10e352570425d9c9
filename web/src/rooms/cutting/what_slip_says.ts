// What the slip under the light table speaks of: the chosen join first, then
// whatever stops the cut elsewhere, then that it can be made.
import type { Conflict, Cut, Question } from '$lib/api/wire';
import { isOfPieceAt, joinOfQuestion, joinsOfConflict, ringOfConflict } from './conflict_places';

export type Subject =
  | { readonly what: 'conflict'; readonly conflict: Conflict; readonly here: boolean }
  | { readonly what: 'question'; readonly question: Question }
  | { readonly what: 'proved' }
  | { readonly what: 'empty' };

export interface Slipped {
  readonly subject: Subject;
  /** Where one is to go for the subject, when it is not the chosen join. */
  readonly goTo: number | null;
  /** Other places, in the order of the sheet, each a join. */
  readonly more: readonly number[];
}

/** What is to be said while one stands at a join. */
export function whatSlipSays(cut: Cut, join: number): Slipped {
  const { conflicts, questions } = cut.check;
  if (cut.pieces.length === 0) return { subject: { what: 'empty' }, goTo: null, more: [] };

  const refused = conflicts.filter((one) => one.severity === 'refused');
  const warned = conflicts.filter((one) => one.severity !== 'refused');
  const isHere = (one: Conflict) => joinsOfConflict(one, cut).includes(join);
  // One that only names a piece at the join comes after those that are seen right there.
  const here =
    refused.find(isHere) ??
    refused.find((one) => isOfPieceAt(one, join)) ??
    warned.find(isHere) ??
    null;
  const asked = questions.find((one) => joinOfQuestion(one) === join) ?? null;

  const places = (subject: Conflict | Question | null): number[] => {
    const all = [
      ...conflicts.filter((one) => one !== subject).map((one) => ringOfConflict(one, cut)),
      ...questions.filter((one) => one !== subject).map(joinOfQuestion),
    ];
    const other = all.filter((place) => place !== join);
    return [...new Set(other)].sort((one, next) => one - next);
  };

  if (here && (here.severity === 'refused' || !asked)) {
    const subject: Subject = { what: 'conflict', conflict: here, here: true };
    return { subject, goTo: null, more: places(here) };
  }
  if (asked)
    return { subject: { what: 'question', question: asked }, goTo: null, more: places(asked) };
  const [first] = refused;
  if (first) {
    const goTo = ringOfConflict(first, cut);
    const more = places(first).filter((place) => place !== goTo);
    return { subject: { what: 'conflict', conflict: first, here: false }, goTo, more };
  }
  return { subject: { what: 'proved' }, goTo: null, more: places(null) };
}

/** The next of several places after the one where one stands, round and round. */
export function nextPlace(places: readonly number[], join: number): number | null {
  return places.find((place) => place > join) ?? places[0] ?? null;
}

/** The questions at a join that were answered. */
export function answeredAt(cut: Cut, join: number): readonly Question[] {
  return cut.check.answered.filter((one) => joinOfQuestion(one) === join);
}
