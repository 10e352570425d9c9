// @vitest-environment node
import { expect, it } from 'vitest';
import { click, findClick, latencyOf, latencyWords } from './loop_back';
import { measureLatency } from './measure_latency';
import { type Microphone, Recorder, refusalWords } from './recorder.svelte';
import { Tape } from './tape';

const RATE = 48_000;
const settle = () => new Promise((done) => setTimeout(done, 0));

/** Sample n of channel 0 is n, so that a lost or doubled one is seen. */
function ramp(from: number, count: number): Float32Array {
  return Float32Array.from({ length: count }, (_, nth) => from + nth);
}

/** A disk that the test can fill, and that can lose its answers. */
class PretendDisk {
  kept: number[] = [];
  asked: [number, number][] = [];
  refuse = 0;
  loseAnswer = false;
  full = Infinity;
  keep = (at: number, samples: Float32Array): Promise<number> => {
    this.asked.push([at, samples.length]);
    if (this.refuse > 0) {
      this.refuse -= 1;
      return Promise.reject(new Error('not reached'));
    }
    const room = Math.max(0, this.full - at);
    const taken = Array.from(samples.subarray(0, room));
    this.kept = [...this.kept.slice(0, at), ...taken];
    if (room < samples.length) return Promise.reject(new Error('no space left'));
    if (this.loseAnswer) {
      this.loseAnswer = false;
      return Promise.reject(new Error('no answer'));
    }
    return Promise.resolve(this.kept.length);
  };
}

function tapeOn(disk: PretendDisk, more = {}) {
  return new Tape(disk.keep, { rate: RATE, channels: 1, later: (_ms, act) => act(), ...more });
}

it('keeps all that was heard, in order, in chunks of at most a second', async () => {
  const disk = new PretendDisk();
  const tape = tapeOn(disk);
  for (let from = 0; from < 130_000; from += 4736) {
    tape.heard(ramp(from, Math.min(4736, 130_000 - from)));
    await settle();
  }
  await tape.end();
  expect(tape.kept).toBe(130_000);
  expect(disk.kept).toEqual(Array.from(ramp(0, 130_000)));
  expect(disk.asked).toEqual([
    [0, 48_000],
    [48_000, 48_000],
    [96_000, 34_000],
  ]);
});

it('sends again what was refused or not answered, and nothing stands twice', async () => {
  const disk = new PretendDisk();
  disk.refuse = 2;
  const tape = tapeOn(disk);
  tape.heard(ramp(0, 60_000));
  await settle();
  disk.loseAnswer = true;
  tape.heard(ramp(60_000, 60_000));
  await tape.end();
  expect(disk.kept).toEqual(Array.from(ramp(0, 120_000)));
  expect([tape.kept, tape.unkept, tape.failed]).toEqual([120_000, 0, null]);
});

it('stops where the disk takes no more, and says what is kept', async () => {
  const disk = new PretendDisk();
  disk.full = 100_000;
  const tape = tapeOn(disk, { mayHelp: () => false });
  tape.heard(ramp(0, 48_000 * 4));
  await tape.end();
  expect(tape.kept).toBe(96_000);
  expect(tape.failed).toBeInstanceOf(Error);
  // A full disk is not asked again and again.
  expect(disk.asked.length).toBe(3);
});

/** Noise that is the same each time (a linear congruential generator). */
function noise(length: number, level: number): Float32Array {
  let state = 1;
  return Float32Array.from({ length }, () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return level * (state / 2_147_483_648 - 1);
  });
}

function planted(at: number, loud: number, noisy: number): Float32Array {
  const room = noise(RATE / 2, noisy);
  click(RATE).forEach((sample, nth) => (room[at + nth] = (room[at + nth] ?? 0) + loud * sample));
  return room;
}

it('finds the click where it was planted, to the sample, soft and in noise', () => {
  for (const at of [0, 137, 2500, 20_000]) {
    expect(findClick(planted(at, 0.5, 0.001), click(RATE))).toBe(at);
    // Turned about by a loudspeaker wired the other way round.
    expect(findClick(planted(at, -0.05, 0.0001), click(RATE))).toBe(at);
  }
  // About 10 dB of signal over the noise: within 5 ms, and truly within 2 samples.
  const found = findClick(planted(4321, 0.5, 0.03), click(RATE)) ?? -9;
  expect(Math.abs(found - 4321)).toBeLessThan(2);
  // Nothing but noise, or silence, is no click.
  expect(findClick(noise(RATE / 2, 0.3), click(RATE))).toBeNull();
  expect(findClick(new Float32Array(RATE / 2), click(RATE))).toBeNull();
});

it('takes the middle of several clicks, and says when it cannot be measured', () => {
  const steady = latencyOf([960, 962, 961, null, 5000], RATE);
  expect(steady).toMatchObject({ kind: 'found', samples: 962, of: 4 });
  expect(latencyOf([960, null, null, null, null], RATE)).toMatchObject({
    kind: 'not_heard',
    heard: 1,
  });
  expect(latencyOf([100, 2000, 5000, 9000, 15_000], RATE).kind).toBe('unsteady');
  expect(latencyWords(steady, RATE)).toContain('20.0 ms late');
  expect(latencyWords({ kind: 'not_heard', heard: 1, of: 5 }, RATE)).toContain('measure again');
});

it('measures a machine whose microphone hears its loudspeaker so much later', async () => {
  const late = 1777;
  let clock = 0;
  let hear: (at: number, samples: Float32Array) => void = () => {};
  const air = new Float32Array(RATE * 10);
  const device = {
    rate: RATE,
    channels: 1 as const,
    listen: (heard: typeof hear) => {
      hear = heard;
      return Promise.resolve();
    },
    stop: () => Promise.resolve(),
    play: (samples: Float32Array) => {
      const at = clock + 2400;
      samples.forEach((sample, nth) => (air[at + late + nth] = 0.1 * sample));
      return at;
    },
  };
  const wait = (ms: number) => {
    // Enough beyond the wait that what was played is heard within it.
    const count = Math.round((ms / 1000) * RATE);
    hear(clock, air.slice(clock, clock + count));
    clock += count;
    return Promise.resolve();
  };
  expect(await measureLatency(device, wait)).toMatchObject({
    kind: 'found',
    samples: late,
    spread: 0,
  });
});

/** A microphone whose sound the test makes. */
class PretendMicrophone implements Microphone {
  readonly rate = RATE;
  readonly channels = 1 as const;
  clock = 5000;
  gone: () => void = () => {};
  stopped = false;
  private heard: (at: number, samples: Float32Array) => void = () => {};
  listen(heard: (at: number, samples: Float32Array) => void) {
    this.heard = heard;
    return Promise.resolve();
  }
  hear(count: number) {
    this.heard(this.clock, ramp(this.clock - 5000, count));
    this.clock += count;
  }
  stop() {
    this.stopped = true;
    return Promise.resolve();
  }
  onGone(act: () => void) {
    this.gone = act;
  }
  readonly lateAsSaid = 480;
}

function recorder(disk = new PretendDisk(), latency = 0) {
  const microphone = new PretendMicrophone();
  const waits: (() => void)[] = [];
  const made = new Recorder({
    open: () => Promise.resolve(microphone),
    place: {
      begin: () => Promise.resolve('recording-1'),
      keep: (_recording, at, samples) => disk.keep(at, samples),
      mayHelp: () => false,
    },
    latency: () => latency,
    later: (_ms, act) => waits.push(act),
  });
  const second = async () => {
    microphone.hear(RATE);
    waits.shift()?.();
    await settle();
  };
  return { made, microphone, disk, second };
}

it('counts three, two, one while it records, then lets the picture run', async () => {
  const { made, disk, microphone, second } = recorder(undefined, 960);
  let ran = 0;
  void made.start(() => {
    ran += 1;
    return Promise.resolve(microphone.clock);
  });
  await settle();
  const left: unknown[] = [];
  for (let beat = 0; beat < 3; beat += 1) {
    left.push(made.state);
    expect(ran).toBe(0);
    await second();
  }
  expect(left).toEqual([3, 2, 1].map((one) => ({ is: 'counting', left: one })));
  expect([made.state.is, ran]).toEqual(['recording', 1]);
  await second();
  await second();
  expect(made.keptSeconds).toBe(5);
  microphone.hear(1000);
  await made.stop();
  // The first frame is heard behind the count-in and as late as the machine is.
  const pass = { recording: 'recording-1', samples: 241_000, rate: RATE, offset: 3 * RATE + 960 };
  expect(made.state).toEqual({ is: 'kept', pass });
  expect(made.passes).toEqual([pass]);
  expect(disk.kept).toEqual(Array.from(ramp(0, 241_000)));
  expect(microphone.stopped).toBe(true);
});

it('keeps what was recorded when the disk fills or the microphone is pulled out', async () => {
  const full = recorder();
  full.disk.full = 4.5 * RATE;
  void full.made.start(() => Promise.resolve(0));
  await settle();
  for (let beat = 0; beat < 6; beat += 1) await full.second();
  await settle();
  expect(full.made.state).toMatchObject({
    is: 'failed',
    said: 'What was recorded up to second 4.0 is kept.',
  });
  expect(full.made.passes[0]?.samples).toBe(4 * RATE);

  const pulled = recorder();
  void pulled.made.start(() => Promise.resolve(0));
  await settle();
  for (let beat = 0; beat < 4; beat += 1) await pulled.second();
  pulled.microphone.gone();
  await settle();
  expect(pulled.made.state).toMatchObject({ is: 'kept', pass: { samples: 4 * RATE } });
});

it('says why there is no microphone, and what to do', async () => {
  const made = new Recorder({
    open: () => Promise.reject(new DOMException('no', 'NotAllowedError')),
    place: {
      begin: () => Promise.reject(new Error()),
      keep: () => Promise.reject(new Error()),
      mayHelp: () => false,
    },
    latency: () => 0,
  });
  await made.start(() => Promise.resolve(0));
  expect(made.state).toMatchObject({
    is: 'refused',
    said: 'The browser does not let this page hear the microphone.',
  });
  const all = ['NotAllowedError', 'NotFoundError', 'NotReadableError', 'odd'];
  const words = all.map((name) => refusalWords(new DOMException('', name)));
  expect(new Set(words.map(({ said }) => said)).size).toBe(4);
  for (const { next } of words) expect(next).toContain('start again');
});
