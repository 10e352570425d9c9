// Pictures as they came, not yet decoded. They are small, so several hundred
// are kept: stepping back and a join run round and round ask for nothing twice.

import { frameName } from '$lib/film/frame_name';

/** The JPEGs last used, by frame. A frame without a picture is kept as null. */
export class JpegShelf {
  readonly #kept = new Map<string, Blob | null>();
  readonly #room: number;

  constructor(room: number) {
    this.#room = room;
  }

  /** The picture, null where the scan shows none, undefined where it was not fetched. */
  get(roll: string, frame: number): Blob | null | undefined {
    const key = frameName(roll, frame);
    const found = this.#kept.get(key);
    if (found !== undefined) {
      // Used last, thrown out last: a map keeps its order of entry.
      this.#kept.delete(key);
      this.#kept.set(key, found);
    }
    return found;
  }

  put(roll: string, frame: number, jpeg: Blob | null): void {
    const key = frameName(roll, frame);
    this.#kept.delete(key);
    this.#kept.set(key, jpeg);
    for (const oldest of this.#kept.keys()) {
      if (this.#kept.size <= this.#room) break;
      this.#kept.delete(oldest);
    }
  }

  /** A roll was read anew: its old pictures are not to be believed. */
  forget(roll: string): void {
    // The names of a roll's frames begin alike, and no other roll's do.
    for (const key of this.#kept.keys()) {
      if (key.startsWith(`${roll}·`)) this.#kept.delete(key);
    }
  }

  clear(): void {
    this.#kept.clear();
  }

  get size(): number {
    return this.#kept.size;
  }
}
