// @vitest-environment node
import { expect, it } from 'vitest';
import { NotReached } from '$lib/api/server';
import type { Film, RollLog } from '$lib/api/wire';
import { filmOf, headOf, logOf, takeOf } from './pretend_log';
import { RollsRoom, type RollsDesk } from './rolls.svelte';

class PretendDesk implements RollsDesk {
  film = $state.raw<Film | null>(filmOf([headOf('R10', 100), headOf('R2', 3600)]));
  rolls = $state.raw<ReadonlyMap<string, RollLog>>(new Map());
  asked: string[] = [];
  fails = false;

  async loadRoll(roll: string): Promise<RollLog> {
    this.asked.push(roll);
    if (this.fails) throw new NotReached(null);
    const takes = roll === 'R2' ? [takeOf(18, 290), takeOf(290, 470), takeOf(470, 668)] : [];
    const log = logOf(takes, roll === 'R2' ? 3600 : 100, { roll });
    this.rolls = new Map(this.rolls).set(roll, log);
    return log;
  }
}

async function opened() {
  const desk = new PretendDesk();
  const room = new RollsRoom(desk);
  await room.load();
  return { desk, room };
}

it('begins with the first roll as people count, at its first take', async () => {
  const { desk, room } = await opened();
  expect([room.roll, room.frame, desk.asked]).toEqual(['R2', 18, ['R2']]);
  await room.load();
  expect(desk.asked).toEqual(['R2']);
});

it('steps, and comes back to where it was on each roll', async () => {
  const { room } = await opened();
  room.step('foot', 2);
  expect(room.frame).toBe(162);
  room.choose('R10');
  await room.load();
  expect(room.frame).toBe(0);
  room.step('frame', -1);
  expect(room.frame).toBe(0);
  room.end('last');
  expect(room.frame).toBe(99);
  room.choose('R2');
  expect(room.frame).toBe(162);
  room.neighbour('after');
  expect([room.frame, room.here?.number]).toEqual([290, 2]);
});

it('knows the rolls beside it', async () => {
  const { room } = await opened();
  expect([room.otherRoll('before'), room.otherRoll('after')]).toEqual([null, 'R10']);
  room.choose('R10');
  expect([room.otherRoll('before'), room.otherRoll('after')]).toEqual(['R2', null]);
});

it('says and reads its place', async () => {
  const { room } = await opened();
  room.goTo(547);
  room.look = 'near';
  expect(room.place).toEqual({ roll: 'R2', frame: '547', look: 'near' });
  const other = new RollsRoom(new PretendDesk());
  other.arrive({ roll: 'R2', frame: '99999', look: 'near' });
  await other.load();
  expect([other.frame, other.look]).toEqual([3599, 'near']);
  other.arrive({ frame: 'x' });
  expect(other.frame).toBe(3599);
});

it('a roll that is not there is not held', async () => {
  const { desk, room } = await opened();
  room.choose('R7');
  expect(room.roll).toBe('R2');
  let coming = ['R7'];
  const waiting = new RollsRoom(desk, () => coming);
  waiting.choose('R7');
  expect([waiting.roll, waiting.head, waiting.frame]).toEqual(['R7', null, 0]);
  coming = [];
});

it('says why a log cannot be shown, and shows it when it comes', async () => {
  const desk = new PretendDesk();
  desk.fails = true;
  const room = new RollsRoom(desk);
  await room.load();
  expect(room.problem?.code).toBe('server.not_reached');
  desk.fails = false;
  await room.load();
  expect(room.problem).toBeNull();
  expect(room.lengths).toHaveLength(5);
});
