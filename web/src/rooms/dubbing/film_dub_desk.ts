// The sound of the film that lies open, asked for over the wire.
import { type Server, told } from '$lib/api/server';
import type { FilmDesk } from '$lib/desk/film_desk.svelte';
import type { DubDesk } from './dub_desk';
import type { Dub, DubChange } from './dub_types';

export class FilmDubDesk implements DubDesk {
  constructor(
    private readonly desk: FilmDesk,
    private readonly server: Server,
  ) {}

  load(cut: string): Promise<Dub> {
    const params = { path: { film: this.desk.name }, query: { cut } };
    return told(this.server.GET('/api/films/{film}/dub', { params }));
  }

  async change(change: DubChange, seen: number): Promise<number> {
    const kept = await this.desk.change({ film_change: 'dub', ...change }, seen);
    return kept.revision;
  }
}
