// The outlines of the film's sounds, asked for once each.
import { SvelteMap } from 'svelte/reactivity';
import type { Sound } from './dub_types';
import type { Peaks } from './wave';

export class Outlines {
  readonly #kept = new SvelteMap<number, { of: string; peaks: Peaks | null }>();

  constructor(private readonly ask: (sound: Sound) => Promise<Peaks>) {}

  /** The outline of a sound; nothing while it is on the way, or where it cannot be had. */
  readonly of = (sound: number): Peaks | null => this.#kept.get(sound)?.peaks ?? null;

  /** Asks for those of these that are not there, or are played at another speed now. */
  want(sounds: readonly Sound[]): void {
    for (const one of sounds) {
      const of = `${one.sound.kept} ${String(one.sound.play)}`;
      if (one.missing || this.#asked.get(one.id) === of) continue;
      this.#asked.set(one.id, of);
      void this.#fetch(one, of);
    }
  }

  readonly #asked = new Map<number, string>();

  async #fetch(one: Sound, of: string): Promise<void> {
    const peaks = await this.ask(one).catch(() => null);
    // A cue without its outline is still a block with its name.
    if (this.#asked.get(one.id) === of) this.#kept.set(one.id, { of, peaks });
  }
}
