// How often the originals were run, in words.
import type { RollHead } from '$lib/api/wire';

type Run = NonNullable<RollHead['runs']>[number];
type Ran = Pick<RollHead, 'roll' | 'runs'>;

export const MACHINES = ['projector', 'viewer', 'scanner'] as const;
export type Machine = (typeof MACHINES)[number];

/** `never`, `once`, `twice`, `3 times`. */
export function timesWords(times: number): string {
  return ['never', 'once', 'twice'][times] ?? `${times} times`;
}

/** `The originals were run: R1 3 times, R2 never.` */
export function runsWords(rolls: readonly Ran[]): string {
  const times = rolls.map((one) => ({ roll: one.roll, times: one.runs?.length ?? 0 }));
  if (times.every((one) => one.times === 0)) {
    return times.length === 1
      ? `The original was never run: ${times[0]?.roll}.`
      : 'The originals were never run.';
  }
  const each = times.map((one) => `${one.roll} ${timesWords(one.times)}`).join(', ');
  return `The originals were run: ${each}.`;
}

/** `through the viewer, by Ida` */
export function runWords(run: Pick<Run, 'through' | 'by'>): string {
  return run.by ? `through the ${run.through}, by ${run.by}` : `through the ${run.through}`;
}
