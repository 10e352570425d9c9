import { flushSync } from 'svelte';
import { expect, it } from 'vitest';
import { LentPicture } from './lent_picture.svelte';
import { type Nearness, PictureShelf } from './picture_shelf';

it('follows its address, and is given back in the end', async () => {
  const asked: { url: string; signal: AbortSignal }[] = [];
  const shelf = new PictureShelf<string>(
    {
      load: (url, signal) => {
        asked.push({ url, signal });
        return url.startsWith('slow') ? new Promise(() => undefined) : Promise.resolve(`of ${url}`);
      },
    },
    { requests: 1, room: 9 },
  );
  let url = $state<string | null>('1');
  let lent: LentPicture<string> | null = null;
  const end = $effect.root(() => {
    lent = new LentPicture(shelf, () => url);
  });
  const seen = () => lent?.picture ?? null;
  flushSync();
  expect(seen()).toBeNull();
  await new Promise((done) => setTimeout(done));
  expect(seen()).toBe('of 1');
  url = 'slow';
  flushSync();
  expect(seen()).toBeNull();
  url = null;
  flushSync();
  expect(asked.map((each) => each.signal.aborted)).toEqual([false, true]);
  url = 'slow again';
  flushSync();
  end();
  expect(asked[2]?.signal.aborted).toBe(true);
});

it('moves nearer as it comes into sight', async () => {
  const asked: string[] = [];
  let go: () => void = () => undefined;
  const shelf = new PictureShelf<string>(
    {
      load: (url) => {
        asked.push(url);
        return url === 'first'
          ? new Promise((done) => (go = () => done(url)))
          : Promise.resolve(url);
      },
    },
    { requests: 1, room: 9 },
  );
  let sight = $state<Nearness>('far');
  const end = $effect.root(() => {
    new LentPicture(shelf, () => 'first');
    new LentPicture(
      shelf,
      () => 'second',
      () => 'near',
    );
    new LentPicture(
      shelf,
      () => 'third',
      () => sight,
    );
  });
  flushSync();
  sight = 'seen';
  flushSync();
  go();
  await new Promise((done) => setTimeout(done));
  expect(asked).toEqual(['first', 'third', 'second']);
  end();
});
