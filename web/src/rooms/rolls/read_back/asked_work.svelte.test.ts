import { expect, it } from 'vitest';
import { Refused } from '$lib/api/server';
import type { Job } from '$lib/api/wire';
import { AskedWork } from './asked_work.svelte';

const job = (number: number, state: string, more: Partial<Job> = {}): Job => ({
  job: number,
  kind: 'strip',
  film: 'boat',
  words: 'looking at R1',
  state,
  done: 0,
  unit: 'frames',
  pictures: [],
  notes: [],
  ...more,
});

function told() {
  const stopped: number[] = [];
  const all: Job[] = [];
  return { all, stopped, stop: async (number: number) => void stopped.push(number) };
}

it('fetches the answer when the work has ended, once', async () => {
  const work = told();
  const asked = new AskedWork<string>(work);
  let fetched = 0;
  await asked.ask({
    begin: async () => job(7, 'running'),
    answer: async () => `answer ${(fetched += 1)}`,
  });
  expect(asked.busy).toBe(true);
  await asked.look();
  expect(asked.answer).toBeNull();
  work.all.push(job(7, 'done'));
  const again = new AskedWork<string>(work);
  // It may have ended before its number was known.
  await again.ask({ begin: async () => job(7, 'running'), answer: async () => 'done at once' });
  await Promise.all([again.look(), again.look()]);
  expect(again.answer).toBe('done at once');
  expect(again.busy).toBe(false);
});

it('tells why it failed, and that it was stopped', async () => {
  const work = told();
  const asked = new AskedWork<string>(work);
  const problem = { code: 'x', message: 'no film', hint: 'lay it flat', details: null };
  work.all.push(job(1, 'failed', { problem }), job(2, 'cancelled'));
  const answer = async () => 'never';
  await asked.ask({ begin: async () => job(1, 'running'), answer });
  await asked.look();
  expect(asked.problem).toEqual(problem);
  await asked.ask({ begin: async () => job(2, 'running'), answer });
  await asked.look();
  expect(asked.problem).toBeNull();
  expect(asked.stopped).toBe(true);
  const refused = new Refused(problem, 400);
  await asked.ask({ begin: async () => Promise.reject(refused), answer });
  expect(asked.problem).toEqual(problem);
  expect(asked.busy).toBe(false);
});

it('stops what nobody waits for any more', async () => {
  const work = told();
  const asked = new AskedWork<string>(work);
  const answer = async () => 'late';
  await asked.ask({ begin: async () => job(1, 'running'), answer });
  // A question that had not begun when the next was asked.
  let begin: (job: Job) => void = () => undefined;
  const slow = asked.ask({ begin: () => new Promise<Job>((done) => (begin = done)), answer });
  await asked.ask({ begin: async () => job(3, 'running'), answer });
  begin(job(2, 'running'));
  await slow;
  expect(work.stopped).toEqual([1, 2]);
  expect(asked.job?.job).toBe(3);
  asked.leave();
  expect(work.stopped).toEqual([1, 2, 3]);
});
