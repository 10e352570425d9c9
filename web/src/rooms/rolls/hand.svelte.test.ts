// @vitest-environment node
import { beforeEach, expect, it } from 'vitest';
import { Refused } from '$lib/api/server';
import type { Film, FilmChange, Kept } from '$lib/api/wire';
import { Hand } from './hand.svelte';
import { filmOf, headOf, logOf, takeOf } from './pretend_log';
import { RollsRoom } from './rolls.svelte';

let film: Film;
let said: string[];
let sent: { change: FilmChange; seen: number }[];
let carried: unknown[];
let watched: unknown[];
let machine: {
  view: { machine: 'stopped' | 'running' };
  projector: { runOrStop(): void; stop(): void };
};
let room: RollsRoom;
let hand: Hand;
let refuse: Refused | null;

beforeEach(() => {
  film = filmOf([headOf('R1', 3600)]);
  [said, sent, carried, watched, refuse] = [[], [], [], [], null];
  const log = logOf(
    [takeOf(24, 390, { setup: '1', take: 1 }), takeOf(390, 762, { setup: '1', take: 2 })],
    3600,
    { revision: 9 },
  );
  const desk = {
    film,
    rolls: new Map([['R1', log]]),
    loadRoll: () => Promise.resolve(log),
    change: (change: FilmChange, seen: number): Promise<Kept> => {
      sent.push({ change, seen });
      return refuse
        ? Promise.reject(refuse)
        : Promise.resolve({ revision: 10, already: false, words: '' });
    },
  };
  machine = {
    view: { machine: 'stopped' },
    projector: {
      runOrStop: () => {
        machine.view.machine = machine.view.machine === 'stopped' ? 'running' : 'stopped';
      },
      stop: () => {
        machine.view.machine = 'stopped';
      },
    },
  };
  room = new RollsRoom(desk);
  hand = new Hand({
    room,
    desk,
    machine,
    say: (words) => said.push(words),
    watch: (...where) => watched.push(where),
    carry: (...film) => carried.push(film),
  });
});

it('each step is said, and a hand on the film stops the machine', () => {
  hand.runOrStop();
  expect([machine.view.machine, room.look]).toEqual(['running', 'near']);
  hand.step('frame', 2);
  expect([machine.view.machine, room.frame]).toEqual(['stopped', 26]);
  expect(said.at(-1)).toBe('R1 26, take 1-T1, frame 3 of 366');
  hand.neighbour('after');
  expect(said.at(-1)).toBe('Take 1-T2, 2 of 2, R1 390, 372 frames');
});

it('breaks and mends where one is, at the revision that is shown', async () => {
  room.goTo(400);
  hand.breakHere();
  room.goTo(390);
  hand.mendBreak();
  expect(sent).toEqual([
    { change: { film_change: 'break_at', roll: 'R1', frame: 400 }, seen: 9 },
    { change: { film_change: 'mend_break', roll: 'R1', frame: 390 }, seen: 9 },
  ]);
  await Promise.resolve();
  expect(said).toEqual(['A take begins at R1 400.', 'The break at R1 390 is mended.']);
});

it('a refusal is shown until the next act', async () => {
  refuse = new Refused(
    { code: 'x', message: 'no take begins there', hint: 'step', details: null },
    422,
  );
  hand.mendBreak();
  await Promise.resolve();
  await Promise.resolve();
  expect(hand.problem?.message).toBe('no take begins there');
  hand.step('frame', 1);
  expect(hand.problem).toBeNull();
});

it('lays the take into the newest version, whole', () => {
  hand.layIn();
  expect(carried).toEqual([['R1.24.390', null]]);
  room.goTo(3000);
  hand.layIn();
  expect(carried).toHaveLength(1);
  hand.fill();
  expect(hand.filling).toBe(false);
});

it('a note is opened on the frame one is at', () => {
  room.goTo(100);
  hand.note();
  expect(hand.openedNote).toEqual({ roll: 'R1', frame: 100, note: null });
  expect(hand.back()).toBe(false);
  hand.nearer();
  expect([hand.back(), room.look]).toEqual([true, 'whole']);
});

it('the roll is watched through from the frame one is at', () => {
  room.goTo(100);
  hand.runOrStop();
  hand.watch();
  expect([watched, machine.view.machine]).toEqual([[['R1', 100]], 'stopped']);
});

it('where breaks are looked at, the sides and the green key are theirs', async () => {
  room.look = 'breaks';
  room.goTo(300);
  hand.neighbour('after');
  expect([room.frame, said.at(-1)]).toEqual([390, 'Camera stop at R1 390, not looked at yet']);
  hand.fill();
  await Promise.resolve();
  expect(sent).toEqual([
    { change: { film_change: 'let_break_stand', roll: 'R1', frame: 390 }, seen: 9 },
  ]);
  expect(hand.filling).toBe(false);
});
