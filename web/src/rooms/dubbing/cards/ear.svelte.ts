// A sound listened to by the program: asked, waited for, stopped, answered.
import { NotReached, problemOf, Refused, type Server, told } from '$lib/api/server';
import type { components } from '$lib/api/schema';
import type { Job, Problem } from '$lib/api/wire';
import type { Jobs } from '$lib/desk/jobs.svelte';

type Schemas = components['schemas'];

export type ListenFor = Schemas['ListenFor'];
export type Found = Schemas['FoundDocument'];
export type LoopWords = Schemas['LoopWords'];

/** One question at a time to one sound; what is found is kept nowhere until it is taken. */
export class Ear {
  found = $state.raw<Found | null>(null);
  trouble = $state.raw<Problem | null>(null);
  stopping = $state(false);
  private asked = $state<number | null>(null);

  constructor(
    private readonly server: Server,
    private readonly jobs: Jobs,
    private readonly film: string,
  ) {}

  /** The work under way. */
  get job(): Job | null {
    return this.jobs.all.find((one) => one.job === this.asked) ?? null;
  }
  get listens(): boolean {
    return this.asked !== null;
  }

  async listen(sound: number, what: ListenFor): Promise<void> {
    this.forget();
    const params = { path: { film: this.film, id: sound } };
    try {
      const job = await told(
        this.server.POST('/api/films/{film}/sounds/{id}/listen', { params, body: { what } }),
      );
      this.asked = job.job;
    } catch (why) {
      this.trouble = problemOf(why);
    }
  }

  forget(): void {
    this.found = null;
    this.trouble = null;
    this.stopping = false;
  }

  /** The work has ended: what did it find? */
  async ended(job: Job): Promise<void> {
    if (job.job !== this.asked || job.state === 'running') return;
    this.asked = null;
    this.stopping = false;
    if (job.state === 'failed') {
      this.trouble = job.problem ?? null;
      return;
    }
    if (job.state !== 'done') return;
    const params = { path: { film: this.film, job: job.job } };
    try {
      const answer = await told(this.server.GET('/api/films/{film}/listened/{job}', { params }));
      this.found = answer.found;
    } catch (why) {
      this.trouble = problemOf(why);
    }
  }

  stop(): void {
    if (this.asked === null) return;
    this.stopping = true;
    void this.jobs.stop(this.asked);
  }

  /** Some seconds round the seam of a loop, two channels side by side. */
  async loop(sound: number, round: LoopWords): Promise<Float32Array<ArrayBuffer> | null> {
    const query = new URLSearchParams({
      from: String(round.from),
      to: String(round.to),
      crossed: String(round.crossed),
    });
    const film = encodeURIComponent(this.film);
    const path = `/api/films/${film}/sounds/${String(sound)}/loop?${query.toString()}`;
    try {
      const answer = await fetch(path, { credentials: 'same-origin' }).catch((why: unknown) => {
        throw new NotReached(why);
      });
      if (!answer.ok) throw new Refused((await answer.json()) as Problem, answer.status);
      return new Float32Array(await answer.arrayBuffer());
    } catch (why) {
      this.trouble = problemOf(why);
      return null;
    }
  }
}
