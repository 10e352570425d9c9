// @vitest-environment node
import { expect, it } from 'vitest';
import { PictureClock } from './picture_clock';
import { RATE, sampleOf, samplesOf } from './sample_places';
import { type Heard, type Laid, PLAYER, type SoundMachine, SoundPlayer } from './sound_player';

const SPEED = { num: 18, den: 1 };

/** A machine whose clock the test turns, and what was laid on it. */
class PretendMachine implements SoundMachine {
  clock = 0;
  readonly laid: { at: number; samples: number; fade: number; value: number; back?: number }[] = [];
  now = () => this.clock;
  heardNow = () => this.clock;
  lay(heard: Heard, at: number, fade: number): Laid {
    const one: (typeof this.laid)[number] = {
      at,
      samples: heard.samples.length,
      fade,
      value: heard.samples[0] ?? 0,
    };
    this.laid.push(one);
    return { takeBack: (from) => (one.back = from) };
  }
}

function player() {
  const machine = new PretendMachine();
  const asked: [number, number][] = [];
  const level = { value: 1 };
  const made = new SoundPlayer(machine, (first, count) => {
    asked.push([first, count]);
    const samples = new Float32Array(samplesOf(first, count, SPEED)).fill(level.value);
    return Promise.resolve({ channels: 1 as const, samples });
  });
  return { machine, asked, made, level };
}
const settle = () => new Promise((done) => setTimeout(done, 0));

it('joins frames without a gap at any speed', () => {
  for (const speed of [SPEED, { num: 1837, den: 100 }, { num: 24_000, den: 1001 }]) {
    let sum = 0;
    for (let frame = 0; frame < 5000; frame += 7) sum += samplesOf(frame, 7, speed);
    expect(sum).toBe(sampleOf(5005, speed));
  }
  // 16, 18, 24 and 25 f/s: one minute of film is one minute of sound.
  for (const num of [16, 18, 24, 25]) expect(sampleOf(60 * num, { num, den: 1 })).toBe(60 * RATE);
});

it('lays each stretch behind the one before, and no more than is needed ahead', async () => {
  const { machine, made } = player();
  await made.thread(100, 2000, SPEED);
  made.begin(100);
  await settle();
  const start = machine.laid[0]?.at ?? 0;
  let end = start;
  for (const one of machine.laid) {
    expect(one.at).toBeCloseTo(end, 6);
    end = one.at + one.samples / RATE;
  }
  expect(end - machine.clock).toBeGreaterThan(PLAYER.ahead);
  expect(end - machine.clock).toBeLessThan(PLAYER.ahead + 2 * (PLAYER.each / 18));
  // A second later so much more is laid, in the same places.
  machine.clock = 1;
  made.tick();
  await settle();
  for (const one of machine.laid.slice(1)) expect(one.at).toBeGreaterThan(start);
  expect(Math.max(...machine.laid.map(({ at }) => at))).toBeGreaterThan(1 + PLAYER.ahead - 0.7);
});

it('lets a change be heard within 200 ms, and takes the old sound back there', async () => {
  const { machine, made, level } = player();
  await made.thread(0, 2000, SPEED);
  made.begin(0);
  await settle();
  machine.clock = 0.5;
  level.value = 0.25;
  await made.changed();
  const fresh = machine.laid.filter(({ value }) => value === 0.25);
  const first = Math.min(...fresh.map(({ at }) => at));
  expect(first).toBeGreaterThanOrEqual(machine.clock);
  expect(first - machine.clock).toBeLessThan(0.2);
  // Nothing of the old is heard behind that; what was over before is left alone.
  for (const one of machine.laid.filter(({ value }) => value === 1)) {
    const over = one.at + one.samples / RATE;
    if (over > first) expect(one.back).toBeCloseTo(first, 6);
  }
  expect(fresh[0]?.fade).toBe(PLAYER.crossed);
});

it('ends with the film, and lays nothing after a stop', async () => {
  const { machine, asked, made } = player();
  await made.thread(0, 20, SPEED);
  made.begin(0);
  await settle();
  expect(asked.map(([first, count]) => first + count).at(-1)).toBe(20);
  made.stop();
  const before = machine.laid.length;
  machine.clock = 5;
  made.tick();
  await settle();
  expect(machine.laid.length).toBe(before);
  expect([made.plays, made.elapsed]).toEqual([false, null]);
});

it('leaves out what comes too late, so that the rest is in its place', async () => {
  const { machine, made } = player();
  await made.thread(0, 2000, SPEED);
  made.begin(0);
  await settle();
  const start = machine.laid[0]?.at ?? 0;
  machine.clock = 30;
  made.tick();
  await settle();
  const later = machine.laid.filter(({ at }) => at > 20);
  expect(later.length).toBeGreaterThan(0);
  for (const { at } of later) {
    expect(at).toBeGreaterThanOrEqual(30);
    // On the grid of frames, counted from the start.
    const frames = ((at - start) * 18) % 1;
    expect(Math.min(frames, 1 - frames)).toBeLessThan(0.001);
  }
});

it('leads the pictures: they stand until the first sample and then follow the sound', () => {
  let elapsed: number | null = null;
  const clock = new PictureClock(() => elapsed);
  expect(clock.at(5000)).toBe(5000);
  clock.begin();
  elapsed = -0.04;
  expect(clock.at(5010)).toBe(5000);
  elapsed = 1.5;
  // However the screen's own clock wavers.
  expect([clock.at(6400), clock.at(6700)]).toEqual([6500, 6500]);
  clock.stop();
  expect(clock.at(7000)).toBe(7000);
});
