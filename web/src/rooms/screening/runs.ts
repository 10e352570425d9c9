// How often the originals were run, in words.
import type { RollHead } from '$lib/api/wire';
import { timesWords } from '$lib/words/handled';

type Ran = Pick<RollHead, 'roll' | 'runs'>;

export const MACHINES = ['projector', 'viewer', 'scanner'] as const;
export type Machine = (typeof MACHINES)[number];

/** `The originals were run: R1 3 times, R2 never.` */
export function runsWords(rolls: readonly Ran[]): string {
  const ran = (one: Ran) => (one.runs ?? []).reduce((sum, run) => sum + (run.times ?? 1), 0);
  const times = rolls.map((one) => ({ roll: one.roll, times: ran(one) }));
  if (times.every((one) => one.times === 0)) {
    return times.length === 1
      ? `The original was never run: ${times[0]?.roll}.`
      : 'The originals were never run.';
  }
  const each = times.map((one) => `${one.roll} ${timesWords(one.times)}`).join(', ');
  return `The originals were run: ${each}.`;
}
