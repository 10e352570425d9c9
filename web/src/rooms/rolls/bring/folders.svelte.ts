// The folders that scans may be brought from, and the one that is looked into.
import { problemOf, type Server, told } from '$lib/api/server';
import type { Folder, Places, Problem } from '$lib/api/wire';

export class Folders {
  places = $state.raw<Places | null>(null);
  folder = $state.raw<Folder | null>(null);
  problem = $state.raw<Problem | null>(null);

  readonly #server: Server;
  #asked = 0;

  constructor(server: Server) {
    this.#server = server;
  }

  /** Looks where one may look, and into the first chosen folder. */
  async open(): Promise<void> {
    await this.#try(async () => {
      this.places = await told(this.#server.GET('/api/places'));
      const first = this.places.chosen[0]?.path ?? this.places.home;
      if (first && !this.folder) await this.#look(first);
    });
  }

  /** Looks into a folder. */
  async look(path: string): Promise<void> {
    await this.#try(() => this.#look(path));
  }

  /** Scans may be brought from the folder that is looked into. */
  async choose(): Promise<void> {
    const path = this.folder?.path;
    if (!path) return;
    await this.#try(async () => {
      this.places = await told(this.#server.POST('/api/places', { body: { path } }));
      await this.#look(path);
    });
  }

  async #look(path: string): Promise<void> {
    const asked = (this.#asked += 1);
    const params = { query: { path } };
    const found = await told(this.#server.GET('/api/places/look', { params }));
    if (asked === this.#asked) this.folder = found;
  }

  async #try(act: () => Promise<void>): Promise<void> {
    this.problem = null;
    try {
      await act();
    } catch (why) {
      this.problem = problemOf(why);
    }
  }
}
