// A short sound heard once, softly, without the picture.

/** As the room's own level begins: about a quarter of full, 12 dB down. */
const LOW = 0.25;
const RATE = 48_000;

export class HearOnce {
  private context: AudioContext | null = null;
  private plays: AudioBufferSourceNode | null = null;

  /** Two channels side by side at 48 kHz. */
  async play(samples: Float32Array): Promise<void> {
    this.stop();
    const context = (this.context ??= new AudioContext({ sampleRate: RATE }));
    await context.resume();
    const count = Math.max(1, Math.floor(samples.length / 2));
    const buffer = context.createBuffer(2, count, RATE);
    for (const channel of [0, 1]) {
      const into = buffer.getChannelData(channel);
      for (let at = 0; at < count; at += 1) into[at] = samples[2 * at + channel] ?? 0;
    }
    const level = context.createGain();
    level.gain.value = LOW;
    level.connect(context.destination);
    const source = context.createBufferSource();
    source.buffer = buffer;
    source.connect(level);
    source.start();
    this.plays = source;
  }

  stop(): void {
    this.plays?.stop();
    this.plays = null;
  }

  close(): void {
    this.stop();
    void this.context?.close();
    this.context = null;
  }
}
