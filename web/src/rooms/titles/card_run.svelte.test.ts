// @vitest-environment node
import { expect, it } from 'vitest';
import { boatTitles } from './boat_titles';
import { CardRun, pictureAt, type RunWindow } from './card_run.svelte';
import { PretendTitlesDesk } from './pretend_titles_desk';
import type { TitleWords } from './title_types';

const RUNS = [
  { frames: 36, picture: 0 },
  { frames: 126, picture: 36 },
  { frames: 18, picture: 0 },
];
const EIGHTEEN = { num: 18, den: 1 };

/** A window whose time the test moves. */
class Window implements RunWindow {
  ms = 0;
  private waits: ((ms: number) => void) | null = null;
  now = () => this.ms;
  next(act: (ms: number) => void): () => void {
    this.waits = act;
    return () => (this.waits = null);
  }
  drawAt(ms: number): void {
    this.ms = ms;
    const act = this.waits;
    this.waits = null;
    act?.(ms);
  }
}

function laid() {
  const [desk, window_] = [new PretendTitlesDesk(), new Window()];
  const run = new CardRun(desk, window_);
  const title = boatTitles().titles[0]?.title as TitleWords;
  run.lay(title, RUNS);
  return { desk, window_, run, title };
}

it('knows the picture of each frame', () => {
  const at = (frame: number) => pictureAt(RUNS, frame);
  expect([at(0), at(35), at(36), at(161), at(162), at(179), at(180)]).toEqual([
    0,
    0,
    36,
    36,
    0,
    0,
    null,
  ]);
});

it('fetches each picture once, runs at the film’s speed and ends on the last frame', async () => {
  const { desk, window_, run } = laid();
  await run.run(EIGHTEEN);
  expect([run.running, run.at, desk.drawings]).toEqual([true, 0, 2]);
  window_.drawAt(1000);
  expect(run.at).toBe(18);
  // Nothing adds up: a late screen is at the frame whose time it is.
  window_.drawAt(2000 + 1);
  expect(run.at).toBe(36);
  window_.drawAt(20_000);
  expect([run.running, run.at]).toEqual([false, 179]);
  // Run again, it begins anew.
  await run.run(EIGHTEEN);
  expect([run.at, desk.drawings]).toEqual([0, 2]);
  run.stop();
  window_.drawAt(40_000);
  expect([run.running, run.at]).toEqual([false, 0]);
});

it('steps by frames within the card, from either end', () => {
  const { run } = laid();
  run.step(-1);
  expect(run.at).toBe(179);
  run.step(10);
  expect(run.at).toBe(179);
  run.whole();
  run.step(1);
  expect(run.at).toBe(0);
  run.step(-10);
  expect(run.at).toBe(0);
});

it('forgets pictures of what was exposed otherwise, and keeps the place', async () => {
  const { desk, run, title } = laid();
  run.go(170);
  const shorter = [{ frames: 60, picture: 0 }];
  run.lay({ ...title, shooting: { ...title.shooting, after: 0 } }, shorter);
  expect(run.at).toBe(59);
  await run.run(EIGHTEEN);
  run.stop();
  const before = desk.drawings;
  run.lay({ ...title, words: 'other' }, shorter);
  await run.run(EIGHTEEN);
  expect(desk.drawings).toBeGreaterThan(before);
  run.leave();
});
