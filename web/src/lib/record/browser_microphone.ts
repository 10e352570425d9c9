// The browser's microphone, as it hears: nothing is cancelled, lifted or cleaned.
import catcher from './catcher.worklet.js?url';
import type { LoopBack } from './measure_latency';
import type { Microphone } from './recorder.svelte';

/** Contexts that know the catcher already. */
const known = new WeakSet<AudioContext>();

/**
 * Opens the microphone; the browser asks the user once. It is heard by the clock of a context
 * that plays the mix too, so that both are counted in the same samples.
 */
export async function openMicrophone(
  context: AudioContext,
  channels: 1 | 2 = 1,
): Promise<Microphone & LoopBack> {
  if (!('mediaDevices' in navigator)) {
    throw new DOMException('no microphone from an address that is not safe', 'SecurityError');
  }
  const stream = await navigator.mediaDevices.getUserMedia({
    audio: {
      channelCount: channels,
      sampleRate: context.sampleRate,
      echoCancellation: false,
      noiseSuppression: false,
      autoGainControl: false,
    },
  });
  if (!known.has(context)) {
    await context.audioWorklet.addModule(catcher);
    known.add(context);
  }
  if (context.state === 'suspended') await context.resume();
  return new BrowserMicrophone(stream, context, channels);
}

class BrowserMicrophone implements Microphone, LoopBack {
  readonly rate: number;
  private node: AudioWorkletNode | null = null;
  private source: MediaStreamAudioSourceNode | null = null;
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
    this.source = context.createMediaStreamSource(this.stream);
    this.source.connect(node);
    this.node = node;
    return Promise.resolve();
  }

  /** What the browser says of itself; how late it truly is only the clicks tell. Unit: samples. */
  get lateAsSaid(): number {
    const settings = this.stream.getAudioTracks()[0]?.getSettings() as { latency?: number };
    const seconds = (this.context.outputLatency || 0) + (settings.latency ?? 0);
    return Math.round(seconds * this.rate);
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
    this.source?.disconnect();
    this.node = null;
    this.source = null;
    for (const track of this.stream.getTracks()) track.stop();
  }
}
