// @vitest-environment node
import { describe, expect, it } from 'vitest';
import { Refused } from '$lib/api/server';
import { boatDub } from '../boat_dub';
import { FollowRun } from './follow_run.svelte';
import { cutsOf, framesAsked, lights, nextByColumn, nextMoves, untilSaid } from './next_cues';
import type { RunDesk } from './run_desk';
import type { Followed, RunAsked, RunSeen } from './run_types';

const nothing: Followed = {
  run: 'run-1',
  live: null,
  lost: { words: 'not known yet where the film is', next: 'tap' },
  hears: false,
  next_cut: 0,
  taken: [],
  comes: [],
  line: null,
};

/** A program that believes every tap, and a clock that the test turns. */
class PretendDesk implements RunDesk {
  readonly all: RunSeen[] = [];
  answer: Partial<Followed> = {};
  refuse = false;
  begun: Partial<RunAsked>[] = [];
  begin = (_cut: string, asked: Partial<RunAsked>) => {
    this.begun.push(asked);
    return Promise.resolve(nothing);
  };
  hear = () => Promise.resolve({ ...nothing, hears: true });
  seen = (_run: string, seen: RunSeen): Promise<Followed> => {
    this.all.push(seen);
    if (this.refuse) {
      const problem = { code: 'production.unfit', message: 'no', hint: 'choose', details: null };
      return Promise.reject(new Refused(problem, 422));
    }
    return Promise.resolve({ ...nothing, ...this.answer });
  };
}

async function begun() {
  const desk = new PretendDesk();
  const dub = boatDub();
  const clock = { now: 100 };
  const run = new FollowRun(
    desk,
    () => dub,
    () => clock.now,
  );
  await run.begin();
  return { desk, dub, clock, run };
}
const live = (at: number, frame: number, speed = 18) => ({
  at,
  frame,
  frame_error: 1.5,
  speed,
  speed_error: 0.1,
  still_to_come: 0,
});

describe('a run beside a projector', () => {
  it('names the cut of the first tap, and leaves the next to the program', async () => {
    const { desk, clock, run } = await begun();
    expect([run.frame, run.nextCut]).toEqual([null, 0]);
    clock.now = 103.25;
    desk.answer = { live: live(103.25, 0), next_cut: 180, taken: [0] };
    await run.tap();
    expect(desk.all[0]?.events).toEqual([{ at: 103.25, seen: { what: 'tap', cut: 0 } }]);
    clock.now = 113;
    await run.tap();
    expect(desk.all[1]?.events).toEqual([{ at: 113, seen: { what: 'tap', cut: null } }]);
    expect(run.taps).toBe(2);
  });

  it('begins with the speed of the last pass that found one', async () => {
    const { desk, dub, run } = await begun();
    expect(desk.begun).toEqual([{ late_ms: 0 }]);
    const pass = run.pass('kept');
    const of = (id: number, speed: string) => ({ id, pass: { ...pass, speed } });
    dub.passes.push(of(1, '18.31'), of(2, '18.37'), of(3, ''));
    await run.begin();
    expect(desk.begun[1]).toEqual({ speed: 18.37, speed_error: 0.4, late_ms: 0 });
  });

  it('takes a late hand into account at once before anything was seen, else in the next pass', async () => {
    const { desk, run } = await begun();
    await run.setLate(40);
    expect(desk.begun[1]).toEqual({ late_ms: 40 });
    await run.motorOn();
    await run.setLate(60);
    expect(desk.begun).toHaveLength(2);
    await run.begin();
    expect(desk.begun[2]).toEqual({ late_ms: 60 });
  });

  it('takes the time of a tap at once, however long the program thinks', async () => {
    const { desk, dub, clock, run } = await begun();
    clock.now = 110;
    const first = run.motorOn();
    clock.now = 112;
    const second = run.tap();
    clock.now = 115;
    await Promise.all([first, second]);
    expect(desk.all.map(({ events }) => events?.[0]?.at)).toEqual([110, 112]);
    expect(desk.all[0]?.events?.[0]?.seen).toEqual({
      what: 'started',
      frame: -dub.mix.leader,
    });
  });

  it('carries the frame on between answers, and its doubt grows', async () => {
    const { desk, clock, run } = await begun();
    desk.answer = { live: live(100, 500, 18.4) };
    await run.tap();
    clock.now = 100.25;
    run.tick();
    expect(run.frame).toBeCloseTo(504.6, 6);
    expect(run.error).toBeCloseTo(1.525, 6);
  });

  it('counts no tap that was refused, and says why until the next', async () => {
    const { desk, run } = await begun();
    desk.refuse = true;
    await run.tap();
    expect([run.taps, run.refused?.message]).toEqual([0, 'no']);
    desk.refuse = false;
    await run.tap();
    expect([run.taps, run.refused]).toEqual([1, null]);
  });

  it('lets the hand choose another cut, once', async () => {
    const { desk, run } = await begun();
    run.chooseCut(1);
    expect(run.nextCut).toBe(180);
    await run.tap();
    expect(desk.all[0]?.events?.[0]?.seen).toEqual({ what: 'tap', cut: 180 });
    expect(run.chosen).toBe(null);
  });

  it('asks twice a second by itself, and not while an answer is awaited', async () => {
    const { desk, clock, run } = await begun();
    for (let tick = 0; tick < 30; tick += 1) {
      clock.now += 0.1;
      run.tick();
      await Promise.resolve();
      await new Promise((done) => setTimeout(done, 0));
    }
    expect(desk.all.length).toBeGreaterThanOrEqual(5);
    expect(desk.all.length).toBeLessThanOrEqual(7);
    for (const { events } of desk.all) expect(events).toEqual([]);
  });

  it('writes a pass: rehearsal or take, where it began, its speed and its faults', async () => {
    const { desk, run } = await begun();
    desk.answer = { live: live(100, 731.6), line: { speed: 18.3666, speed_error: 0.06 } };
    await run.motorOn();
    run.faultHere();
    expect(run.pass('open')).toMatchObject({
      pass: '1 rehearsal',
      cut: 'v2',
      speed: '18.37',
      faults: [{ at: 731, what: '' }],
      keep: 'open',
    });
    run.kind = 'take';
    expect(run.pass('kept')).toMatchObject({ pass: '1', keep: 'kept' });
  });
});

describe('what comes next', () => {
  const dub = boatDub();

  it('knows the cuts, and asks for cues and moves ahead only', () => {
    expect(cutsOf(dub)).toEqual([0, 180, 1626]);
    const asked = framesAsked(dub, 1000);
    expect(asked.length).toBeGreaterThan(0);
    expect(asked.every((at) => at > 999)).toBe(true);
    expect(asked).toEqual([...asked].sort((one, other) => one - other));
  });

  it('counts down to the next cue of each column by what the program foretold', () => {
    const [first] = nextByColumn(dub, 0, null, 0);
    if (!first) throw new Error('no cue');
    expect([first.seconds, untilSaid(first.seconds)]).toEqual([null, '–']);
    const comes = [{ frame: first.at, at: 42, error_frames: 1.8 }];
    const known = { ...nothing, live: live(40, first.at - 36), comes };
    const [soon] = nextByColumn(dub, first.at - 36, known, 40.5);
    expect([soon?.seconds, soon?.error, untilSaid(soon?.seconds ?? null)]).toEqual([
      1.5,
      1.8,
      '1.5 s',
    ]);
    const columns = nextByColumn(dub, 0, known, 40).map(({ of }) => of);
    expect(new Set(columns).size).toBe(columns.length);
  });

  it('shows a cue that the program was not asked for by the speed of now', () => {
    const [cue] = nextByColumn(dub, 0, { ...nothing, live: live(10, 0, 20) }, 10);
    expect(cue?.seconds).toBeCloseTo((cue?.at ?? 0) / 20, 6);
    expect(cue?.error).toBe(null);
  });

  it('lists the moves of the hands in the order in which they come', () => {
    const moves = nextMoves(dub, 0, null, 0, 3);
    expect(moves.length).toBeLessThanOrEqual(3);
    const at = moves.map((move) => move.at);
    expect(at).toEqual([...at].sort((one, other) => one - other));
  });

  it('lights three, two, one', () => {
    expect(lights(null)).toEqual([false, false, false]);
    expect(lights(3.2)).toEqual([false, false, false]);
    expect(lights(2.9)).toEqual([true, false, false]);
    expect(lights(1.5)).toEqual([true, true, false]);
    expect(lights(0.4)).toEqual([true, true, true]);
    expect([untilSaid(0.1), untilSaid(-2)]).toEqual(['now', 'gone']);
  });
});
