// Long work under way, as the program tells it.
import type { Server } from '$lib/api/server';
import { told } from '$lib/api/server';
import type { Job, JobEvent } from '$lib/api/wire';

export class Jobs {
  all = $state<Job[]>([]);

  constructor(private readonly server: Server) {}

  async load(): Promise<void> {
    this.all = await told(this.server.GET('/api/jobs'));
  }

  hear(event: JobEvent): void {
    if (event.event !== 'job') return;
    const at = this.all.findIndex((job) => job.job === event.job.job);
    const known = this.all[at];
    if (!known) this.all.push(event.job);
    // The answer to whoever began quick work may come after the word that it has ended.
    else if (known.state === 'running' || event.job.state !== 'running') this.all[at] = event.job;
  }

  running(film?: string): Job[] {
    return this.all.filter(
      (job) => job.state === 'running' && (film === undefined || job.film === film),
    );
  }

  /** The newest job that brings a roll in. */
  ofRoll(film: string, roll: string): Job | undefined {
    return [...this.all].reverse().find((job) => job.film === film && job.roll === roll);
  }

  async stop(job: number): Promise<void> {
    await told(this.server.DELETE('/api/jobs/{job}', { params: { path: { job } } }));
  }

  /** No longer shown; the program forgets it in time. */
  putAway(job: number): void {
    this.all = this.all.filter((one) => one.job !== job);
  }
}
