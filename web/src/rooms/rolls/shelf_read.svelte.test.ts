// @vitest-environment node
import { expect, it } from 'vitest';
import type { Job, RollHead } from '$lib/api/wire';
import { headOf } from './pretend_log';
import { ShelfRead } from './shelf_read.svelte';

const job = (number: number, state: string, more: Partial<Job> = {}): Job => ({
  job: number,
  kind: 'read',
  film: 'boat',
  roll: `R${number}`,
  words: `reading R${number}`,
  state,
  done: 0,
  total: null,
  left_seconds: null,
  pictures: [],
  notes: [],
  problem: null,
  ...more,
});
const begun = (number: number) => ({
  file: `${number}.mkv`,
  roll: `R${number}`,
  job: number,
  refused: null,
});

it('tells how far it is, and at the end what came of each scan', () => {
  const film = $state({ jobs: [job(1, 'running'), job(2, 'running')], heads: [] as RollHead[] });
  const shelf = new ShelfRead(
    () => film.jobs,
    () => film.heads,
  );
  shelf.begun = [
    begun(1),
    begun(2),
    { file: 'letter.mkv', roll: 'R3', job: null, refused: 'There is no picture in it.' },
  ];
  expect(shelf.heading).toBe('1 of 3 scans have been gone through.');
  expect(shelf.rows.map((row) => row.state)).toEqual(['under way', 'under way', 'not read']);

  film.heads = [headOf('R1', 3600, { takes: 10, missing: 2 })];
  const problem = { code: 'x', message: 'it broke off', hint: '', details: null };
  film.jobs = [job(1, 'done'), job(2, 'failed', { problem })];
  expect(shelf.heading).toBe('1 of 3 rolls have been read.');
  expect(shelf.rows.map((row) => [row.state, row.words])).toEqual([
    ['read', '3,600 frames, 10 takes, 50 ft 00 fr, 2 not seen'],
    ['not read', 'It broke off.'],
    ['not read', 'There is no picture in it.'],
  ]);
});

it('a roll that is there counts as read, also when its work is forgotten', () => {
  const shelf = new ShelfRead(
    () => [],
    () => [headOf('R1', 72, { takes: 1 })],
  );
  shelf.begun = [begun(1)];
  expect(shelf.heading).toBe('The roll has been read.');
  shelf.putAway();
  expect(shelf.rows).toEqual([]);
});
