// Long work that a sheet asks for, and the answer that comes at its end.
import { problemOf } from '$lib/api/server';
import type { Job, Problem } from '$lib/api/wire';

/** How the sheet reaches the program. */
export interface AsksFor<T> {
  /** The work that begins. */
  begin(): Promise<Job>;
  /** What came of it, when it is done. */
  answer(job: number): Promise<T>;
}

/** What holds for all work of this window. */
export interface WorkTold {
  /** Long work as the program tells it. */
  readonly all: readonly Job[];
  stop(job: number): Promise<void>;
}

export class AskedWork<T> {
  answer = $state.raw<T | null>(null);
  problem = $state.raw<Problem | null>(null);
  /** It was stopped by hand. */
  stopped = $state(false);
  /** The question is on its way. */
  asking = $state(false);
  #begun = $state.raw<Job | null>(null);
  #asks: AsksFor<T> | null = null;
  #asked = 0;
  #ended = 0;

  constructor(private readonly work: WorkTold) {}

  /** How far it is; null where nothing is under way. */
  readonly job: Job | null = $derived.by(() => {
    const begun = this.#begun;
    if (!begun) return null;
    return this.work.all.find((job) => job.job === begun.job) ?? begun;
  });

  get busy(): boolean {
    return this.asking || this.job !== null;
  }

  /** Asks; an earlier question is let go. */
  async ask(asks: AsksFor<T>): Promise<void> {
    this.leave();
    this.#ended = 0;
    const asked = (this.#asked += 1);
    this.asking = true;
    try {
      const job = await asks.begin();
      // Put away, or asked for something else, before it had begun.
      if (asked !== this.#asked) await this.work.stop(job.job);
      else {
        this.#begun = job;
        this.#asks = asks;
      }
    } catch (thrown) {
      if (asked === this.#asked) this.problem = problemOf(thrown);
    } finally {
      if (asked === this.#asked) this.asking = false;
    }
  }

  /** Looks whether the work has ended; to be called whenever it is told of. */
  async look(): Promise<void> {
    const { job } = this;
    if (!job || job.state === 'running' || this.#ended === job.job) return;
    this.#ended = job.job;
    const asked = this.#asked;
    try {
      if (job.state === 'failed') this.problem = job.problem ?? null;
      else if (job.state === 'cancelled') this.stopped = true;
      else {
        const answer = await this.#asks?.answer(job.job);
        if (asked === this.#asked) this.answer = answer ?? null;
      }
    } catch (thrown) {
      if (asked === this.#asked) this.problem = problemOf(thrown);
    } finally {
      if (asked === this.#asked) this.#begun = null;
    }
  }

  async stop(): Promise<void> {
    const { job } = this;
    if (job) await this.work.stop(job.job).catch(() => undefined);
  }

  /** Nobody waits for it any more. */
  leave(): void {
    this.#asked += 1;
    if (this.job?.state === 'running') void this.stop();
    this.#begun = null;
    this.asking = false;
    this.answer = null;
    this.problem = null;
    this.stopped = false;
  }
}
