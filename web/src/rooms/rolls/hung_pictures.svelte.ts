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

/** What is known of the pictures of one roll at one size. */
interface Kept {
  readonly pictures: Map<number, ImageBitmap>;
}

function nameOf(of: PicturesOf, height: number): string {
  return [of.film, of.roll, of.pictures, height].join('\n');
}

/** The pictures that hang in this window. */
export class HungPictures {
  /** Changes when pictures arrive. */
  arrived = $state(0);

  readonly #kept = new Map<string, Kept>();
  readonly #ask: typeof fetch;
  #stop: AbortController | null = null;

  constructor(ask: typeof fetch = (...request) => fetch(...request)) {
    this.#ask = ask;
  }

  /** The picture of a frame, or null while it is not there. */
  get(of: PicturesOf, height: number, frame: number): ImageBitmap | null {
    return this.#kept.get(nameOf(of, height))?.pictures.get(frame) ?? null;
  }

  /** Fetches what is missing of these frames, the first first; what was on its way for others is called off. */
  async want(of: PicturesOf, height: number, frames: readonly number[]): Promise<void> {
    this.#stop?.abort();
    const stop = new AbortController();
    this.#stop = stop;
    const kept = this.#take(nameOf(of, height));
    const missing = frames.filter((frame) => !kept.pictures.has(frame));
    for (let at = 0; at < missing.length && !stop.signal.aborted; at += AT_ONCE) {
      const part = missing.slice(at, at + AT_ONCE);
      const found = await this.#fetch(stripAddress(of, part, height), part.length, stop.signal);
      found.forEach((picture, nth) => {
        const frame = part[nth];
        if (frame !== undefined) kept.pictures.set(frame, picture);
      });
      if (found.length > 0) this.arrived += 1;
    }
  }

  /** Nothing more is asked for. */
  leave(): void {
    this.#stop?.abort();
  }

  async #fetch(address: string, count: number, signal: AbortSignal): Promise<ImageBitmap[]> {
    try {
      const answer = await this.#ask(address, { signal });
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
    } catch {
      // Called off, or the program is gone: the film hangs without pictures until asked again.
      return [];
    }
  }

  /** Takes a roll's pictures in use; those used longest ago are let go. */
  #take(name: string): Kept {
    const kept = this.#kept.get(name) ?? { pictures: new Map<number, ImageBitmap>() };
    this.#kept.delete(name);
    this.#kept.set(name, kept);
    for (const [oldest, old] of this.#kept) {
      if (this.#kept.size <= ROLLS_KEPT) break;
      old.pictures.forEach((picture) => picture.close());
      this.#kept.delete(oldest);
    }
    return kept;
  }
}
