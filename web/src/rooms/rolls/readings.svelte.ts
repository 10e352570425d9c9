// Rolls on their way into the film: those being read, and those whose reading
// ended while this window looked.
import { SvelteSet } from 'svelte/reactivity';
import type { Job } from '$lib/api/wire';

/** What the readings need of the jobs. */
export interface JobsSeen {
  readonly all: readonly Job[];
  putAway(job: number): void;
}

export class Readings {
  readonly #jobs: JobsSeen;
  readonly #film: string;
  // Jobs that ran while this window was there: only of these is the end told.
  readonly #watched: SvelteSet<number>;

  constructor(jobs: JobsSeen, film: string, watched = new SvelteSet<number>()) {
    this.#jobs = jobs;
    this.#film = film;
    this.#watched = watched;
  }

  /** Readings of this film, newest last. */
  readonly #ours: readonly Job[] = $derived.by(() =>
    this.#jobs.all.filter((job) => job.film === this.#film && job.kind !== 'copy' && job.roll),
  );

  readonly running: readonly Job[] = $derived.by(() =>
    this.#ours.filter((job) => job.state === 'running'),
  );

  /** Ended while this window looked, and not put away yet. */
  readonly ended: readonly Job[] = $derived.by(() =>
    this.#ours.filter((job) => job.state !== 'running' && this.#watched.has(job.job)),
  );

  /** Names of rolls that are on their way or did not arrive, for the cans. */
  readonly coming: readonly Job[] = $derived.by(() => [
    ...this.running,
    ...this.ended.filter((job) => job.state !== 'done'),
  ]);

  /** The latest word of a roll. */
  of(roll: string): Job | null {
    return [...this.running, ...this.ended].filter((job) => job.roll === roll).at(-1) ?? null;
  }

  /** Keeps an eye on what runs; to be called whenever the jobs change. */
  watch(): void {
    for (const job of this.running) this.#watched.add(job.job);
  }

  begun(job: Job): void {
    this.#watched.add(job.job);
  }

  putAway(job: number): void {
    this.#watched.delete(job);
    this.#jobs.putAway(job);
  }
}
