// The tags on the sheet: which joins the pencil rings, and what the tag says.
import type { Cut } from '$lib/api/wire';
import { isOfPieceAt, joinsOfConflict, ringOfConflict } from './conflict_places';
import { tagOfConflict } from './words_of_check';

/**
 * What stands beside each ringed join; only what is refused is ringed. The ring
 * is where one stands, when the conflict is seen there too.
 */
export function tagsOfJoins(cut: Cut | null, here: number): ReadonlyMap<number, string> {
  const tags = new Map<number, string>();
  for (const conflict of cut?.check.conflicts ?? []) {
    if (conflict.severity !== 'refused' || !cut) continue;
    // Above the first row the sheet has no line to ring.
    const isHere =
      here >= 0 && (joinsOfConflict(conflict, cut).includes(here) || isOfPieceAt(conflict, here));
    const join = isHere ? here : ringOfConflict(conflict, cut);
    if (!tags.has(join)) tags.set(join, tagOfConflict(conflict));
  }
  return tags;
}
