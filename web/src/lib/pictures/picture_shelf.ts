// Small pictures in memory, for tables and hanging strips. A few are asked for
// at a time, what is seen first; what nobody wants any more is called off, and
// the pictures used longest ago make room for others.

/** What came of asking. */
export type Came<P> =
  | { readonly kind: 'picture'; readonly picture: P }
  /** No scan shows it. */
  | { readonly kind: 'none' }
  /** It could not be fetched; `askAgain` tries once more. */
  | { readonly kind: 'failed' };

/** How soon it is needed: in sight, about to be, or some time. */
export type Nearness = 'seen' | 'near' | 'far';

const NEARNESS: Record<Nearness, number> = { seen: 0, near: 1, far: 2 };

/** What the shelf needs from outside. */
export interface ShelfParts<P> {
  /** Fetches a picture; null says that there is none. */
  readonly load: (url: string, signal: AbortSignal) => Promise<P | null>;
  /** Frees a picture, where that is done by hand. */
  readonly free?: (picture: P) => void;
}

/** How the shelf works. */
export interface ShelfSettings {
  /** Requests at once. A browser opens six to one server; two are left for the player and changes. */
  readonly requests: number;
  /** Pictures kept. Those on loan are kept in any case. */
  readonly room: number;
}

/** The usual shelf: 600 pictures of 100 × 75 are 18 MB. */
export const SHELF: ShelfSettings = { requests: 4, room: 600 };

/** A picture that somebody shows. */
export interface Loan {
  /** It is needed sooner, or later. */
  move(nearness: Nearness): void;
  /** It is no longer shown. */
  giveBack(): void;
}

interface Borrower<P> {
  nearness: Nearness;
  readonly onCome: (came: Came<P>) => void;
}

/** One picture, from the first time it was asked for. */
interface Place<P> {
  readonly url: string;
  readonly borrowers: Set<Borrower<P>>;
  came: Came<P> | null;
  loading: AbortController | null;
  /** Still shown, though not true any more: freed when the new one has come. */
  outdated: P | null;
}

/** Pictures by address. */
export class PictureShelf<P> {
  readonly #parts: ShelfParts<P>;
  readonly #settings: ShelfSettings;
  // In the order of use, the longest ago first.
  readonly #places = new Map<string, Place<P>>();
  #loading = 0;

  constructor(parts: ShelfParts<P>, settings: Partial<ShelfSettings> = {}) {
    this.#parts = parts;
    this.#settings = { ...SHELF, ...settings };
  }

  /** What is there already, or null. */
  peek(url: string): Came<P> | null {
    return this.#places.get(url)?.came ?? null;
  }

  /**
   * Asks for a picture until it is given back. `onCome` is called when it is
   * there: at once, before this returns, where it is on the shelf.
   */
  ask(url: string, nearness: Nearness, onCome: (came: Came<P>) => void): Loan {
    const place = this.#take(url);
    const borrower: Borrower<P> = { nearness, onCome };
    place.borrowers.add(borrower);
    if (place.came && place.came.kind !== 'failed') onCome(place.came);
    else place.came = null;
    this.#work();
    return {
      move: (to) => {
        borrower.nearness = to;
        this.#work();
      },
      giveBack: () => this.#giveBack(place, borrower),
    };
  }

  /** The server is back: what failed and is still shown is asked for once more. */
  askAgain(): void {
    for (const place of this.#places.values()) {
      if (place.came?.kind === 'failed') place.came = null;
    }
    this.#work();
  }

  /** Pictures whose address begins so are not true any more; what is shown is fetched anew. */
  forget(beginning: string): void {
    for (const place of this.#places.values()) {
      if (!place.url.startsWith(beginning)) continue;
      this.#callOff(place);
      if (place.borrowers.size === 0) this.#free(place);
      else this.#outdate(place);
    }
    this.#work();
  }

  /** Pictures kept at present. */
  get size(): number {
    let kept = 0;
    for (const place of this.#places.values()) if (place.came?.kind === 'picture') kept += 1;
    return kept;
  }

  #take(url: string): Place<P> {
    const place = this.#places.get(url) ?? newPlace<P>(url);
    this.#places.delete(url);
    this.#places.set(url, place);
    return place;
  }

  #giveBack(place: Place<P>, borrower: Borrower<P>): void {
    place.borrowers.delete(borrower);
    if (place.borrowers.size > 0) return;
    if (place.came?.kind !== 'picture' && place.came?.kind !== 'none') {
      this.#callOff(place);
      this.#free(place);
    }
    this.#makeRoom();
    this.#work();
  }

  #callOff(place: Place<P>): void {
    if (!place.loading) return;
    place.loading.abort();
    place.loading = null;
    this.#loading -= 1;
  }

  #free(place: Place<P>): void {
    if (place.came?.kind === 'picture') this.#parts.free?.(place.came.picture);
    this.#freeOutdated(place);
    this.#places.delete(place.url);
  }

  #outdate(place: Place<P>): void {
    if (place.came?.kind === 'picture') {
      this.#freeOutdated(place);
      place.outdated = place.came.picture;
    }
    place.came = null;
  }

  #freeOutdated(place: Place<P>): void {
    if (place.outdated !== null) this.#parts.free?.(place.outdated);
    place.outdated = null;
  }

  /** Frees what was used longest ago and is not on loan. */
  #makeRoom(): void {
    let over = this.#places.size - this.#settings.room;
    for (const place of this.#places.values()) {
      if (over <= 0) return;
      if (place.borrowers.size > 0) continue;
      this.#free(place);
      over -= 1;
    }
  }

  #work(): void {
    while (this.#loading < this.#settings.requests) {
      const next = this.#nextPlace();
      if (!next) return;
      void this.#load(next);
    }
  }

  /** The nearest of those that wait; of several, the one asked for first. */
  #nextPlace(): Place<P> | null {
    let [best, bestNearness] = [null as Place<P> | null, Infinity];
    for (const place of this.#places.values()) {
      if (place.came || place.loading) continue;
      const nearness = nearnessOf(place);
      if (nearness < bestNearness) [best, bestNearness] = [place, nearness];
    }
    return best;
  }

  async #load(place: Place<P>): Promise<void> {
    const stop = new AbortController();
    place.loading = stop;
    this.#loading += 1;
    const came = await this.#parts.load(place.url, stop.signal).then(
      (picture): Came<P> => (picture === null ? { kind: 'none' } : { kind: 'picture', picture }),
      (): Came<P> => ({ kind: 'failed' }),
    );
    // One that was called off may come all the same, and is not wanted.
    if (place.loading !== stop) {
      if (came.kind === 'picture') this.#parts.free?.(came.picture);
      return;
    }
    place.loading = null;
    this.#loading -= 1;
    place.came = came;
    this.#makeRoom();
    for (const borrower of [...place.borrowers]) borrower.onCome(came);
    this.#freeOutdated(place);
    this.#work();
  }
}

function newPlace<P>(url: string): Place<P> {
  return { url, borrowers: new Set(), came: null, loading: null, outdated: null };
}

function nearnessOf<P>(place: Place<P>): number {
  let nearest = Infinity;
  for (const { nearness } of place.borrowers) nearest = Math.min(nearest, NEARNESS[nearness]);
  return nearest;
}
