// How a tablet comes in, and which film it is let in for.
import { ask } from './film_bench_desk';

interface Door {
  /** The film on the bench that this tablet belongs to. */
  readonly film: string;
}

/** The film that this tablet was let in for; refused with 401 where it is not let in. */
export async function filmOfTablet(): Promise<string> {
  return (await ask<Door>('/api/bench/tablet')).film;
}

/** Comes in with the code that stands on the main machine. */
export async function comeIn(code: string, name: string): Promise<void> {
  await ask<Door>('/api/bench/tablet', { code: code.replace(/\s/g, ''), name });
}
