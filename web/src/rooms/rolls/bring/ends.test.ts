// @vitest-environment node
import { expect, it } from 'vitest';
import { endsOf } from './dropped_file.svelte';

it('a file is known by its two ends', async () => {
  const MEGA = 1 << 20;
  const long = new Uint8Array(MEGA + 10);
  long[0] = 1;
  long[MEGA + 9] = 2;
  const ends = new Uint8Array(await endsOf(new Blob([long])).arrayBuffer());
  expect([ends.length, ends[0], ends.at(-1)]).toEqual([2 * MEGA, 1, 2]);
  expect(await endsOf(new Blob(['abc'])).text()).toBe('abcabc');
});
