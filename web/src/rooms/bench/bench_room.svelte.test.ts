import { flushSync } from 'svelte';
import { beforeEach, describe, expect, it } from 'vitest';
import { BenchRoom, REST } from './bench_room.svelte';
import { ACTS, boatBench, nothingBegun, WAITS } from './boat_bench';
import { PretendBenchDesk } from './pretend_bench_desk';

const NOWHERE = { getItem: () => null, setItem: () => {}, removeItem: () => {} };

let later: { ms: number; act: () => void }[] = [];
const clock = {
  now: () => new Date('2026-11-26T10:00:00Z'),
  later: (ms: number, act: () => void) => void later.push({ ms, act }),
};

/** The moment after a tick goes by. */
function rest() {
  expect(later.map((one) => one.ms)).toEqual([REST]);
  later.splice(0).forEach((one) => one.act());
}

/** All that is on its way arrives. */
async function settle() {
  for (let turn = 0; turn < 12; turn++) await Promise.resolve();
  flushSync();
}

async function atWork(bench = boatBench()) {
  const desk = new PretendBenchDesk(bench);
  const room = new BenchRoom(desk, clock, NOWHERE);
  await room.load();
  return { desk, room };
}

beforeEach(() => {
  later = [];
});

describe('a tick', () => {
  it('shows the next act at once and is written down with the lines it followed', async () => {
    const { desk, room } = await atWork();
    expect(room.next?.title).toBe(ACTS.cut.title);
    expect(room.tick()).toBe(true);
    expect(room.next).toEqual(ACTS.tail);
    expect(room.bench?.cuts.done).toBe(31);
    await settle();
    expect(desk.written.map((one) => one.write)).toEqual([{ bench: 'tick', lines: 47 }]);
    expect(room.kept?.lines).toBe(48);
    expect(room.waiting).toEqual([]);
  });

  it('pressed twice by a trembling hand is one', async () => {
    const { desk, room } = await atWork();
    room.tick();
    expect(room.tick()).toBe(false);
    await settle();
    expect(room.tick()).toBe(false);
    rest();
    expect(room.tick()).toBe(true);
    await settle();
    expect(desk.written).toHaveLength(2);
  });

  it('is refused where another has ticked; the bench is shown as it is then', async () => {
    const { desk, room } = await atWork();
    desk.tickElsewhere();
    room.tick();
    await settle();
    expect(desk.written).toEqual([]);
    expect(room.refused?.code).toBe('bench.lines');
    expect(room.next).toEqual(ACTS.tail);
    expect(room.shown?.lines).toBe(48);
  });

  it('whose answer was lost is sent again, and done once', async () => {
    const { desk, room } = await atWork();
    desk.losesAnswer = true;
    room.tick();
    await settle();
    expect(room.lostSince).not.toBeNull();
    expect(desk.lost).toBe(1);
    expect(room.next).toEqual(ACTS.tail);
    room.comeBack();
    await settle();
    expect(room.lostSince).toBeNull();
    expect(desk.written).toHaveLength(1);
    expect(room.kept?.lines).toBe(48);
  });

  it('goes on while the program does not answer, and all are sent in order', async () => {
    const { desk, room } = await atWork();
    desk.gone = true;
    room.tick();
    await settle();
    rest();
    expect(room.tick()).toBe(true);
    await settle();
    expect(room.waiting).toHaveLength(2);
    expect(room.next).toEqual(ACTS.join);
    expect(room.bench?.cuts.done).toBe(32);
    desk.gone = false;
    room.comeBack();
    await settle();
    expect(desk.written.map((one) => one.write)).toEqual([
      { bench: 'tick', lines: 47 },
      { bench: 'tick', lines: 48 },
    ]);
  });

  it('cannot be made while the act waits, nor when all is done', async () => {
    const waits = await atWork(boatBench({ waits: WAITS }));
    expect(waits.room.tick()).toBe(false);
    const done = await atWork(boatBench({ acts: [], done: true }));
    expect(done.room.tick()).toBe(false);
    const nothing = await atWork(nothingBegun());
    expect(nothing.room.tick()).toBe(false);
    expect(nothing.room.bench).toBeNull();
  });
});

describe('looking', () => {
  it('ahead shows what comes and does nothing; Enter leads back and ticks nothing', async () => {
    const { desk, room } = await atWork();
    expect(room.look(1)).toBe(true);
    expect(room.looked).toMatchObject({ kind: 'act', act: ACTS.tail, ahead: 1 });
    expect(room.tick()).toBe(false);
    expect(room.looked).toMatchObject({ kind: 'act', act: ACTS.cut, ahead: 0 });
    await settle();
    expect(desk.written).toEqual([]);
  });

  it('back shows the log, and ends where it ends', async () => {
    const { room } = await atWork();
    expect(room.look(-1)).toBe(true);
    expect(room.looked).toMatchObject({ kind: 'line', line: { number: 47 } });
    for (let back = 2; back <= 6; back++) expect(room.look(-1)).toBe(true);
    expect(room.look(-1)).toBe(false);
    for (let on = 0; on < 9; on++) expect(room.look(1)).toBe(true);
    expect(room.look(1)).toBe(false);
    expect(room.looked).toMatchObject({ kind: 'act', ahead: 3 });
  });
});

describe('what is shown', () => {
  it('is never older than what was shown before', async () => {
    const { desk, room } = await atWork();
    desk.bench = { ...boatBench(), revision: 60, lines: 3 };
    await room.load();
    expect(room.shown?.lines).toBe(47);
  });

  it('is there after a tick though somebody asked for it anew meanwhile', async () => {
    const { desk, room } = await atWork();
    const slow: (() => void)[] = [];
    const load = desk.load.bind(desk);
    desk.load = () => new Promise((done) => slow.push(() => void load().then(done)));
    room.tick();
    await settle();
    // An event asks as well, later, and its answer does not come.
    void room.load();
    expect(slow).toHaveLength(2);
    slow[0]?.();
    await settle();
    expect(room.kept?.lines).toBe(48);
    desk.load = load;
    rest();
    expect(room.tick()).toBe(true);
    await settle();
    expect(room.refused).toBeNull();
    expect(desk.written.map((one) => one.write)).toEqual([
      { bench: 'tick', lines: 47 },
      { bench: 'tick', lines: 48 },
    ]);
  });

  it('stays when the program does not answer; without anything it says why', async () => {
    const { desk, room } = await atWork();
    desk.gone = true;
    await room.load();
    expect(room.failed).toBeNull();
    expect(room.next?.title).toBe(ACTS.cut.title);
    const other = new BenchRoom(desk, clock, NOWHERE);
    await other.load();
    expect(other.failed?.code).toBe('server.not_reached');
  });

  it('one back is the last line that can be struck', async () => {
    const { room } = await atWork();
    expect(room.last?.number).toBe(47);
    expect(await room.write({ bench: 'strike', line: 47, reason: 'mis-tick' })).toBe(true);
    expect(room.kept?.lines).toBe(48);
  });
});
