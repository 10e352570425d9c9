// @vitest-environment node
import { expect, it } from 'vitest';
import { WatchedPictures } from './watched_pictures.svelte';

const picture = (frame: number) => ({ frame }) as unknown as CanvasImageSource;

it('fetches each picture once, a few at a time, and goes on past one that does not come', async () => {
  const asked: number[] = [];
  let [busy, most] = [0, 0];
  const watched = new WatchedPictures(async (frame) => {
    asked.push(frame);
    busy += 1;
    most = Math.max(most, busy);
    await Promise.resolve();
    busy -= 1;
    if (frame === 72) throw new Error('gone');
    return frame === 108 ? null : picture(frame);
  });
  watched.want([0, 36, 72, 108, 144, 180]);
  watched.want([0, 36, 72, 108, 144, 180, 216]);
  for (let turn = 0; turn < 20; turn += 1) await Promise.resolve();
  expect(asked).toEqual([0, 36, 72, 108, 144, 180, 216]);
  expect(most).toBeLessThanOrEqual(4);
  expect([0, 72, 108, 216].map((frame) => watched.get(frame) !== null)).toEqual([
    true,
    false,
    false,
    true,
  ]);
  expect(watched.arrived).toBe(5);
});
