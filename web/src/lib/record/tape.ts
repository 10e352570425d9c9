// What is recorded on its way to the disk: in order, in chunks of at most a second, sent
// again until it is kept.

/** Keeps samples from sample `at` of each channel on; gives how many are kept then. */
export type Keep = (at: number, samples: Float32Array) => Promise<number>;

export interface TapeSettings {
  readonly rate: number;
  readonly channels: 1 | 2;
  /** How often the same chunk is sent before the recording stops. */
  readonly tries: number;
  /** Between two tries. Unit: ms. */
  readonly pause: number;
  readonly later: (ms: number, act: () => void) => void;
  /** Whether it is of use to send again: a full disk stays full. */
  readonly mayHelp: (why: unknown) => boolean;
}

export const TAPE = {
  tries: 5,
  pause: 400,
  later: (ms: number, act: () => void) => void setTimeout(act, ms),
  mayHelp: () => true,
};

/** The queue between the microphone and the disk. Nothing in it is lost while the page lives. */
export class Tape {
  /** Samples of each channel that the program has said are on the disk. */
  kept = 0;
  /** Why no more is kept. */
  failed: unknown = null;
  private readonly settings: TapeSettings;
  private readonly chunk: number;
  private waiting: Float32Array[] = [];
  private held = 0;
  private sends = false;
  private ended = false;
  private settle: (() => void)[] = [];

  constructor(
    private readonly keep: Keep,
    settings: Pick<TapeSettings, 'rate' | 'channels'> & Partial<TapeSettings>,
    private readonly onChange: () => void = () => {},
  ) {
    this.settings = { ...TAPE, ...settings };
    // At most a second, and never more than a request may bring (1 MiB).
    const moments = Math.min(this.settings.rate, 240_000 / this.settings.channels);
    this.chunk = Math.floor(moments) * this.settings.channels;
  }

  /** Samples of each channel that are recorded and not on the disk yet. */
  get unkept(): number {
    return this.held / this.settings.channels;
  }

  /** What the microphone has heard, channels in turn. */
  heard(samples: Float32Array): void {
    if (this.ended || this.failed !== null) return;
    this.waiting.push(samples);
    this.held += samples.length;
    void this.send();
  }

  /** No more comes: the rest is sent. Ends when it is kept, or when it cannot be. */
  async end(): Promise<void> {
    this.ended = true;
    void this.send();
    if (!this.sends) return;
    await new Promise<void>((done) => this.settle.push(done));
  }

  private async send(): Promise<void> {
    if (this.sends) return;
    this.sends = true;
    while (this.failed === null && (this.held >= this.chunk || (this.ended && this.held > 0))) {
      await this.sendOne(this.next());
      this.onChange();
    }
    this.sends = false;
    for (const done of this.settle.splice(0)) done();
  }

  private async sendOne(samples: Float32Array): Promise<void> {
    for (let tried = 1; ; tried += 1) {
      try {
        this.kept = await this.keep(this.kept, samples);
        this.held -= samples.length;
        return;
      } catch (why) {
        if (tried >= this.settings.tries || !this.settings.mayHelp(why)) {
          this.failed = why;
          return;
        }
        await new Promise<void>((go) => this.settings.later(this.settings.pause * tried, go));
      }
    }
  }

  /** The oldest chunk; what is behind it stays. */
  private next(): Float32Array {
    const length = Math.min(this.held, this.chunk);
    const samples = new Float32Array(length);
    let filled = 0;
    while (filled < length) {
      const first = this.waiting.shift();
      if (!first) break;
      const take = Math.min(first.length, length - filled);
      samples.set(first.subarray(0, take), filled);
      if (take < first.length) this.waiting.unshift(first.subarray(take));
      filled += take;
    }
    return samples;
  }
}
