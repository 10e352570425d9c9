// How often the screen is drawn for one act of the hand.
import { flushSync } from 'svelte';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { CuttingRoom } from './cutting.svelte';
import { CuttingActs } from './cutting_acts';
import { isShot } from './pieces';
import { PretendDesk } from './pretend_desk.svelte';

let desk: PretendDesk;
let room: CuttingRoom;
/** Where piece 8 begins and which piece is chosen, at each drawing. */
let drawn: [number, number][];
let end: () => void;

beforeEach(async () => {
  vi.useFakeTimers();
  desk = new PretendDesk();
  room = new CuttingRoom(desk);
  await room.open('v1');
  room.chooseJoin(6, 'in');
  drawn = [];
  end = $effect.root(() => {
    $effect(() => {
      const piece = room.shown?.pieces[7];
      drawn.push([isShot(piece) ? piece.in : -1, room.chosen]);
    });
  });
  flushSync();
  drawn = [];
});
afterEach(() => {
  end();
  vi.useRealTimers();
});

it('a nudge is drawn with its answer when that comes soon', async () => {
  room.nudge(-1);
  flushSync();
  expect([drawn, isShot(room.now?.pieces[7]) && room.now.pieces[7].in]).toEqual([[], 2995]);
  await desk.answer();
  flushSync();
  await vi.advanceTimersByTimeAsync(100);
  flushSync();
  expect(drawn).toEqual([[2995, 7]]);
});

it('it is drawn without the answer when that takes long', async () => {
  room.nudge(-1);
  await vi.advanceTimersByTimeAsync(10);
  flushSync();
  expect(drawn).toEqual([]);
  await vi.advanceTimersByTimeAsync(10);
  flushSync();
  expect(drawn).toEqual([[2995, 7]]);
});

it('a second nudge goes on from the first, whether that was drawn or not', () => {
  room.nudge(-1);
  room.nudge(-1);
  expect(isShot(room.now?.pieces[7]) && room.now.pieces[7].in).toBe(2994);
});

it('a piece that is moved is chosen in the drawing that moves it', async () => {
  const acts = new CuttingActs(room, desk, () => {});
  const moving = acts.drop(7, 10);
  await vi.advanceTimersByTimeAsync(0);
  await moving;
  flushSync();
  expect(drawn.map(([, chosen]) => chosen)).toEqual([9]);
});

it('a step back is drawn once, at the place that it changed', async () => {
  await room.make([{ change: 'remove', at: 3 }]);
  room.chooseJoin(9);
  flushSync();
  drawn = [];
  await room.undo();
  flushSync();
  expect(drawn.map(([, chosen]) => chosen)).toEqual([3]);
});
