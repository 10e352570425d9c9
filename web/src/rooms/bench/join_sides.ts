// What lies on the two sides of a join.
import type { BenchAct } from './bench_types';

export interface JoinSides {
  readonly out: string;
  readonly into: string;
}

/** Positions, or what stands where there is no piece: the leaders. */
export function joinSides(act: BenchAct): JoinSides {
  const { outgoing, incoming, position } = act;
  const before = outgoing?.position ?? (position && position > 1 ? position - 1 : null);
  const after = incoming?.position ?? position ?? null;
  return {
    out: before ? String(before) : 'leader',
    into: after ? String(after) : 'leader',
  };
}
