// The bench as a tablet asks for it, at its own door.
import { NotReached, type Server, told } from '$lib/api/server';
import type { BenchDesk } from './bench_desk';
import type { BenchDocument, BenchWrite, Happened, Meaning, StripHistory } from './bench_types';
import { isOutside } from './tablet_door';

export class TabletBenchDesk implements BenchDesk {
  /** The newest revision that something written here has led to. */
  #own = 0;

  /**
   * @param lost hears that nobody answered.
   * @param outside hears that this tablet is no longer let in.
   */
  constructor(
    readonly film: string,
    private readonly server: Server,
    private readonly lost: () => void,
    private readonly outside: () => void,
  ) {}

  load(): Promise<BenchDocument> {
    return this.#told(() => told(this.server.GET('/api/bench/tablet/bench')));
  }

  async write(key: string, write: BenchWrite, revision: number): Promise<void> {
    const body = { key, revision: Math.max(revision, this.#own), write };
    const kept = await this.#told(() =>
      told(this.server.POST('/api/bench/tablet/writes', { body })),
    );
    this.#own = Math.max(this.#own, kept.revision);
  }

  meaning(lines: number, happened: readonly Happened[]): Promise<Meaning> {
    const body = { lines, happened: [...happened] };
    return this.#told(() => told(this.server.POST('/api/bench/tablet/meaning', { body })));
  }

  history(): Promise<StripHistory> {
    return Promise.reject(new Error('a tablet does not ask for the life of a strip'));
  }

  notReached(): void {
    this.lost();
  }

  /**
   * A tablet that was sent away keeps what it has not sent, as one that reaches nobody
   * does: it is sent under its old key once the tablet is let in again.
   */
  async #told<T>(ask: () => Promise<T>): Promise<T> {
    try {
      return await ask();
    } catch (why) {
      if (!isOutside(why)) throw why;
      this.outside();
      throw new NotReached(why);
    }
  }
}
