// Measures how late this machine is: plays clicks and finds them in what the microphone hears.
import { click, findClick, type Latency, latencyOf } from './loop_back';

/** A microphone beside a loudspeaker, on one clock. */
export interface LoopBack {
  readonly rate: number;
  readonly channels: 1 | 2;
  listen(heard: (at: number, samples: Float32Array) => void): Promise<void>;
  stop(): Promise<void>;
  /** Plays at once; gives the sample of the clock at which it begins. */
  play(samples: Float32Array): number;
}

/** Clicks, and how long each is waited for. Unit: ms. */
const CLICKS = 7;
const WAIT = 500;

/** Plays the clicks one after the other; the microphone is closed afterwards. */
export async function measureLatency(
  device: LoopBack,
  wait: (ms: number) => Promise<void> = (ms) => new Promise((done) => setTimeout(done, ms)),
): Promise<Latency> {
  const sought = click(device.rate);
  const stretches: { at: number; samples: Float32Array }[] = [];
  const played: number[] = [];
  try {
    await device.listen((at, samples) => stretches.push({ at, samples }));
    await wait(WAIT);
    for (let nth = 0; nth < CLICKS; nth += 1) {
      played.push(device.play(sought));
      await wait(WAIT);
    }
  } finally {
    await device.stop();
  }
  const long = Math.round((WAIT / 1000) * device.rate);
  const found = played.map((at) => {
    const heard = stretch(stretches, at, long, device.channels);
    return findClick(heard, sought);
  });
  return latencyOf(found, device.rate);
}

/** What the first channel heard from a sample of the clock on. */
function stretch(
  all: readonly { at: number; samples: Float32Array }[],
  from: number,
  long: number,
  channels: number,
): Float32Array {
  const into = new Float32Array(long);
  for (const { at, samples } of all) {
    for (let nth = 0; nth * channels < samples.length; nth += 1) {
      const place = at + nth - from;
      if (place >= 0 && place < long) into[place] = samples[nth * channels] ?? 0;
    }
  }
  return into;
}
