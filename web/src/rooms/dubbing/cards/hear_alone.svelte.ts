// One sound heard by itself, softly, without the picture: the one way to do so in this room.
import { NotReached, problemOf, Refused } from '$lib/api/server';
import type { Problem } from '$lib/api/wire';
import { AudioMachine } from '$lib/sound/audio_machine';
import { toldOnce } from '$lib/ui/caution/told_once.svelte';
import { type FetchSound, HearSound } from './hear_sound.svelte';

/** As the room's own level begins: about a quarter of full, 12 dB down. */
const LOW = 0.25;

/** What is to be heard: how long it is, in samples at 48 kHz, and where its samples are. */
export interface Alone {
  readonly samples: number;
  readonly fetch: FetchSound;
}

export class HearAlone {
  trouble = $state.raw<Problem | null>(null);
  /** The caution for the ears stands before the first sound of a session. */
  cautions = $state(false);
  private machine: AudioMachine | null = null;
  private ear = $state.raw<HearSound | null>(null);
  private now = $state<string | null>(null);

  /** Whether it plays what goes by this name. */
  plays(what: string): boolean {
    return this.ear?.plays === true && this.now === what;
  }

  /** Plays it; or stops it, where it plays. Nothing is fetched before the caution was read. */
  async press(what: string, sound: () => Promise<Alone | null>): Promise<void> {
    const stops = this.plays(what);
    this.ear?.stop();
    if (stops) return;
    if (!toldOnce.has('hearing') && !this.cautions) {
      this.cautions = true;
      return;
    }
    if (this.cautions) toldOnce.tell(['hearing']);
    this.cautions = false;
    this.trouble = null;
    this.machine ??= new AudioMachine();
    this.machine.level = LOW;
    await this.machine.wake();
    this.ear ??= new HearSound(this.machine, (why) => (this.trouble = problemOf(why)));
    const alone = await sound();
    if (!alone) return;
    this.now = what;
    await this.ear.start(alone.samples, alone.fetch);
  }

  close(): void {
    this.ear?.stop();
    void this.machine?.close();
    this.machine = null;
    this.ear = null;
  }
}

/** A sound of the library, asked for piece by piece. */
export function ofLibrary(film: string, id: number, milliseconds: number): Alone {
  const of = `/api/films/${encodeURIComponent(film)}/sounds/${String(id)}/heard`;
  const fetchPiece: FetchSound = async (first, count, signal) => {
    const path = `${of}?first=${String(first)}&count=${String(count)}`;
    const answer = await fetch(path, { signal, credentials: 'same-origin' }).catch(
      (why: unknown) => {
        throw new NotReached(why);
      },
    );
    if (!answer.ok) throw new Refused((await answer.json()) as Problem, answer.status);
    return { channels: 2 as const, samples: new Float32Array(await answer.arrayBuffer()) };
  };
  return { samples: Math.round((milliseconds * 48_000) / 1000), fetch: fetchPiece };
}

/** What is there already, two channels side by side. */
export function ofSamples(samples: Float32Array<ArrayBuffer>): Alone {
  return {
    samples: Math.floor(samples.length / 2),
    fetch: (first, count) =>
      Promise.resolve({ channels: 2, samples: samples.slice(2 * first, 2 * (first + count)) }),
  };
}
