import { describe, expect, it } from 'vitest';
import type { Server } from '$lib/api/server';
import type { Job } from '$lib/api/wire';
import { Jobs } from './jobs.svelte';

const job = (state: Job['state'], done = 0): Job => ({
  job: 7,
  kind: 'check',
  film: 'boat',
  state,
  done,
  words: '',
  unit: '',
  notes: [],
  pictures: [],
});

describe('long work', () => {
  it('that has ended is not running again when the answer to its beginning comes late', () => {
    const jobs = new Jobs({} as Server);
    jobs.hear({ event: 'job', job: job('failed') });
    jobs.hear({ event: 'job', job: job('running') });
    expect(jobs.all.map(({ state }) => state)).toEqual(['failed']);
  });

  it('is shown as it goes on, and as it ended', () => {
    const jobs = new Jobs({} as Server);
    jobs.hear({ event: 'job', job: job('running', 1) });
    jobs.hear({ event: 'job', job: job('running', 2) });
    expect(jobs.all.map(({ done }) => done)).toEqual([2]);
    jobs.hear({ event: 'job', job: job('done', 2) });
    expect(jobs.running()).toEqual([]);
  });
});
