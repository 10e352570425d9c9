// Plays what the program has mixed, a little ahead of the ear, and swaps it at once when
// something was changed. Its clock is the sound's: pictures follow it.
import type { Speed } from '$lib/film/speed';
import { RATE, sampleOf } from './sample_places';

/** What is heard of some frames: samples of both channels in turn, −1 to 1. */
export interface Heard {
  readonly channels: 1 | 2;
  readonly samples: Float32Array;
}

/** Asks for the sound of `count` frames from `first` on. */
export type FetchHeard = (first: number, count: number, signal: AbortSignal) => Promise<Heard>;

/** A stretch of sound that was handed to the machine and can be faded out and taken back. */
export interface Laid {
  /** Fades it out within `seconds` from `at` on and lets it go. Unit: seconds of the clock. */
  takeBack(at: number, seconds: number): void;
}

/** The machine that makes sound; `AudioMachine` in the page, a pretended one in tests. */
export interface SoundMachine {
  /** Seconds of the machine's clock: what is laid at `now` cannot be in time any more. */
  now(): number;
  /** What is heard at this moment, in seconds of the same clock. */
  heardNow(): number;
  /** Lays sound to begin at `at`, coming in within `fade` seconds. */
  lay(heard: Heard, at: number, fade: number): Laid;
}

export interface PlayerSettings {
  /** Frames asked for at once; the first are fewer, so that it begins soon. */
  readonly first: number;
  readonly each: number;
  /** So much is laid ahead of the ear. Unit: seconds. */
  readonly ahead: number;
  /** Between what is laid and what the machine begins to play. Unit: seconds. */
  readonly margin: number;
  /** How long old and new sound are heard together when something was changed. Unit: seconds. */
  readonly crossed: number;
}

/** A change of a level is to be heard within 200 ms: 30 to ask, 40 margin, 10 to cross. */
export const PLAYER: PlayerSettings = {
  first: 6,
  each: 12,
  ahead: 1.2,
  margin: 0.04,
  crossed: 0.01,
};

interface Piece {
  readonly laid: Laid;
  readonly from: number;
  readonly to: number;
}

export class SoundPlayer {
  private readonly settings: PlayerSettings;
  private start: { at: number; frame: number } | null = null;
  private speed: Speed = { num: 18, den: 1 };
  private next = 0;
  private end = 0;
  private asking: AbortController | null = null;
  private laid: Piece[] = [];

  constructor(
    private readonly machine: SoundMachine,
    private readonly fetchHeard: FetchHeard,
    private readonly onTrouble: (why: unknown) => void = () => {},
    settings: Partial<PlayerSettings> = {},
  ) {
    this.settings = { ...PLAYER, ...settings };
  }

  get plays(): boolean {
    return this.start !== null;
  }

  /** When the first frame of this run is heard; null while it stands. Unit: seconds of the clock. */
  get beganAt(): number | null {
    return this.start?.at ?? null;
  }

  /** How much of the film is heard since the start; null while it stands. Unit: seconds. */
  get elapsed(): number | null {
    return this.start && this.machine.heardNow() - this.start.at;
  }

  /** Fetches what is heard first, so that `begin` has it; pictures may be threaded meanwhile. */
  async thread(frame: number, end: number, speed: Speed): Promise<void> {
    this.stop();
    this.speed = speed;
    this.end = end;
    this.next = frame;
    this.ready = await this.ask(frame, this.settings.first);
    this.readyAt = frame;
  }
  private ready: Heard | null = null;
  private readyAt = -1;

  /** Begins with a frame; its first sample is heard when `elapsed` is 0. */
  begin(frame: number): void {
    const at = this.machine.now() + this.settings.margin;
    this.start = { at, frame };
    this.next = frame;
    if (this.ready && this.readyAt === frame)
      this.lay(this.ready, frame, this.settings.first, 0.002);
    this.ready = null;
    void this.fill();
  }

  /** What is heard was changed: from now on it is the other, and nothing clicks. */
  async changed(): Promise<void> {
    const { start } = this;
    if (!start) return;
    const asked = this.renew();
    // Nothing of the film is in time before this.
    const soon = this.machine.now() + this.settings.margin - start.at;
    const frame = start.frame + Math.ceil((soon * this.speed.num) / this.speed.den);
    const heard = await this.ask(frame, this.settings.first, asked);
    if (!heard || asked.signal.aborted) return;
    const at = Math.max(this.timeOf(frame), this.machine.now());
    for (const piece of this.laid)
      if (piece.to > at) piece.laid.takeBack(at, this.settings.crossed);
    this.laid = [];
    this.lay(heard, frame, this.settings.first, this.settings.crossed);
    await this.fill();
  }

  /** Called often, as whenever the screen is drawn: lays what is due. */
  tick(): void {
    if (this.start && !this.asking) void this.fill();
  }

  stop(): void {
    this.asking?.abort();
    this.asking = null;
    this.ready = null;
    const now = this.machine.now();
    for (const piece of this.laid) piece.laid.takeBack(now, this.settings.crossed);
    this.laid = [];
    this.start = null;
  }

  /** When the first sample of a frame is heard. Unit: seconds of the machine's clock. */
  private timeOf(frame: number): number {
    const { at, frame: first } = this.start ?? { at: 0, frame: 0 };
    return at + (sampleOf(frame, this.speed) - sampleOf(first, this.speed)) / RATE;
  }

  private renew(): AbortController {
    this.asking?.abort();
    this.asking = new AbortController();
    return this.asking;
  }

  private async ask(
    first: number,
    count: number,
    asked: AbortController = this.renew(),
  ): Promise<Heard | null> {
    try {
      return await this.fetchHeard(first, count, asked.signal);
    } catch (why) {
      if (!asked.signal.aborted) this.onTrouble(why);
      return null;
    } finally {
      if (this.asking === asked) this.asking = null;
    }
  }

  private async fill(): Promise<void> {
    while (this.start && this.next < this.end) {
      if (this.timeOf(this.next) - this.machine.now() > this.settings.ahead) return;
      // What cannot be in time is left out, so that the rest is in its place.
      const late = this.machine.now() + this.settings.margin / 2 - this.timeOf(this.next);
      if (late > 0) this.next += Math.ceil((late * this.speed.num) / this.speed.den);
      const first = this.next;
      const count = Math.min(this.settings.each, this.end - first);
      if (count <= 0) return;
      const asked = this.renew();
      const heard = await this.ask(first, count, asked);
      if (!heard || asked.signal.aborted || !this.start) return;
      this.lay(heard, first, count, 0);
    }
  }

  private lay(heard: Heard, first: number, count: number, fade: number): void {
    const from = this.timeOf(first);
    const to = this.timeOf(first + count);
    const now = this.machine.now();
    this.laid = this.laid.filter((piece) => piece.to > now);
    this.laid.push({ laid: this.machine.lay(heard, from, fade), from, to });
    this.next = first + count;
  }
}
