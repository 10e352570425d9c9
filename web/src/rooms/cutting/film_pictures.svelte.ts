// Where the pictures of this film are, and which of them the scans do not show.
import { SvelteSet } from 'svelte/reactivity';
import type { Film } from '$lib/api/wire';
import { frameName } from '$lib/film/frame_name';
import { pictureAddress, runAddress, smallAddress } from '$lib/pictures/addresses';

interface Source {
  readonly film: Film | null;
}

/** Pictures kept warm, so that a nudge finds the next one there. */
const WARM = 160;

export class FilmPictures {
  /** Frames that were asked for and have no picture. */
  private readonly missing = new SvelteSet<string>();
  private readonly warm = new Map<string, HTMLImageElement>();

  constructor(
    private readonly name: string,
    private readonly source: Source,
  ) {}

  /** A whole picture; nothing for a roll on paper. */
  whole(roll: string, frame: number): string | undefined {
    const of = this.of(roll);
    return of && pictureAddress(of, frame);
  }

  /** A small picture of at least so many px high. */
  small(roll: string, frame: number, height: number): string | undefined {
    const of = this.of(roll);
    return of && smallAddress(of, frame, height);
  }

  /** A run of pictures for the player, whatever is known of the roll. */
  run(roll: string, first: number, count: number): string {
    return runAddress(this.of(roll) ?? { film: this.name, roll, pictures: null }, first, count);
  }

  isMissing(roll: string, frame: number): boolean {
    return this.missing.has(frameName(roll, frame));
  }

  /** Whether a roll is known on paper only, so that no picture of it can be shown. */
  isOnPaper(roll: string): boolean {
    return this.source.film?.rolls.find((one) => one.roll === roll)?.paper ?? false;
  }

  /** Fetches whole pictures ahead of the hand, and learns which are missing. */
  fetchAhead(roll: string, frames: readonly number[]): void {
    for (const frame of frames) {
      const address = this.whole(roll, frame);
      if (!address || this.warm.has(address)) continue;
      const image = new Image();
      image.onerror = () => this.missing.add(frameName(roll, frame));
      image.src = address;
      this.warm.set(address, image);
    }
    for (const oldest of this.warm.keys()) {
      if (this.warm.size <= WARM) break;
      this.warm.delete(oldest);
    }
  }

  private of(roll: string) {
    const head = this.source.film?.rolls.find((one) => one.roll === roll);
    if (!head?.workprint) return undefined;
    return { film: this.name, roll, pictures: head.pictures ?? null };
  }
}
