// What is written at the bench and not answered yet: kept in the browser under a
// key of its own, so that a tablet that fell asleep or a page that was closed sends
// it again, and it is written down once.
import { NotReached } from '$lib/api/server';
import { newKey } from '$lib/desk/change_queue';
import type { BenchWrite } from './bench_types';

export interface WaitingWrite {
  readonly key: string;
  readonly write: BenchWrite;
}

/** What is asked of the place where it is kept. */
export type Store = Pick<Storage, 'getItem' | 'setItem' | 'removeItem'>;

interface Asked {
  readonly resolve: () => void;
  readonly reject: (why: unknown) => void;
}

function isWaiting(found: unknown): found is WaitingWrite {
  return typeof found === 'object' && found !== null && 'key' in found && 'write' in found;
}

export class KeptWrites {
  #waiting: readonly WaitingWrite[];
  #busy = false;
  #held = false;
  readonly #asked = new Map<string, Asked>();
  readonly #place: string;

  /**
   * @param send sends one under its key; it settles when the bench shows what came of it.
   * @param told hears what waits whenever that changes.
   * @param refused hears why one was refused that nobody waits for any more.
   */
  constructor(
    film: string,
    private readonly send: (waiting: WaitingWrite) => Promise<void>,
    private readonly told: (waiting: readonly WaitingWrite[], held: boolean) => void,
    private readonly refused: (why: unknown) => void,
    private readonly store: Store = localStorage,
  ) {
    this.#place = `onestrand.bench.${film}`;
    this.#waiting = this.#read();
  }

  get waiting(): readonly WaitingWrite[] {
    return this.#waiting;
  }

  /** Settles when it is written down, or refused. */
  ask(write: BenchWrite): Promise<void> {
    const key = newKey();
    return new Promise((resolve, reject) => {
      this.#asked.set(key, { resolve, reject });
      this.#put([...this.#waiting, { key, write }]);
      void this.#work();
    });
  }

  /** The program answers again: what waits is sent under its old key. */
  goOn(): void {
    this.#held = false;
    this.told(this.#waiting, false);
    void this.#work();
  }

  async #work(): Promise<void> {
    if (this.#busy || this.#held) return;
    this.#busy = true;
    for (let next = this.#waiting[0]; next && !this.#held; next = this.#waiting[0]) {
      await this.#one(next);
    }
    this.#busy = false;
  }

  async #one(next: WaitingWrite): Promise<void> {
    const asked = this.#asked.get(next.key);
    try {
      await this.send(next);
      this.#done(next.key);
      asked?.resolve();
    } catch (why) {
      if (why instanceof NotReached) {
        this.#held = true;
        this.told(this.#waiting, true);
        return;
      }
      // What was ticked after it was ticked on a bench that is not so.
      const after = this.#waiting.slice(1);
      this.#put([]);
      for (const { key } of [next, ...after]) {
        this.#asked.get(key)?.reject(why);
        this.#asked.delete(key);
      }
      if (!asked) this.refused(why);
    }
  }

  #done(key: string): void {
    this.#asked.delete(key);
    this.#put(this.#waiting.filter((one) => one.key !== key));
  }

  #put(waiting: readonly WaitingWrite[]): void {
    this.#waiting = waiting;
    if (waiting.length === 0) this.store.removeItem(this.#place);
    else this.store.setItem(this.#place, JSON.stringify(waiting));
    this.told(waiting, this.#held);
  }

  #read(): readonly WaitingWrite[] {
    try {
      const found: unknown = JSON.parse(this.store.getItem(this.#place) ?? '[]');
      return Array.isArray(found) ? found.filter(isWaiting) : [];
    } catch {
      return [];
    }
  }
}
