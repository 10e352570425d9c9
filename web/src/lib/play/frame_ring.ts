// Decoded pictures just ahead of the gate. The projector says which frames it
// wants, the most urgent first; the ring fetches them in runs, decodes them,
// and frees every picture that is no longer wanted.

import { frameName, type FrameName } from '$lib/film/frame_name';
import { JpegShelf } from './jpeg_shelf';
import { RunBroken } from './run_format';
import { type FetchRun, RunRefused } from './run_source';

/** A decoded picture that must be freed by hand, such as an `ImageBitmap`. */
export interface Freed {
  close(): void;
}

/** What is known of a frame that was fetched. */
export type Held<B> =
  | { readonly kind: 'picture'; readonly picture: B }
  /** The scan shows no picture of this frame. */
  | { readonly kind: 'none' }
  /** There is one, but it cannot be read. */
  | { readonly kind: 'spoilt' };

/** How the ring works. */
export interface RingSettings {
  /** Frames in one fetch. */
  readonly run: number;
  /** Fetches at once. */
  readonly fetches: number;
  /** Pictures decoded at once. */
  readonly decodes: number;
  /** A run shorter than `run` waits until one of its frames is as near as this. */
  readonly near: number;
  /** JPEGs kept for going back. */
  readonly shelf: number;
}

/** Tuned for two cores; see the figures in `README.md`. */
export const RING: RingSettings = { run: 8, fetches: 3, decodes: 2, near: 12, shelf: 480 };

/** Waits before a fetch that failed is tried again. Unit: ms. */
const RESTS = [250, 500, 1000, 2000, 4000] as const;

/** After so many lasting refusals a frame is said to be spoilt. */
const TRIES = 3;

/** What the ring needs from outside. */
export interface RingParts<B> {
  readonly fetchRun: FetchRun;
  readonly decode: (jpeg: Blob) => Promise<B>;
  /** Calls back after so many ms. */
  readonly later: (ms: number, act: () => void) => void;
  /** A wanted frame is there. */
  readonly onArrival?: () => void;
  /** A fetch failed; it will be tried again. */
  readonly onTrouble?: (error: unknown) => void;
}

interface Flight {
  readonly roll: string;
  readonly first: number;
  readonly count: number;
  readonly stop: AbortController;
}

/** Pictures ahead of the gate. */
export class FrameRing<B extends Freed> {
  readonly #parts: RingParts<B>;
  readonly #settings: RingSettings;
  readonly #shelf: JpegShelf;
  readonly #held = new Map<string, Held<B>>();
  readonly #decoding = new Set<string>();
  readonly #refusals = new Map<string, number>();
  readonly #flights = new Set<Flight>();
  #wanted = new Map<string, FrameName>();
  // Answers that were asked for in an earlier generation are dropped.
  #generation = 0;
  #failures = 0;
  #resting = false;

  constructor(parts: RingParts<B>, settings: Partial<RingSettings> = {}) {
    this.#parts = parts;
    this.#settings = { ...RING, ...settings };
    this.#shelf = new JpegShelf(this.#settings.shelf);
  }

  /** These frames are wanted, the most urgent first; all others are let go. */
  want(frames: readonly FrameName[]): void {
    this.#wanted = new Map(frames.map((each) => [frameName(each.roll, each.frame), each]));
    for (const [key, held] of this.#held) {
      if (!this.#wanted.has(key)) this.#free(key, held);
    }
    for (const flight of this.#flights) {
      if (!this.#isWanted(flight)) this.#callOff(flight);
    }
    this.#work();
  }

  /** What is there of a frame, or undefined while it is on its way. */
  get(roll: string, frame: number): Held<B> | undefined {
    return this.#held.get(frameName(roll, frame));
  }

  /** A roll was read anew: nothing of it is to be believed. */
  forget(roll: string): void {
    this.#shelf.forget(roll);
    this.#startAnew();
  }

  /** Lets everything go, and drops what is still on its way. */
  clear(): void {
    this.#wanted = new Map();
    this.#shelf.clear();
    this.#startAnew();
  }

  /** Decoded pictures held at present. */
  get size(): number {
    return this.#held.size;
  }

  #startAnew(): void {
    this.#generation += 1;
    for (const flight of this.#flights) this.#callOff(flight);
    for (const [key, held] of this.#held) this.#free(key, held);
    this.#decoding.clear();
    this.#refusals.clear();
    this.#failures = 0;
    this.#work();
  }

  #free(key: string, held: Held<B>): void {
    if (held.kind === 'picture') held.picture.close();
    this.#held.delete(key);
  }

  #callOff(flight: Flight): void {
    this.#flights.delete(flight);
    flight.stop.abort();
  }

  #isWanted(flight: Flight): boolean {
    for (let off = 0; off < flight.count; off += 1) {
      if (this.#wanted.has(frameName(flight.roll, flight.first + off))) return true;
    }
    return false;
  }

  #work(): void {
    for (const [key, frame] of this.#wanted) {
      if (this.#decoding.size >= this.#settings.decodes) break;
      if (!this.#held.has(key) && !this.#decoding.has(key)) this.#unpack(key, frame);
    }
    while (!this.#resting && this.#flights.size < this.#settings.fetches) {
      const run = this.#nextRun();
      if (!run) break;
      void this.#fetch(run);
    }
  }

  #unpack(key: string, frame: FrameName): void {
    const jpeg = this.#shelf.get(frame.roll, frame.frame);
    if (jpeg === null) this.#arrive(key, { kind: 'none' });
    else if (jpeg !== undefined) void this.#decode(key, jpeg);
  }

  async #decode(key: string, jpeg: Blob): Promise<void> {
    const generation = this.#generation;
    this.#decoding.add(key);
    const held = await this.#parts.decode(jpeg).then(
      (picture): Held<B> => ({ kind: 'picture', picture }),
      (): Held<B> => ({ kind: 'spoilt' }),
    );
    if (generation !== this.#generation) {
      if (held.kind === 'picture') held.picture.close();
      return;
    }
    this.#decoding.delete(key);
    if (this.#wanted.has(key)) this.#arrive(key, held);
    else if (held.kind === 'picture') held.picture.close();
    this.#work();
  }

  #arrive(key: string, held: Held<B>): void {
    this.#held.set(key, held);
    this.#parts.onArrival?.();
  }

  /** The next run to fetch: about the most urgent frame that nobody has asked for. */
  #nextRun(): Omit<Flight, 'stop'> | null {
    let place = 0;
    for (const { roll, frame } of this.#wanted.values()) {
      const near = place < this.#settings.near;
      place += 1;
      if (!this.#isMissing(roll, frame)) continue;
      const run = this.#runAbout(roll, frame);
      if (near || run.count === this.#settings.run) return run;
    }
    return null;
  }

  #runAbout(roll: string, frame: number): Omit<Flight, 'stop'> {
    let [first, count] = [frame, 1];
    // A frame that was refused is asked for by itself, so that it spoils no other.
    if (this.#wasRefused(roll, frame)) return { roll, first, count };
    const takes = (next: number) =>
      count < this.#settings.run && this.#isMissing(roll, next) && !this.#wasRefused(roll, next);
    while (takes(first + count)) count += 1;
    while (takes(first - 1)) [first, count] = [first - 1, count + 1];
    return { roll, first, count };
  }

  #wasRefused(roll: string, frame: number): boolean {
    return this.#refusals.has(frameName(roll, frame));
  }

  #isMissing(roll: string, frame: number): boolean {
    const key = frameName(roll, frame);
    if (!this.#wanted.has(key) || this.#held.has(key) || this.#decoding.has(key)) return false;
    for (const { roll: on, first, count } of this.#flights) {
      if (on === roll && first <= frame && frame < first + count) return false;
    }
    return this.#shelf.get(roll, frame) === undefined;
  }

  async #fetch(run: Omit<Flight, 'stop'>): Promise<void> {
    const flight: Flight = { ...run, stop: new AbortController() };
    this.#flights.add(flight);
    const { roll, first, count, stop } = flight;
    try {
      const pictures = await this.#parts.fetchRun(roll, first, count, stop.signal);
      if (!this.#flights.delete(flight)) return;
      this.#failures = 0;
      pictures.forEach((jpeg, off) => this.#shelf.put(roll, first + off, jpeg));
    } catch (error) {
      // One that was called off is no trouble.
      if (this.#flights.delete(flight)) this.#failed(flight, error);
    }
    this.#work();
  }

  #failed(flight: Flight, error: unknown): void {
    if (isLasting(error)) this.#countRefusal(flight);
    this.#parts.onTrouble?.(error);
    const rest = RESTS[Math.min(this.#failures, RESTS.length - 1)] ?? 4000;
    this.#failures += 1;
    this.#resting = true;
    this.#parts.later(rest, () => {
      this.#resting = false;
      this.#work();
    });
  }

  #countRefusal({ roll, first, count }: Flight): void {
    for (let frame = first; frame < first + count; frame += 1) {
      const key = frameName(roll, frame);
      const refusals = (this.#refusals.get(key) ?? 0) + 1;
      this.#refusals.set(key, refusals);
      if (refusals >= TRIES && this.#wanted.has(key)) this.#arrive(key, { kind: 'spoilt' });
    }
  }
}

/** Whether trying again will hardly help: the server answered, and this is its answer. */
function isLasting(error: unknown): boolean {
  if (error instanceof RunRefused) return error.status < 500;
  return error instanceof RunBroken;
}
