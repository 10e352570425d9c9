// A sound of the library heard by itself, from its beginning, piece by piece as it comes.
import { RATE } from '$lib/sound/sample_places';
import type { Heard, Laid, SoundMachine } from '$lib/sound/sound_player';

/** The program gives ten seconds at once; the first piece is short, so that it begins soon. */
const FIRST = RATE;
const EACH = 10 * RATE;
/** The next piece is asked for so long before the last one ends. Unit: seconds. */
const AHEAD = 4;
const MARGIN = 0.05;

/** Asks for `count` samples from `first` on, at 48 kHz as the sound is played. */
export type FetchSound = (first: number, count: number, signal: AbortSignal) => Promise<Heard>;

export class HearSound {
  plays = $state(false);
  private laid: Laid[] = [];
  private asking: AbortController | null = null;

  constructor(
    private readonly machine: SoundMachine,
    private readonly onTrouble: (why: unknown) => void,
    private readonly wait: (seconds: number) => Promise<void> = (seconds) =>
      new Promise((done) => setTimeout(done, 1000 * seconds)),
  ) {}

  /** Plays a sound of so many samples to its end, or until it is stopped. */
  async start(length: number, fetchSound: FetchSound): Promise<void> {
    this.stop();
    const asked = (this.asking = new AbortController());
    const { signal } = asked;
    this.plays = true;
    try {
      let begun: number | null = null;
      for (let first = 0; first < length; ) {
        const count = Math.min(first === 0 ? FIRST : EACH, length - first);
        const heard = await fetchSound(first, count, signal);
        if (signal.aborted) return;
        begun ??= this.machine.now() + MARGIN;
        this.laid.push(this.machine.lay(heard, begun + first / RATE, 0));
        first += count;
        await this.wait(begun + first / RATE - AHEAD - this.machine.now());
        if (signal.aborted) return;
      }
      // What is laid has still to be heard.
      const end: number = (begun ?? this.machine.now()) + length / RATE;
      await this.wait(end - this.machine.now());
      if (!signal.aborted) this.stop();
    } catch (why) {
      if (signal.aborted) return;
      this.stop();
      this.onTrouble(why);
    }
  }

  stop(): void {
    this.asking?.abort();
    this.asking = null;
    for (const laid of this.laid) laid.takeBack(this.machine.now(), 0.02);
    this.laid = [];
    this.plays = false;
  }
}
