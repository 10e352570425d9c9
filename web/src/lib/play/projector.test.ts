// @vitest-environment node
import { describe, expect, it } from 'vitest';
import { speedFrom } from '$lib/film/speed';
import { PlayPlan, type Segment } from './play_plan';
import { PretendHouse } from './pretend';

const shot = (roll: string, first: number, thrown: number): Segment => ({
  kind: 'shot',
  roll,
  first,
  thrown,
});
const roll = (frames: number) => new PlayPlan([shot('R1', 0, frames)]);
const range = (first: number, thrown: number) =>
  Array.from({ length: thrown - first }, (_, off) => first + off);

/** Runs a roll to its end; gives what was drawn since the machine started. */
async function runThrough(
  hz: number,
  speed: string,
  frames: number,
  set?: (house: PretendHouse) => void,
) {
  const house = new PretendHouse(hz);
  house.projector.setSpeed(speedFrom(speed));
  await house.load(roll(frames));
  set?.(house);
  house.projector.run();
  await house.untilRunning();
  const start = house.clock.ms;
  await house.untilStopped();
  return { house, start, counts: house.projector.counts };
}

describe('at an exact speed', () => {
  it.each([
    ['18', 60],
    ['24', 60],
    ['50/3', 60],
    ['24000/1001', 60],
    ['16', 50],
    ['25', 50],
    ['30', 60],
    ['60', 60],
    ['18', 144],
    ['1/2', 60],
  ])('%s f/s on %i Hz shows every frame in its time', async (speed, hz) => {
    const { num, den } = speedFrom(speed);
    const frames = speed === '1/2' ? 5 : 200;
    const { house, start, counts } = await runThrough(hz, speed, frames);
    expect(counts).toEqual({ shown: frames, dropped: 0, doubled: 0, halted: 0, misses: [] });
    const drawn = house.drawn.filter(({ ms }) => ms >= start);
    // Frame 0 stood in the gate before; each other comes at the first refresh
    // on which its time, counted from the start, has begun.
    const refresh = 1000 / hz;
    for (const { running, ms } of drawn.filter((each) => each.running > 0)) {
      const due = (running * 1000 * den) / num - 1;
      expect(Math.round((ms - start) / refresh), `frame ${running}`).toBe(
        Math.ceil(due / refresh - 1e-9),
      );
    }
    expect(drawn.map(({ running }) => running).filter((each) => each > 0)).toEqual(
      range(1, frames),
    );
  });

  it.each([
    ['60', 60],
    ['30', 60],
    ['25', 50],
    ['24', 24],
  ])('%s f/s on %i Hz holds though the screen wavers', async (speed, hz) => {
    const waver = (refresh: number) => ((refresh * 7919) % 17) / 17 - 0.5;
    const { counts } = await runThrough(hz, speed, 300, (house) => {
      house.waver = waver;
    });
    expect(counts).toMatchObject({ shown: 300, dropped: 0, doubled: 0 });
  });

  it('a screen slower than the film drops, and says so', async () => {
    const { counts, house } = await runThrough(30, '60', 100);
    // Two frames a refresh: the odd ones are never drawn.
    expect(counts).toMatchObject({ shown: 50, dropped: 50, doubled: 0, halted: 0 });
    expect(house.drawn.every(({ running }) => running % 2 === 0)).toBe(true);
    expect(counts.misses[0]).toEqual({ what: 'dropped', at: 1, frames: 1, because: 'screen' });
  });

  it('changes speed from the frame in the gate on', async () => {
    const house = new PretendHouse(60);
    await house.load(roll(400));
    house.projector.run();
    await house.untilRunning();
    await house.refresh(60);
    expect(house.projector.at).toBe(18);
    house.projector.setSpeed(speedFrom('24'));
    await house.untilRunning();
    await house.refresh(60);
    expect(house.projector.at).toBe(18 + 24);
  });
});

describe('late film', () => {
  /** The run of eight from frame 40 on takes so long. */
  const slow = (ms: number) => (house: PretendHouse) => {
    house.server.delay = (_roll, first) => (first === 40 ? ms : 0);
  };

  it('that comes within the run-up is not seen', async () => {
    const { counts } = await runThrough(60, '18', 180, slow(850));
    expect(counts).toMatchObject({ shown: 180, dropped: 0, doubled: 0 });
  });

  it('is held and counted, with the place', async () => {
    // Asked for when frame 24 is in the gate, 889 ms before frame 40 is due;
    // 120 ms late are the time of 40 and 41, and a little of 42.
    const { counts, house } = await runThrough(60, '18', 180, slow(889 + 120));
    expect(counts).toEqual({
      shown: 178,
      dropped: 2,
      doubled: 1,
      halted: 0,
      misses: [
        { what: 'doubled', at: 39, frames: 3, because: 'late' },
        { what: 'dropped', at: 40, frames: 2, because: 'late' },
      ],
    });
    const seen = house.drawn.map(({ running }) => running);
    expect(seen.slice(seen.indexOf(39), seen.indexOf(39) + 2)).toEqual([39, 42]);
  });

  it('by less than a frame is held but not dropped', async () => {
    const { counts } = await runThrough(60, '18', 180, slow(889 + 25));
    expect(counts).toMatchObject({ shown: 180, dropped: 0, doubled: 1 });
  });

  it('by more than a second halts the machine until it is threaded anew', async () => {
    // The server is silent until 4.5 s, by which time frame 58 has long been due.
    const { counts, house } = await runThrough(60, '18', 180, ({ server, clock }) => {
      server.delay = (_roll, first) => (first >= 40 ? Math.max(0, 4500 - clock.ms) : 0);
    });
    // 18 frames are a second; on the 19th the machine halts.
    expect(counts).toMatchObject({ shown: 162, dropped: 18, doubled: 1, halted: 1 });
    expect(counts.misses.find(({ what }) => what === 'halted')).toEqual({
      what: 'halted',
      at: 58,
      frames: 0,
      because: 'late',
    });
    expect(counts.shown + counts.dropped).toBe(180);
    expect(house.ended).toBe(1);
  });

  it('that never came in its time is given up for what follows', async () => {
    const { counts, house } = await runThrough(60, '18', 180, slow(4000));
    expect(counts).toMatchObject({ shown: 172, dropped: 8, doubled: 1, halted: 0 });
    expect(house.server.asked.find(({ first }) => first === 40)?.signal.aborted).toBe(true);
  });

  it('never shows another picture for the one that is not there', async () => {
    const house = new PretendHouse(60);
    house.server.delay = (_roll, first) => (first % 32 === 8 ? 1200 : 3);
    await house.load(roll(300));
    house.projector.run();
    await house.untilRunning();
    await house.untilStopped();
    expect(house.projector.counts.dropped).toBeGreaterThan(0);
    expect(house.drawn.every(({ running, what }) => what === `R1·${running}`)).toBe(true);
    const { shown, dropped } = house.projector.counts;
    expect(shown + dropped).toBe(300);
  });

  it('threads until the run-up is there, and says so', async () => {
    const house = new PretendHouse(60);
    house.server.delay = () => 400;
    house.projector.load(roll(100));
    house.projector.run();
    await house.refresh(20);
    expect(house.projector.machine).toBe('threading');
    expect(house.drawn).toEqual([]);
    expect(house.projector.onScreen).toBeNull();
    await house.refresh(10);
    expect(house.projector.machine).toBe('running');
  });

  it('shows the first picture, but does not start on the first run of eight alone', async () => {
    const house = new PretendHouse(60);
    house.server.delay = (_roll, first) => (first < 8 ? 0 : 500);
    house.projector.load(roll(100));
    house.projector.run();
    await house.refresh(20);
    expect([house.projector.machine, house.projector.onScreen]).toEqual(['threading', 0]);
    await house.refresh(15);
    expect(house.projector.machine).toBe('running');
  });
});

describe('a screen that stood', () => {
  it('for a moment drops what had its time', async () => {
    const house = new PretendHouse(60);
    await house.load(roll(180));
    house.projector.run();
    await house.untilRunning();
    await house.refresh(60);
    expect(house.projector.at).toBe(18);
    house.skip(12);
    await house.untilStopped();
    // 13 refreshes on, at 1,217 ms, frame 21 has its time: 19 and 20 are gone.
    expect(house.projector.counts).toEqual({
      shown: 178,
      dropped: 2,
      doubled: 0,
      halted: 0,
      misses: [{ what: 'dropped', at: 19, frames: 2, because: 'screen' }],
    });
  });

  it('for long halts the film, which goes on where it was', async () => {
    const house = new PretendHouse(60);
    await house.load(roll(180));
    house.projector.run();
    await house.untilRunning();
    await house.refresh(60);
    house.skip(600);
    await house.refresh(2);
    await house.untilStopped();
    expect(house.projector.counts).toMatchObject({ shown: 180, dropped: 0, halted: 1 });
    expect(house.projector.counts.misses[0]).toMatchObject({ at: 19, because: 'screen' });
  });
});
