// Changes on their way to the disk: one at a time, in order, each under a key of
// its own so that one whose answer was lost can be sent again and is carried out
// once.
import { NotReached } from '$lib/api/server';
import type { FilmChange, Kept } from '$lib/api/wire';

/**
 * What else changes on the screen with what is kept: it is called in the same
 * breath, so that both are drawn at once.
 */
export type WithIt = (kept: Kept) => void;

/** A change, or a step back or forth in the journal. */
export type Wish = { readonly withIt?: WithIt | undefined } & (
  | { readonly kind: 'change'; readonly change: FilmChange; readonly seen: number }
  | { readonly kind: 'undo' }
  | { readonly kind: 'redo' }
);

export interface Sent {
  readonly key: string;
  readonly wish: Wish;
  /** The newest revision this window knows of what the change touches. */
  readonly revision: number;
}

type Send = (sent: Sent) => Promise<Kept>;

interface Waiting {
  readonly key: string;
  readonly wish: Wish;
  readonly resolve: (kept: Kept) => void;
  readonly reject: (why: unknown) => void;
}

let counted = 0;

/** A key that no other window and no earlier run of the page has given. */
export function newKey(): string {
  counted += 1;
  const random = crypto.getRandomValues(new Uint32Array(4));
  return `${counted}-${[...random].map((n) => n.toString(36)).join('')}`;
}

export class ChangeQueue {
  private readonly waiting: Waiting[] = [];
  private busy = false;
  private held = false;
  /** The revisions that this window's own changes led to. */
  private readonly own = new Set<number>();

  /**
   * @param send sends one change and gives what is kept.
   * @param told hears how many changes wait whenever that changes.
   */
  constructor(
    private readonly send: Send,
    private readonly told: (waiting: number) => void = () => {},
  ) {}

  get length(): number {
    return this.waiting.length;
  }

  /** Asks for a change; settles when it is on the disk or refused. */
  ask(wish: Wish): Promise<Kept> {
    return new Promise((resolve, reject) => {
      this.waiting.push({ key: newKey(), wish, resolve, reject });
      this.told(this.waiting.length);
      void this.work();
    });
  }

  /** The program answers again: what waits is sent, under its old key. */
  goOn(): void {
    this.held = false;
    void this.work();
  }

  private async work(): Promise<void> {
    if (this.busy || this.held) return;
    this.busy = true;
    for (let next = this.waiting[0]; next && !this.held; next = this.waiting[0]) {
      await this.one(next);
    }
    this.busy = false;
  }

  private async one(next: Waiting): Promise<void> {
    const seen = next.wish.kind === 'change' ? next.wish.seen : 0;
    const revision = this.known(seen);
    try {
      const kept = await this.send({ key: next.key, wish: next.wish, revision });
      this.own.add(kept.revision);
      this.done();
      next.resolve(kept);
    } catch (why) {
      if (why instanceof NotReached) {
        // It waits, with its key, until the program is there again.
        this.held = true;
        return;
      }
      this.done();
      next.reject(why);
    }
  }

  /**
   * What this window has changed itself since it looked, it knows. Where another
   * window's change lies in between, it has not seen that one.
   */
  private known(seen: number): number {
    let revision = seen;
    while (this.own.has(revision + 1)) revision += 1;
    return revision;
  }

  private done(): void {
    this.waiting.shift();
    this.told(this.waiting.length);
  }
}
