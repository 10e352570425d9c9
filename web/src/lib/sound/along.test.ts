// @vitest-environment node
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { isFar, slopeToward } from './along_player';

interface Worklet {
  port: { onmessage: (event: { data: unknown }) => void; postMessage: (data: unknown) => void };
  place: number;
  rate: number;
  process(inputs: [], outputs: Float32Array[][]): boolean;
}

/** The worklet as the browser would load it, and what is heard of it. */
function worklet() {
  const text = readFileSync(
    fileURLToPath(new URL('./follower.worklet.js', import.meta.url)),
    'utf8',
  );
  let Made: (new () => Worklet) | null = null;
  class Processor {
    port = { onmessage: () => {}, postMessage: () => {} };
  }
  // eslint-disable-next-line @typescript-eslint/no-implied-eval
  const load = new Function('AudioWorkletProcessor', 'registerProcessor', 'sampleRate', text) as (
    processor: unknown,
    register: (name: string, made: new () => Worklet) => void,
    rate: number,
  ) => void;
  load(Processor, (_name, made) => (Made = made), 48_000);
  const made = new (Made as unknown as new () => Worklet)();
  const tell = (data: unknown) => made.port.onmessage({ data });
  const hear = (seconds: number) => {
    const heard: number[] = [];
    for (let block = 0; block < (seconds * 48_000) / 128; block += 1) {
      const output = [new Float32Array(128), new Float32Array(128)];
      made.process([], [output]);
      heard.push(...(output[0] ?? []));
    }
    return heard;
  };
  return { made, tell, hear };
}

/** A tone of 441 Hz, laid from the first sample on. */
function tone(seconds: number) {
  const samples = new Float32Array(seconds * 48_000);
  return samples.map((_, nth) => Math.sin((2 * Math.PI * 441 * nth) / 48_000));
}

it('plays a tone higher by its rate, and the cubic leaves nothing of the samples to hear', () => {
  const { tell, hear } = worklet();
  const laid = tone(4);
  tell({ what: 'samples', at: 0, left: laid, right: laid });
  tell({ what: 'jump', place: 100, rate: 1.02 });
  const heard = hear(2).slice(4800);
  const place = (nth: number) => 100 + 1.02 * nth;
  // Where it must be: the jump was in silence at the very first sample.
  const worst = heard.reduce((most, value, nth) => {
    const wanted = Math.sin((2 * Math.PI * 441 * place(nth + 4800)) / 48_000);
    return Math.max(most, Math.abs(value - wanted));
  }, 0);
  // 90 dB under full.
  expect(worst).toBeLessThan(3e-5);
});

it('changes its rate by no more than a thousandth a second, and without a step', () => {
  const { made, tell, hear } = worklet();
  const laid = tone(8);
  tell({ what: 'samples', at: 0, left: laid, right: laid });
  tell({ what: 'jump', place: 0, rate: 1 });
  hear(0.1);
  tell({ what: 'slope', slope: 0.1 });
  const before = made.rate;
  const heard = hear(2);
  expect(made.rate - before).toBeCloseTo(0.002, 4);
  // From sample to sample a tone of 441 Hz goes on by 0.058 at most.
  const step = heard
    .slice(1)
    .reduce((most, value, nth) => Math.max(most, Math.abs(value - (heard[nth] ?? 0))), 0);
  expect(step).toBeLessThan(0.0579);
});

it('goes to another place only in silence', () => {
  const { made, tell, hear } = worklet();
  const laid = tone(4);
  tell({ what: 'samples', at: 0, left: laid, right: laid });
  tell({ what: 'jump', place: 0, rate: 1 });
  hear(0.2);
  tell({ what: 'jump', place: 96_000.5, rate: 0.98 });
  const heard = hear(0.2);
  expect(made.place).toBeGreaterThan(96_000);
  const step = heard
    .slice(1)
    .reduce((most, value, nth) => Math.max(most, Math.abs(value - (heard[nth] ?? 0))), 0);
  expect(step).toBeLessThan(0.06);
});

it('is silent where nothing was laid, and after a stop', () => {
  const { tell, hear } = worklet();
  tell({ what: 'jump', place: 0, rate: 1 });
  expect(hear(0.2).every((value) => value === 0)).toBe(true);
  const laid = tone(1);
  tell({ what: 'samples', at: 9600, left: laid, right: laid });
  hear(0.1);
  tell({ what: 'stop' });
  expect(
    hear(0.2)
      .slice(-1000)
      .every((value) => value === 0),
  ).toBe(true);
});

it('follows a projector that warms up for ten minutes within a frame', () => {
  // The projector of docs/FOLLOWING.md, known as well as by ear: 0.1 frame.
  const made = 18;
  let there = { frame: 0, speed: 18.4 };
  let frame = 0.8;
  let rate = (18.4 * 0.98) / 18;
  let worst = 0;
  let steepest = 0;
  for (let tick = 0; tick < 10 * 60 * 20; tick += 1) {
    const at = tick / 20;
    const even = 18.4 * (1 - 0.02 * Math.exp(-at / 90));
    const speed = even * (1 + 0.004 * Math.sin(at * 4));
    const told = { speed: even, frame: there.frame + 0.1 * Math.sin(at * 7) };
    expect(isFar(told, frame)).toBe(false);
    const slope = slopeToward(told, frame, rate, made);
    steepest = Math.max(steepest, Math.abs(slope));
    rate += slope / 20;
    frame += rate * made * 0.05;
    there = { frame: there.frame + speed / 20, speed: even };
    worst = Math.max(worst, Math.abs(frame - there.frame));
  }
  expect(steepest).toBeLessThanOrEqual(0.001 + 1e-12);
  expect(worst).toBeLessThan(1);
  expect(Math.abs(frame - there.frame)).toBeLessThan(0.2);
});
