// The browser's own machine for sound. Its clock says what is heard, not what is laid.
import { RATE } from './sample_places';
import type { Heard, Laid, SoundMachine } from './sound_player';

export class AudioMachine implements SoundMachine {
  /** The browser's own; what is recorded to the mix is counted by the same clock. */
  readonly context: AudioContext;
  private readonly volume: GainNode;
  readonly meter: AnalyserNode;

  /** Must be made while a key or button is pressed: a browser plays nothing unasked. */
  constructor() {
    this.context = new AudioContext({ sampleRate: RATE, latencyHint: 'interactive' });
    this.volume = this.context.createGain();
    this.meter = this.context.createAnalyser();
    this.meter.fftSize = 2048;
    this.volume.connect(this.meter);
    this.meter.connect(this.context.destination);
  }

  /** How loud the whole is heard here; the mix is not changed by it. 0 to 1. */
  set level(level: number) {
    this.volume.gain.setTargetAtTime(level, this.context.currentTime, 0.01);
  }

  async wake(): Promise<void> {
    if (this.context.state === 'suspended') await this.context.resume();
  }

  now(): number {
    return this.context.currentTime;
  }

  heardNow(): number {
    // What leaves the machine now was laid a moment ago: its buffers and the card's.
    const { contextTime = 0, performanceTime = 0 } = this.context.getOutputTimestamp();
    if (performanceTime > 0) return contextTime + (performance.now() - performanceTime) / 1000;
    return this.context.currentTime - (this.context.outputLatency || this.context.baseLatency);
  }

  /** The highest sample heard lately, 0 to 1 and over. */
  peak(): number {
    const samples = new Float32Array(this.meter.fftSize);
    this.meter.getFloatTimeDomainData(samples);
    return samples.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
  }

  lay(heard: Heard, at: number, fade: number): Laid {
    const { context } = this;
    const { channels, samples } = heard;
    const length = samples.length / channels;
    const buffer = context.createBuffer(channels, Math.max(length, 1), RATE);
    for (let channel = 0; channel < channels; channel += 1) {
      const into = buffer.getChannelData(channel);
      for (let nth = 0; nth < length; nth += 1) into[nth] = samples[nth * channels + channel] ?? 0;
    }
    const source = context.createBufferSource();
    source.buffer = buffer;
    const gain = context.createGain();
    source.connect(gain).connect(this.volume);
    const start = Math.max(at, context.currentTime);
    if (fade > 0) {
      gain.gain.setValueAtTime(0, start);
      gain.gain.linearRampToValueAtTime(1, start + fade);
    }
    source.start(start, Math.max(0, start - at));
    source.onended = () => gain.disconnect();
    return {
      takeBack: (from, seconds) => {
        const when = Math.max(from, context.currentTime);
        gain.gain.cancelScheduledValues(when);
        gain.gain.setValueAtTime(1, when);
        gain.gain.linearRampToValueAtTime(0, when + seconds);
        source.stop(when + seconds);
      },
    };
  }

  async close(): Promise<void> {
    await this.context.close();
  }
}
