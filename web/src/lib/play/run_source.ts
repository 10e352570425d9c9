// Where runs of frames come from.

import { parseRun } from './run_format';

/** Asks for `count` pictures of a roll from `first` on; null where the scan shows none. */
export type FetchRun = (
  roll: string,
  first: number,
  count: number,
  signal: AbortSignal,
) => Promise<(Blob | null)[]>;

/** The server answered, but with no run. */
export class RunRefused extends Error {
  constructor(
    readonly status: number,
    roll: string,
    first: number,
  ) {
    super(`no pictures of ${roll} from ${first}: answer ${status}`);
    this.name = 'RunRefused';
  }
}

/** A source over HTTP; `address` says where a run lies. */
export function runSource(
  address: (roll: string, first: number, count: number) => string,
  ask: typeof fetch = (...request) => fetch(...request),
): FetchRun {
  return async (roll, first, count, signal) => {
    const answer = await ask(address(roll, first, count), { signal });
    if (!answer.ok) throw new RunRefused(answer.status, roll, first);
    return parseRun(new Uint8Array(await answer.arrayBuffer()), count);
  };
}
