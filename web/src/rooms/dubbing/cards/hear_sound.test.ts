import { describe, expect, it } from 'vitest';
import type { Heard, SoundMachine } from '$lib/sound/sound_player';
import { HearSound } from './hear_sound.svelte';

const RATE = 48_000;

function machine() {
  const laid: { at: number; samples: number; back: boolean }[] = [];
  const clock = { now: 7 };
  const made: SoundMachine = {
    now: () => clock.now,
    heardNow: () => clock.now,
    lay(heard: Heard, at: number) {
      const one = { at, samples: heard.samples.length / 2, back: false };
      laid.push(one);
      return { takeBack: () => (one.back = true) };
    },
  };
  return { made, laid, clock };
}

const silence = (_first: number, count: number) =>
  Promise.resolve<Heard>({ channels: 2, samples: new Float32Array(2 * count) });

describe('a sound heard by itself', () => {
  it('is laid without a gap, and ends', async () => {
    const { made, laid, clock } = machine();
    const pass = (seconds: number) => {
      clock.now += Math.max(seconds, 0);
      return Promise.resolve();
    };
    const ear = new HearSound(made, () => undefined, pass);
    await ear.start(25 * RATE, silence);
    expect(laid.map((one) => one.samples / RATE)).toEqual([1, 10, 10, 4]);
    for (const [nth, one] of laid.slice(1).entries()) {
      const before = laid[nth];
      expect(one.at).toBeCloseTo((before?.at ?? 0) + (before?.samples ?? 0) / RATE, 9);
    }
    // Never before it is asked to begin, and each piece before its time.
    expect(laid[0]?.at).toBeGreaterThan(7);
    expect(clock.now).toBeGreaterThanOrEqual(7 + 25);
    expect(ear.plays).toBe(false);
  });

  it('is taken back when it is stopped, and asks no more', async () => {
    const { made, laid } = machine();
    let go = () => {};
    const ear = new HearSound(
      made,
      () => undefined,
      () => new Promise<void>((done) => (go = done)),
    );
    const played = ear.start(60 * RATE, silence);
    await Promise.resolve();
    await Promise.resolve();
    expect(ear.plays).toBe(true);
    ear.stop();
    go();
    await played;
    expect(ear.plays).toBe(false);
    expect(laid.length).toBe(1);
    expect(laid[0]?.back).toBe(true);
  });

  it('tells what went wrong', async () => {
    const { made } = machine();
    const told: unknown[] = [];
    const ear = new HearSound(made, (why) => told.push(why));
    await ear.start(RATE, () => Promise.reject(new Error('gone')));
    expect(told).toHaveLength(1);
    expect(ear.plays).toBe(false);
  });
});
