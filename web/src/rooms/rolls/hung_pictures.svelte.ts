// The small pictures of hanging film, fetched many at a time and kept for the
// rolls that were looked at last.
import { type PicturesOf, stripAddress } from '$lib/pictures/addresses';

/** Pictures of one request: enough to fill a few takes, few enough to come soon. */
const AT_ONCE = 60;

/** Rolls whose pictures are kept. */
const ROLLS_KEPT = 12;

/** Where the pictures of a contact strip lie in it. Unit: px. */
export interface Cells {
  readonly w: number;
  readonly h: number;
  readonly across: number;
  readonly down: number;
  readonly rows: number;
}

/** Reads the header of a contact strip; null where it says nothing of use. */
export function cellsOf(header: string | null): Cells | null {
  const numbers = (header ?? '').trim().split(/\s+/).map(Number);
  if (numbers.length !== 5 || !numbers.every((n) => Number.isInteger(n) && n > 0)) return null;
  const [w = 0, h = 0, across = 0, down = 0, rows = 0] = numbers;
  return { w, h, across, down, rows };
}

/** Where the nth picture begins. Unit: px. */
export function placeOfCell(cells: Cells, nth: number): { x: number; y: number } {
  return { x: Math.floor(nth / cells.rows) * cells.across, y: (nth % cells.rows) * cells.down };
}

/** Contact strips fetched at once. */
const FLIGHTS = 2;

/** Before film that did not come is asked for again. Unit: ms. */
const REST = 1500;

/** Film that is wanted now, the most urgent frame first. */
interface Wanted {
  readonly name: string;
  readonly of: PicturesOf;
  readonly height: number;
  readonly frames: readonly number[];
}

interface Flight {
  readonly name: string;
  readonly frames: ReadonlySet<number>;
  readonly stop: AbortController;
}

/** What comes from outside. */
export interface HungParts<P> {
  /** The pictures of a contact strip, as many as were asked for; none where it was refused. */
  readonly fetch: (address: string, count: number, signal: AbortSignal) => Promise<P[]>;
  readonly free: (picture: P) => void;
  readonly later: (ms: number, act: () => void) => void;
}

function nameOf(of: PicturesOf, height: number): string {
  return [of.film, of.roll, of.pictures, height].join('\n');
}

/** The pictures that hang in this window. */
export class HungPictures<P = ImageBitmap> {
  /** Changes when pictures arrive. */
  arrived = $state(0);

  readonly #parts: HungParts<P>;
  readonly #kept = new Map<string, Map<number, P>>();
  readonly #flights = new Set<Flight>();
  #wanted: Wanted | null = null;
  #resting = false;

  constructor(parts: HungParts<P>) {
    this.#parts = parts;
  }

  /** The picture of a frame, or null while it is not there. */
  get(of: PicturesOf, height: number, frame: number): P | null {
    return this.#kept.get(nameOf(of, height))?.get(frame) ?? null;
  }

  /** These frames are wanted, the most urgent first; what is on its way for none of them is called off. */
  want(of: PicturesOf, height: number, frames: readonly number[]): void {
    const name = nameOf(of, height);
    this.#wanted = { name, of, height, frames };
    const wanted = new Set(frames);
    for (const flight of this.#flights) {
      const useful = flight.name === name && [...flight.frames].some((each) => wanted.has(each));
      if (!useful) this.#callOff(flight);
    }
    this.#work();
  }

  /** Nothing more is asked for, and nothing kept. */
  leave(): void {
    this.#wanted = null;
    for (const flight of this.#flights) this.#callOff(flight);
    for (const pictures of this.#kept.values()) pictures.forEach((each) => this.#parts.free(each));
    this.#kept.clear();
  }

  #callOff(flight: Flight): void {
    this.#flights.delete(flight);
    flight.stop.abort();
  }

  #work(): void {
    while (this.#wanted && !this.#resting && this.#flights.size < FLIGHTS) {
      const part = this.#nextPart(this.#wanted);
      if (part.length === 0) return;
      void this.#fly(this.#wanted, part);
    }
  }

  #nextPart({ name, frames }: Wanted): number[] {
    const kept = this.#kept.get(name);
    const flying = [...this.#flights].filter((each) => each.name === name);
    const missing = (frame: number) =>
      !kept?.has(frame) && !flying.some((each) => each.frames.has(frame));
    return frames.filter(missing).slice(0, AT_ONCE);
  }

  async #fly({ name, of, height }: Wanted, part: readonly number[]): Promise<void> {
    const flight = { name, frames: new Set(part), stop: new AbortController() };
    this.#flights.add(flight);
    const address = stripAddress(of, part, height);
    const found = await this.#parts
      .fetch(address, part.length, flight.stop.signal)
      .catch((): P[] => []);
    // What was called off meanwhile is still good, unless nobody is there any more.
    if (!this.#flights.delete(flight) && !this.#wanted) {
      found.forEach((picture) => this.#parts.free(picture));
      return;
    }
    if (found.length > 0) this.#put(name, part, found);
    else if (!flight.stop.signal.aborted) this.#rest();
    this.#work();
  }

  #put(name: string, frames: readonly number[], found: readonly P[]): void {
    const pictures = this.#take(name);
    found.forEach((picture, nth) => {
      const frame = frames[nth];
      if (frame !== undefined) pictures.set(frame, picture);
    });
    this.arrived += 1;
  }

  /** The film did not come: it is asked for again after a while. */
  #rest(): void {
    this.#resting = true;
    this.#parts.later(REST, () => {
      this.#resting = false;
      this.#work();
    });
  }

  /** A roll's pictures in use; those used longest ago are let go. */
  #take(name: string): Map<number, P> {
    const kept = this.#kept.get(name) ?? new Map<number, P>();
    this.#kept.delete(name);
    this.#kept.set(name, kept);
    for (const [oldest, old] of this.#kept) {
      if (this.#kept.size <= ROLLS_KEPT) break;
      old.forEach((picture) => this.#parts.free(picture));
      this.#kept.delete(oldest);
    }
    return kept;
  }
}

async function cutApart(address: string, count: number, signal: AbortSignal) {
  const answer = await fetch(address, { signal });
  const cells = cellsOf(answer.headers.get('x-onestrand-cells'));
  if (!answer.ok || !cells) return [];
  const strip = await createImageBitmap(await answer.blob());
  const cut = Array.from({ length: count }, (_, nth) => {
    const { x, y } = placeOfCell(cells, nth);
    return createImageBitmap(strip, x, y, cells.w, cells.h);
  });
  const pictures = await Promise.all(cut);
  strip.close();
  return pictures;
}

/** Hung pictures from the program. */
export function hungPicturesHere(): HungPictures {
  return new HungPictures<ImageBitmap>({
    fetch: cutApart,
    free: (picture) => picture.close(),
    later: (ms, act) => void setTimeout(act, ms),
  });
}
