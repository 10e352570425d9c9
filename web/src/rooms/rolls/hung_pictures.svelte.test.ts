// @vitest-environment node
import { beforeEach, expect, it } from 'vitest';
import { HungPictures } from './hung_pictures.svelte';

const OF = { film: 'boat', roll: 'R1', pictures: 'p' };
const run = (from: number, count: number) => Array.from({ length: count }, (_, off) => from + off);

let asked: { frames: number[]; signal: AbortSignal; answer: (come: boolean) => void }[];
let freed: string[];
let due: (() => void)[];
let pictures: HungPictures<string>;

beforeEach(() => {
  [asked, freed, due] = [[], [], []];
  pictures = new HungPictures<string>({
    fetch: (address, count, signal) =>
      new Promise((resolve) => {
        const frames = new URL(address, 'http://house').searchParams.get('frames') ?? '';
        const numbers = frames.split(',').map(Number);
        expect(numbers).toHaveLength(count);
        const answer = (come: boolean) => resolve(come ? numbers.map(String) : []);
        asked.push({ frames: numbers, signal, answer });
      }),
    free: (picture) => freed.push(picture),
    later: (_, act) => due.push(act),
  });
});

const settle = () => new Promise((done) => setTimeout(done));

it('while the film runs, nothing that is on its way is asked for again', async () => {
  for (let frame = 0; frame < 40; frame += 1) pictures.want(OF, 72, run(0, 96));
  expect(asked.map((each) => each.frames.length)).toEqual([60, 36]);
  asked.forEach((each) => each.answer(true));
  await settle();
  expect([0, 59, 60, 95].every((frame) => pictures.get(OF, 72, frame) !== null)).toBe(true);
  pictures.want(OF, 72, run(48, 96));
  expect(asked.at(-1)?.frames).toEqual(run(96, 48));
  expect(asked.every((each) => !each.signal.aborted)).toBe(true);
});

it('what nobody wants any more is called off', async () => {
  pictures.want(OF, 72, run(0, 10));
  pictures.want({ ...OF, roll: 'R2' }, 72, run(0, 10));
  expect(asked.map((each) => each.signal.aborted)).toEqual([true, false]);
  expect(pictures.get(OF, 36, 0)).toBeNull();
});

it('film that does not come is asked for again after a rest', async () => {
  pictures.want(OF, 72, run(0, 10));
  asked[0]?.answer(false);
  await settle();
  pictures.want(OF, 72, run(0, 10));
  expect(asked).toHaveLength(1);
  due.forEach((act) => act());
  expect(asked).toHaveLength(2);
  asked[1]?.answer(true);
  await settle();
  expect([pictures.get(OF, 72, 9), pictures.arrived]).toEqual(['9', 1]);
});

it('leaving frees what was kept, and what comes too late', async () => {
  pictures.want(OF, 72, run(0, 2));
  asked[0]?.answer(true);
  await settle();
  pictures.want(OF, 72, run(2, 2));
  pictures.leave();
  asked[1]?.answer(true);
  await settle();
  expect(freed).toEqual(['0', '1', '2', '3']);
  expect(pictures.get(OF, 72, 0)).toBeNull();
});
