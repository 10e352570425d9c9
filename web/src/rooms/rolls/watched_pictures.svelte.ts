// The pictures of a roll that is being read, as they come.

/** Pictures fetched at once. */
const AT_ONCE = 4;

export class WatchedPictures {
  /** Changes when a picture arrives. */
  arrived = $state(0);

  readonly #there = new Map<number, CanvasImageSource>();
  readonly #asked = new Set<number>();
  readonly #fetch: (frame: number) => Promise<CanvasImageSource | null>;
  #waiting: number[] = [];
  #busy = 0;

  constructor(fetch: (frame: number) => Promise<CanvasImageSource | null>) {
    this.#fetch = fetch;
  }

  get(frame: number): CanvasImageSource | null {
    return this.#there.get(frame) ?? null;
  }

  /** These pictures may be looked at by now; each is fetched once. */
  want(frames: readonly number[]): void {
    const fresh = frames.filter((frame) => !this.#asked.has(frame));
    fresh.forEach((frame) => this.#asked.add(frame));
    this.#waiting.push(...fresh);
    while (this.#busy < AT_ONCE && this.#waiting.length > 0) void this.#next();
  }

  /** Nobody looks any more: what was not asked for yet is not. */
  leave(): void {
    this.#waiting = [];
  }

  async #next(): Promise<void> {
    const frame = this.#waiting.shift();
    if (frame === undefined) return;
    this.#busy += 1;
    const picture = await this.#fetch(frame).catch(() => null);
    this.#busy -= 1;
    if (picture) {
      this.#there.set(frame, picture);
      this.arrived += 1;
    }
    if (this.#waiting.length > 0) void this.#next();
  }
}

/** Asks the program for one picture of a reading. */
export async function watchedPicture(job: number, frame: number): Promise<ImageBitmap | null> {
  const answer = await fetch(`/api/jobs/${job}/pictures/${frame}`);
  return answer.status === 200 ? createImageBitmap(await answer.blob()) : null;
}
