// The tags on the sheet: which joins the pencil rings, and what the tag says.
import type { Cut } from '$lib/api/wire';
import { ringOfConflict } from './conflict_places';
import { tagOfConflict } from './words_of_check';

/** What stands beside each ringed join; only what is refused is ringed. */
export function tagsOfJoins(cut: Cut | null): ReadonlyMap<number, string> {
  const tags = new Map<number, string>();
  for (const conflict of cut?.check.conflicts ?? []) {
    if (conflict.severity !== 'refused' || !cut) continue;
    const join = ringOfConflict(conflict, cut);
    if (!tags.has(join)) tags.set(join, tagOfConflict(conflict));
  }
  return tags;
}
