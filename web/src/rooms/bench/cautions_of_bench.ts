// What to beware of before a version is cut and joined.
import type { CautionKey } from '$lib/ui/caution/cautions';

/** Blades always; solvent where film is joined with it; polyester where a roll is of it, or may be. */
export function cautionsOf(
  join: string,
  rolls: readonly { readonly base: string }[],
): CautionKey[] {
  const solvent: CautionKey[] = join === 'tape' ? [] : ['solvent'];
  const polyester: CautionKey[] = rolls.some((roll) => /polyester|known/.test(roll.base))
    ? ['polyester']
    : [];
  return ['blades', ...polyester, ...solvent];
}
