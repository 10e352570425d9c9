// The bench of the film that lies open, asked for over the wire.
import { type Server, told } from '$lib/api/server';
import type { FilmChange, Kept } from '$lib/api/wire';
import { newKey } from '$lib/desk/change_queue';
import type { BenchDesk } from './bench_desk';
import type {
  BenchDocument,
  BenchSetUp,
  BenchWrite,
  Happened,
  Meaning,
  StripHistory,
} from './bench_types';

export class FilmBenchDesk implements BenchDesk {
  /** The newest revision that something written here has led to. */
  #own = 0;

  /**
   * @param kept hears what was kept.
   * @param lost hears that nobody answered.
   */
  constructor(
    readonly film: string,
    private readonly server: Server,
    private readonly kept: (kept: Kept) => void,
    private readonly lost: () => void,
  ) {}

  load(): Promise<BenchDocument> {
    return told(this.server.GET('/api/films/{film}/bench', { params: this.#params }));
  }

  async write(key: string, write: BenchWrite, revision: number): Promise<void> {
    await this.#change(key, { film_change: 'at_the_bench', ...write }, revision);
  }

  async setUp(bench: BenchSetUp, revision: number): Promise<void> {
    await this.#change(newKey(), { film_change: 'set_up_bench', bench }, revision);
  }

  async #change(key: string, change: FilmChange, revision: number): Promise<void> {
    const body = { key, revision: Math.max(revision, this.#own), change };
    const { server } = this;
    const asked = server.POST('/api/films/{film}/changes', { params: this.#params, body });
    const kept = await told(asked);
    this.#own = Math.max(this.#own, kept.revision);
    this.kept(kept);
  }

  meaning(lines: number, happened: readonly Happened[]): Promise<Meaning> {
    const body = { lines, happened: [...happened] };
    const { server } = this;
    return told(server.POST('/api/films/{film}/bench/meaning', { params: this.#params, body }));
  }

  history(roll: string, frame: number): Promise<StripHistory> {
    const params = { ...this.#params, query: { roll, frame } };
    return told(this.server.GET('/api/films/{film}/bench/history', { params }));
  }

  notReached(): void {
    this.lost();
  }

  get #params() {
    return { path: { film: this.film } };
  }
}
