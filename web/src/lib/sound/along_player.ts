// Plays the mix along with a projector that runs at its own speed: a little faster, a little
// slower, never with a step. How it is steered is docs/FOLLOWING.md, "Playing along".
import type { Speed } from '$lib/film/speed';
import follower from './follower.worklet.js?url';
import { RATE, sampleOf } from './sample_places';
import type { FetchHeard } from './sound_player';

/** Off by a frame, and the rate goes so strongly towards it. Unit: a second. */
const STIFF = 0.18;
/** Farther off than this it does not chase: it goes silent and begins there anew. Unit: frames. */
const FAR = 9;
/** The rate changes by no more than this in a second: 0.1 %, a third of a projector's own flutter. */
const SLOPE = 0.001;
/** So much is laid ahead. Unit: s. */
const AHEAD = 3;
/** Frames asked for at once. */
const EACH = 18;

/** Where the projector is at a moment. */
export interface There {
  /** Unit: frames. */
  readonly frame: number;
  /** Unit: frames a second. */
  readonly speed: number;
}

/**
 * How much faster the rate becomes in a second: towards where the projector is, like a
 * critically damped wheel, and never steeper than is inaudible. The same law as `follow::Rate`.
 */
export function slopeToward(there: There, frame: number, rate: number, made: number): number {
  const off = there.frame - frame;
  const slope = (STIFF * STIFF * off) / made + 2 * STIFF * (there.speed / made - rate);
  return Math.min(Math.max(slope, -SLOPE), SLOPE);
}

/** Whether it is too far off to be followed without a step. */
export const isFar = (there: There, frame: number) => Math.abs(there.frame - frame) > FAR;

export class AlongPlayer {
  private node: AudioWorkletNode | null = null;
  private gain: GainNode | null = null;
  /** The sample that is heard now, and how fast. */
  private at: { place: number; since: number; rate: number } | null = null;
  private laidTo = 0;
  private asking: AbortController | null = null;

  constructor(
    private readonly context: AudioContext,
    private readonly fetchHeard: FetchHeard,
    private readonly speed: Speed,
    private readonly frames: number,
    private readonly onTrouble: (why: unknown) => void,
  ) {}

  async open(level: number): Promise<void> {
    await this.context.audioWorklet.addModule(follower);
    if (this.context.state === 'suspended') await this.context.resume();
    const node = new AudioWorkletNode(this.context, 'follower', {
      numberOfInputs: 0,
      outputChannelCount: [2],
    });
    node.port.onmessage = ({
      data,
    }: MessageEvent<{ place: number; rate: number; plays: boolean }>) => {
      this.at = data.plays
        ? { place: data.place, since: this.context.currentTime, rate: data.rate }
        : null;
    };
    this.gain = this.context.createGain();
    this.gain.gain.value = level;
    node.connect(this.gain).connect(this.context.destination);
    this.node = node;
  }

  set level(level: number) {
    this.gain?.gain.setTargetAtTime(level, this.context.currentTime, 0.01);
  }

  private get made(): number {
    return this.speed.num / this.speed.den;
  }

  /** The frame that is heard now; null while it is silent. */
  get frame(): number | null {
    const { at, context } = this;
    if (!at) return null;
    // What leaves the loudspeaker was worked out so much earlier.
    const late = context.outputLatency || context.baseLatency || 0;
    const on = (context.currentTime - at.since - late) * at.rate * RATE;
    return ((at.place + on) / RATE) * this.made;
  }

  /** Goes on: the projector is there now, or nobody knows where. */
  follow(there: There | null): void {
    if (!this.node) return;
    if (!there || there.frame < 0 || there.frame >= this.frames) {
      this.node.port.postMessage({ what: 'stop' });
      this.at = null;
      return;
    }
    const { frame } = this;
    if (frame === null || isFar(there, frame)) {
      this.begin(there);
      return;
    }
    const slope = slopeToward(there, frame, this.at?.rate ?? 1, this.made);
    this.node.port.postMessage({ what: 'slope', slope });
    void this.fill(frame);
  }

  private begin(there: There): void {
    if (this.asking) return;
    const first = Math.max(0, Math.floor(there.frame) - 2);
    this.laidTo = first;
    void this.fill(there.frame).then(() => {
      const late = this.context.outputLatency || this.context.baseLatency || 0;
      const place = ((there.frame + late * there.speed) / this.made) * RATE;
      this.node?.port.postMessage({ what: 'jump', place, rate: there.speed / this.made });
    });
  }

  private async fill(frame: number): Promise<void> {
    if (this.asking) return;
    const asking = new AbortController();
    this.asking = asking;
    try {
      while (this.laidTo < Math.min(frame + AHEAD * this.made, this.frames)) {
        const count = Math.min(EACH, this.frames - this.laidTo);
        const { channels, samples } = await this.fetchHeard(this.laidTo, count, asking.signal);
        const length = samples.length / channels;
        const left = new Float32Array(length);
        const right = new Float32Array(length);
        for (let nth = 0; nth < length; nth += 1) {
          left[nth] = samples[nth * channels] ?? 0;
          right[nth] = samples[nth * channels + channels - 1] ?? 0;
        }
        const at = sampleOf(this.laidTo, this.speed);
        this.node?.port.postMessage({ what: 'samples', at, left, right });
        this.laidTo += count;
      }
    } catch (why) {
      if (!asking.signal.aborted) this.onTrouble(why);
    }
    this.asking = null;
  }

  close(): void {
    this.asking?.abort();
    this.node?.port.postMessage({ what: 'stop' });
    this.node?.disconnect();
    this.gain?.disconnect();
    this.node = null;
  }
}
