// The browser's microphone, as it hears: nothing is cancelled, lifted or cleaned.
import catcher from './catcher.worklet.js?url';
import type { LoopBack } from './measure_latency';
import type { Microphone } from './recorder.svelte';

const RATE = 48_000;

/** Opens the microphone; the browser asks the user once. */
export async function openMicrophone(channels: 1 | 2 = 1): Promise<Microphone & LoopBack> {
  if (!('mediaDevices' in navigator)) {
    throw new DOMException('no microphone from an address that is not safe', 'SecurityError');
  }
  const stream = await navigator.mediaDevices.getUserMedia({
    audio: {
      channelCount: channels,
      sampleRate: RATE,
      echoCancellation: false,
      noiseSuppression: false,
      autoGainControl: false,
    },
  });
  const context = new AudioContext({ sampleRate: RATE, latencyHint: 'interactive' });
  await context.audioWorklet.addModule(catcher);
  if (context.state === 'suspended') await context.resume();
  return new BrowserMicrophone(stream, context, channels);
}

class BrowserMicrophone implements Microphone, LoopBack {
  readonly rate: number;
  private node: AudioWorkletNode | null = null;
  private over: (() => void) | null = null;

  constructor(
    private readonly stream: MediaStream,
    readonly context: AudioContext,
    readonly channels: 1 | 2,
  ) {
    this.rate = context.sampleRate;
  }

  listen(heard: (at: number, samples: Float32Array) => void): Promise<void> {
    const { context, channels } = this;
    const node = new AudioWorkletNode(context, 'catcher', {
      numberOfInputs: 1,
      numberOfOutputs: 0,
      channelCount: channels,
      channelCountMode: 'explicit',
      processorOptions: { channels },
    });
    node.port.onmessage = ({
      data,
    }: MessageEvent<{ at: number; samples: Float32Array } | null>) => {
      if (data) heard(data.at, data.samples);
      else this.over?.();
    };
    context.createMediaStreamSource(this.stream).connect(node);
    this.node = node;
    return Promise.resolve();
  }

  now(): number {
    return Math.round(this.context.currentTime * this.rate);
  }

  /** Plays samples at once; gives the sample of the clock at which they begin. */
  play(samples: Float32Array): number {
    const { context } = this;
    const buffer = context.createBuffer(1, samples.length, this.rate);
    buffer.getChannelData(0).set(samples);
    const source = context.createBufferSource();
    source.buffer = buffer;
    source.connect(context.destination);
    const at = Math.ceil((context.currentTime + 0.05) * this.rate);
    source.start(at / this.rate);
    return at;
  }

  onGone(act: () => void): void {
    for (const track of this.stream.getAudioTracks()) track.addEventListener('ended', act);
  }

  async stop(): Promise<void> {
    if (this.node) {
      const over = new Promise<void>((done) => (this.over = done));
      this.node.port.postMessage('stop');
      // A sound card that is gone answers no more.
      await Promise.race([over, new Promise<void>((done) => setTimeout(done, 500))]);
    }
    this.node = null;
    for (const track of this.stream.getTracks()) track.stop();
    if (this.context.state !== 'closed') await this.context.close();
  }
}
