// @vitest-environment node
import { expect, it } from 'vitest';
import { Refused } from '$lib/api/server';
import { boatPlan, boatScript } from './boat_script';
import type { ScriptDesk } from './script_desk';
import { ScriptRoom } from './script_room.svelte';
import type { Script, ScriptChange } from './script_types';

/** A desk whose answers the test gives. */
class PretendDesk implements ScriptDesk {
  script: Script = boatScript();
  changes: { change: ScriptChange; revision: number }[] = [];
  loads = 0;
  refuse = false;
  wait: Promise<void> | null = null;

  async load(): Promise<Script> {
    this.loads += 1;
    const now = structuredClone(this.script);
    await this.wait;
    return now;
  }
  plan = () => Promise.resolve(boatPlan());
  oneMore = () => Promise.resolve(null);
  inCamera = () => Promise.resolve(null);
  circle = () => Promise.resolve();
  bringIn = () => Promise.reject(new Error('not asked for here'));
  keepPhotograph = () => Promise.resolve('a.jpg');
  change(change: ScriptChange, revision: number): Promise<void> {
    if (this.refuse) {
      const problem = { code: 'store.stale', message: 'changed', hint: 'look', details: null };
      return Promise.reject(new Refused(problem, 409));
    }
    this.changes.push({ change, revision });
    this.script.revision += 1;
    return Promise.resolve();
  }
}

async function opened() {
  const desk = new PretendDesk();
  const room = new ScriptRoom(desk);
  await room.load();
  return { desk, room };
}
const sceneOf = (room: ScriptRoom, number: string) => {
  const found = room.script?.scenes.find((one) => one.scene.number === number);
  if (!found) throw new Error(`no scene ${number}`);
  return found;
};

it('shows what was shot once there are takes, and walks by action and by line', async () => {
  const { room } = await opened();
  expect([room.view, room.action, room.coverage?.covered]).toEqual(['shot', '1a', 15]);
  room.step(2);
  room.aside(1);
  expect([room.action, room.chosenLine?.name]).toEqual(['3a', '3-T1']);
  room.step(-5);
  expect([room.action, room.line]).toEqual(['1a', null]);
  expect([room.nextQuestion(), room.action]).toEqual([true, '5a']);
  expect([room.nextQuestion(), room.nextQuestion(), room.action]).toEqual([true, false, '5c']);
});

it('keeps what was drawn when the pen is lifted, and nothing before', async () => {
  const { desk, room } = await opened();
  room.look('planned');
  const scene = sceneOf(room, '3');
  const line = room.linesOf(scene).find((one) => one.name === '3B');
  if (!line) throw new Error('3B is there');
  room.pen.begin(scene, line, 2);
  expect(room.seenOf(scene, line)).toEqual(['not', 'on', 'on']);
  expect(desk.changes).toEqual([]);
  room.pen.putBack();
  await room.pen.lift();
  expect(desk.changes).toEqual([]);
  room.pen.begin(scene, null, 0);
  room.pen.draw(1);
  await room.pen.lift();
  const to = desk.changes[0]?.change.to;
  expect(to?.part === 'setup' && [to.setup.scene, to.setup.shown]).toEqual([
    '3',
    [
      { action: '3a', off_camera: false },
      { action: '3b', off_camera: false },
    ],
  ]);
});

it('draws nothing on takes that were shot', async () => {
  const { room } = await opened();
  const scene = sceneOf(room, '3');
  room.pen.begin(scene, room.linesOf(scene)[0] ?? null, 2);
  expect(room.pen.drawing).toBeNull();
});

it('leaves open what could not be kept, and keeps it when it is meant once more', async () => {
  const { desk, room } = await opened();
  const scene = sceneOf(room, '3');
  room.writer.write(scene.id, 0);
  // Another window changes the film, and this one hears of it.
  desk.script.revision += 5;
  await room.load();
  expect(room.writer.writing?.seen).toBe(desk.script.revision - 5);
  desk.refuse = true;
  await room.writer.keepAction(scene, 0, { text: 'mine' });
  expect([room.writer.writing?.at, room.refused?.code]).toEqual([0, 'store.stale']);
  desk.refuse = false;
  await room.writer.keepAction(scene, 0, { text: 'mine' });
  expect(room.writer.writing).toBeNull();
  // What was told of once is written over on purpose.
  expect(desk.changes[0]?.revision).toBe(desk.script.revision - 1);
});

it('asks again where an answer may be older than what was kept', async () => {
  const { desk, room } = await opened();
  let go = () => undefined as void;
  desk.wait = new Promise((done) => (go = done));
  const slow = room.load();
  desk.script.scenes = [];
  const after = room.load();
  desk.wait = null;
  go();
  await Promise.all([slow, after]);
  expect(room.script?.scenes).toEqual([]);
  expect(desk.loads).toBe(3);
});
