// Long work as the progress that is shown of it.
import type { Job } from '$lib/api/wire';

/** What is told of work under way, as `Progress` shows it. */
export function progressOf(job: Job) {
  return {
    label: job.words,
    done: job.done,
    all: job.total ?? null,
    unit: job.unit,
    left: job.left_seconds ?? null,
  };
}
