// Where the pictures of this film are, and which of them the scans do not show.
import { SvelteSet } from 'svelte/reactivity';
import type { Film } from '$lib/api/wire';
import { frameName } from '$lib/film/frame_name';
import {
  pictureAddress,
  runAddress,
  smallAddress,
  titleFrameAddress,
} from '$lib/pictures/addresses';

interface Source {
  readonly film: Film | null;
}

/** Pictures kept warm, so that a nudge finds the next one there. */
const WARM = 160;
/** Pictures fetched ahead at once: the browser has six ways to the program, and a change needs one. */
const AT_ONCE = 2;

export class FilmPictures {
  /** Frames that were asked for and have no picture. */
  private readonly missing = new SvelteSet<string>();
  private readonly warm = new Map<string, HTMLImageElement>();
  /** What is to be fetched ahead, nearest first; the hand goes on and it is another. */
  private ahead: { address: string; name: string }[] = [];
  private fetching = 0;

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

  /** A frame of the title that a card to shoot is named after, `width` px wide. */
  title(named: string | null | undefined, frame: number, width: number): string | undefined {
    const wanted = named?.trim().toUpperCase();
    const title = this.source.film?.titles.find((one) => one.name.toUpperCase() === wanted);
    return title && titleFrameAddress({ film: this.name, ...title }, frame, width);
  }

  isMissing(roll: string, frame: number): boolean {
    return this.missing.has(frameName(roll, frame));
  }

  /** Whether a roll is known on paper only, so that no picture of it can be shown. */
  isOnPaper(roll: string): boolean {
    return this.source.film?.rolls.find((one) => one.roll === roll)?.paper ?? false;
  }

  /**
   * Fetches whole pictures ahead of the hand, nearest first, and learns which are
   * missing. What was asked for before and has not been begun is forgotten.
   */
  fetchAhead(frames: readonly { readonly roll: string; readonly frame: number }[]): void {
    this.ahead = frames.flatMap(({ roll, frame }) => {
      const address = this.whole(roll, frame);
      return address && !this.warm.has(address) ? [{ address, name: frameName(roll, frame) }] : [];
    });
    while (this.fetching < AT_ONCE && this.ahead.length > 0) this.fetchNext();
    for (const oldest of this.warm.keys()) {
      if (this.warm.size <= WARM) break;
      this.warm.delete(oldest);
    }
  }

  private fetchNext(): void {
    const next = this.ahead.shift();
    if (!next) return;
    const image = new Image();
    image.fetchPriority = 'low';
    this.fetching += 1;
    const done = () => {
      this.fetching -= 1;
      this.fetchNext();
    };
    image.onload = done;
    image.onerror = () => {
      this.missing.add(next.name);
      done();
    };
    image.src = next.address;
    this.warm.set(next.address, image);
  }

  private of(roll: string) {
    const head = this.source.film?.rolls.find((one) => one.roll === roll);
    if (!head?.workprint) return undefined;
    return { film: this.name, roll, pictures: head.pictures ?? null };
  }
}
