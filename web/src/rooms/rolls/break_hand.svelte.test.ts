// @vitest-environment node
import { beforeEach, describe, expect, it } from 'vitest';
import { Refused } from '$lib/api/server';
import type { FilmChange, Kept, RollLog } from '$lib/api/wire';
import { BreakHand } from './break_hand.svelte';
import { filmOf, headOf, logOf, takeOf } from './pretend_log';
import { RollsRoom } from './rolls.svelte';

let rolls: Map<string, RollLog>;
let sent: FilmChange[];
let said: string[];
let refuse: Refused | null;
let room: RollsRoom;
let hand: BreakHand;

const breaks = [100, 200, 300].map((at) => ({
  at,
  begins: 'camera_stop',
  strength: 2,
  changed: 0.5,
  stands_out: 4,
  in_one_place: false,
  stays: 0,
  flash_frames: 0,
  flash_stops: 0,
  exposure_step: 0,
  rack: 0,
  edge: 0,
}));

/** A log as it stands after a change; the reading's own words stay as they are. */
function after(log: RollLog, change: FilmChange): RollLog {
  const ends = new Set(log.takes.map((take) => take.in));
  const looked = new Map(log.takes.map((take) => [take.in, take.looked]));
  if (change.film_change === 'let_break_stand') looked.set(change.frame, true);
  if (change.film_change === 'mend_break') ends.delete(change.frame);
  if (change.film_change === 'break_at') ends.add(change.frame);
  if (change.film_change === 'move_break') {
    ends.delete(change.frame);
    ends.add(change.to);
    looked.set(change.to, true);
  }
  const firsts = [...ends].sort((a, b) => a - b);
  const takes = firsts.map((first, nth) =>
    takeOf(first, firsts[nth + 1] ?? 400, { looked: looked.get(first) ?? true }),
  );
  return logOf(takes, 400, { breaks, revision: log.revision + 1 });
}

beforeEach(() => {
  const start = logOf(
    [0, 100, 200, 300].map((at) => takeOf(at, at + 100)),
    400,
    { breaks },
  );
  const desk = $state({ film: filmOf([headOf('R1', 400)]), rolls: new Map([['R1', start]]) });
  rolls = desk.rolls;
  [sent, said, refuse] = [[], [], null];
  room = new RollsRoom({
    get film() {
      return desk.film;
    },
    get rolls() {
      return desk.rolls;
    },
    loadRoll: () => Promise.reject(new Error('not asked')),
  });
  hand = new BreakHand({
    room,
    desk: {
      change: (change): Promise<Kept> => {
        sent.push(change);
        if (refuse) return Promise.reject(refuse);
        desk.rolls = new Map([['R1', after(desk.rolls.get('R1')!, change)]]);
        return Promise.resolve({ revision: 2, already: false, words: '' });
      },
    },
    say: (words) => said.push(words),
  });
  void rolls;
});

const states = () => hand.changes.map((one) => [one.at, one.state]);

describe('the walk through the breaks', () => {
  it('lets one stand and goes on to the next, until all have been looked at', async () => {
    expect(hand.left).toBe(3);
    hand.nextToLook();
    room.look = 'breaks';
    expect(room.frame).toBe(100);
    await hand.letStand();
    expect([room.frame, hand.left]).toEqual([200, 2]);
    await hand.letStand();
    await hand.letStand();
    expect(hand.left).toBe(0);
    expect(said.at(-1)).toBe('Every break of R1 has been looked at.');
    expect(sent.map((one) => one.film_change)).toEqual(Array(3).fill('let_break_stand'));
    // Another press decides nothing twice.
    await hand.letStand();
    expect(sent).toHaveLength(3);
  });

  it('goes to either side, looked at or not', () => {
    hand.take(hand.changes[1]!);
    hand.neighbour('after');
    expect(hand.held?.at).toBe(300);
    hand.neighbour('after');
    expect(hand.held?.at).toBe(300);
    hand.neighbour('before');
    hand.neighbour('before');
    expect([hand.held?.at, room.frame]).toEqual([100, 100]);
  });
});

describe('what is decided', () => {
  it('a break is moved to the frame one has stepped to, and is held there', async () => {
    hand.take(hand.changes[0]!);
    expect(hand.canMove).toBeNull();
    await hand.moveHere();
    expect(sent).toEqual([]);
    room.goTo(103);
    expect([hand.canMove, hand.held?.at]).toEqual([103, 100]);
    await hand.moveHere();
    expect(sent).toEqual([{ film_change: 'move_break', roll: 'R1', frame: 100, to: 103 }]);
    expect(hand.held?.at).toBe(103);
    // What the reading saw is told still, as taken back.
    expect(states()).toEqual([
      [100, 'taken back'],
      [103, 'stands'],
      [200, 'to look at'],
      [300, 'to look at'],
    ]);
  });

  it('two takes become one, and two again', async () => {
    hand.take(hand.changes[1]!);
    await hand.takeBack();
    expect(states()[1]).toEqual([200, 'taken back']);
    expect(hand.held?.at).toBe(200);
    await hand.letStand();
    await hand.takeBack();
    await hand.moveHere();
    expect(sent).toHaveLength(1);
    await hand.beginHere();
    expect(states()[1]).toEqual([200, 'stands']);
    expect(sent.at(-1)).toEqual({ film_change: 'break_at', roll: 'R1', frame: 200 });
  });

  it('what is refused is told, and the break is still in the hand', async () => {
    hand.take(hand.changes[0]!);
    const problem = { code: 'store.stale', message: 'changed meanwhile', hint: '', details: null };
    refuse = new Refused(problem, 409);
    await hand.letStand();
    expect([hand.problem?.message, hand.held?.at, hand.left]).toEqual([
      'changed meanwhile',
      100,
      3,
    ]);
  });
});

it('at the end of one roll the walk goes on to the next, and says so', async () => {
  const long = logOf([takeOf(0, 100), takeOf(100, 200)], 200, { roll: 'R3' });
  const looked = logOf([takeOf(0, 50), takeOf(50, 90, { looked: true })], 90, { roll: 'R2' });
  const first = logOf([takeOf(0, 100), takeOf(100, 200, { looked: true })], 200);
  const desk = $state({
    film: filmOf([headOf('R1', 200), headOf('R2', 90), headOf('R3', 200), headOf('R4', 9)]),
    rolls: new Map([
      ['R1', first],
      ['R2', looked],
    ]),
  });
  const asked: string[] = [];
  const several = new RollsRoom({
    get film() {
      return desk.film;
    },
    get rolls() {
      return desk.rolls;
    },
    loadRoll: (roll) => {
      asked.push(roll);
      if (roll !== 'R3') return Promise.reject(new Error('it is being read'));
      desk.rolls = new Map(desk.rolls).set('R3', long);
      return Promise.resolve(long);
    },
  });
  const change = (): Promise<Kept> => {
    const takes = long.takes.map((take) => ({ ...take, looked: true }));
    desk.rolls = new Map(desk.rolls).set('R3', { ...long, takes });
    return Promise.resolve({ revision: 2, already: false, words: '' });
  };
  const walking = new BreakHand({
    room: several,
    desk: { change },
    say: (words) => said.push(words),
  });
  expect(await walking.nextToLook()).toBe(true);
  expect([several.roll, several.frame, asked]).toEqual(['R3', 100, ['R3']]);
  expect(walking.came).toBe('Every break of R1 has been looked at. This is R3.');
  expect(said.at(-1)).toBe(`${walking.came} Camera stop at R3 100, not looked at yet`);
  several.look = 'breaks';
  // The last of all: said, and one stays where one is.
  await walking.letStand();
  expect([several.roll, walking.came]).toEqual([
    'R3',
    'Every break of every roll has been looked at.',
  ]);
  walking.take(walking.changes[0]!);
  expect(walking.came).toBeNull();
});

it('a take may begin at a join that was found inside a take', async () => {
  const log = rolls.get('R1')!;
  const joins = [{ frame: 250, kind: 'cement', note: '', footage: { feet: 3, frames: 34 } }];
  log.inspection = { ...log.inspection, joins };
  rolls = new Map([['R1', log]]);
  hand.take(hand.changes.find((one) => one.at === 250)!);
  expect([hand.canBegin, hand.held?.words]).toEqual([true, 'cement join']);
  await hand.beginHere();
  expect(sent).toEqual([{ film_change: 'break_at', roll: 'R1', frame: 250 }]);
});
