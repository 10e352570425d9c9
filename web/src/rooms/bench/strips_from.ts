// The strips that are cut from a roll while it is on the rewinds.
import type { BenchAct, BenchSpan } from './bench_types';

export interface StripFrom {
  readonly span: BenchSpan;
  readonly position?: number | null | undefined;
  readonly last_position?: number | null | undefined;
  readonly goes: string;
}

/** Those up to where the roll comes off again, in the order of the cuts. */
export function stripsFrom(roll: string, acts: readonly BenchAct[]): StripFrom[] {
  const found = new Map<number, StripFrom>();
  for (const act of acts.slice(1)) {
    if (act.act === 'mount' || (act.act === 'unmount' && act.roll === roll)) break;
    if (act.act !== 'cut' || act.roll !== roll || !act.span) continue;
    if (found.has(act.span.in)) continue;
    const { span, position, last_position, card } = act;
    found.set(span.in, { span, position, last_position, goes: card?.goes ?? '' });
  }
  return [...found.values()];
}
