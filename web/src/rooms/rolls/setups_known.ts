// The setups that the script plans or slates of this film name, to be offered on a card.
import type { RollLog } from '$lib/api/wire';

/** Setups in the order in which a person would look for them: 1, 2, 2A, 10. */
export function setupsKnown(logs: Iterable<RollLog>, planned: readonly string[] = []): string[] {
  const all = new Set<string>(planned);
  for (const log of logs) {
    for (const take of log.takes) if (take.setup) all.add(take.setup);
  }
  const order = new Intl.Collator('en', { numeric: true });
  return [...all].sort((a, b) => order.compare(a, b));
}
