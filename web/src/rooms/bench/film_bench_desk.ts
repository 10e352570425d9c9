// The bench of the film that lies open, asked for over the wire.
import { told } from '$lib/api/server';
import type { Kept } from '$lib/api/wire';
import type { BenchDesk } from './bench_desk';
import type { BenchDocument, BenchWrite, Happened, Meaning, StripHistory } from './bench_types';

export async function ask<T>(path: string, body?: object): Promise<T> {
  const asked = fetch(path, {
    credentials: 'same-origin',
    ...(body
      ? {
          method: 'POST',
          headers: { 'content-type': 'application/json' },
          body: JSON.stringify(body),
        }
      : {}),
  }).then(async (response) => {
    const found: unknown = await response.json().catch(() => undefined);
    return response.ok ? { data: found as T, response } : { error: found, response };
  });
  return told<T>(asked as Promise<{ data?: T; error?: unknown; response: Response }>);
}

export class FilmBenchDesk implements BenchDesk {
  /** The newest revision that something written here has led to. */
  #own = 0;

  /**
   * @param kept hears what was kept.
   * @param lost hears that nobody answered.
   */
  constructor(
    readonly film: string,
    private readonly kept: (kept: Kept) => void,
    private readonly lost: () => void,
  ) {}

  load(): Promise<BenchDocument> {
    return ask(this.#path('bench'));
  }

  async write(key: string, write: BenchWrite, revision: number): Promise<void> {
    const change = { film_change: 'at_the_bench', ...write };
    const body = { key, revision: Math.max(revision, this.#own), change };
    const kept = await ask<Kept>(this.#path('changes'), body);
    this.#own = Math.max(this.#own, kept.revision);
    this.kept(kept);
  }

  meaning(lines: number, happened: readonly Happened[]): Promise<Meaning> {
    return ask(this.#path('bench/meaning'), { lines, happened });
  }

  history(roll: string, frame: number): Promise<StripHistory> {
    const query = new URLSearchParams({ roll, frame: String(frame) });
    return ask(this.#path(`bench/history?${query}`));
  }

  notReached(): void {
    this.lost();
  }

  #path(what: string): string {
    return `/api/films/${encodeURIComponent(this.film)}/${what}`;
  }
}
