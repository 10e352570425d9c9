// What is known of a roll beside its frames: base, fit, wind, and the two
// lengths that a ruler gives. All of it is kept at once.
import { problemOf, Refused } from '$lib/api/server';
import { problemWords } from '$lib/api/problem_words';
import type { FilmChange, Kept, RollFacts, RollLog } from '$lib/api/wire';

/** What the facts need of the desk. */
export interface FactsDesk {
  readonly rolls: ReadonlyMap<string, RollLog>;
  change(change: FilmChange, seen: number): Promise<Kept>;
  loadRoll(roll: string): Promise<RollLog>;
}

/** What a log says of its roll. */
export function factsOf(log: RollLog): RollFacts {
  return {
    base: log.roll.base,
    fit: log.roll.fit,
    wind: log.wind ?? null,
    measured: log.measured ?? null,
    shrinkage: log.shrinkage ?? null,
  };
}

/** A text that may be left empty. */
function orNull(text: string): string | null {
  return text.trim() === '' ? null : text.trim();
}

/** Facts with some of them changed; texts that are empty say nothing. */
export function factsWith(log: RollLog, more: Partial<Record<keyof RollFacts, string>>): RollFacts {
  const facts = factsOf(log);
  return {
    base: more.base ?? facts.base,
    fit: more.fit ?? facts.fit,
    wind: more.wind === undefined ? (facts.wind ?? null) : orNull(more.wind),
    measured: more.measured === undefined ? (facts.measured ?? null) : orNull(more.measured),
    shrinkage: more.shrinkage === undefined ? (facts.shrinkage ?? null) : orNull(more.shrinkage),
  };
}

/** Keeps facts; null when they are kept, else what to say under the field. */
export async function keepFacts(
  desk: FactsDesk,
  log: RollLog,
  facts: RollFacts,
): Promise<string | null> {
  const roll = log.roll.roll;
  try {
    await desk.change({ film_change: 'roll_facts', roll, facts }, log.revision);
    return null;
  } catch (why) {
    if (why instanceof Refused && why.stale) {
      // What stands there now is shown; what was typed stays, and keeps at the next try.
      await desk.loadRoll(roll).catch(() => undefined);
      return `Another window has changed what is known of ${roll}. Look at it, then keep yours again.`;
    }
    return problemWords(problemOf(why));
  }
}
