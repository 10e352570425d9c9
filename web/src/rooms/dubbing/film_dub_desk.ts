// The sound of the film that lies open, asked for over the wire.
import { NotReached, Refused, type Server, told } from '$lib/api/server';
import type { Problem } from '$lib/api/wire';
import type { FilmDesk } from '$lib/desk/film_desk.svelte';
import { speedFrom } from '$lib/film/speed';
import { samplesOf } from '$lib/sound/sample_places';
import type { Heard } from '$lib/sound/sound_player';
import type { DubDesk, HeardAsked } from './dub_desk';
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

  async heard({ dub, solo, first, count }: HeardAsked, signal: AbortSignal): Promise<Heard> {
    const query = new URLSearchParams({
      cut: dub.cut,
      first: String(first),
      count: String(count),
      // Another mix, another address: the browser may keep what it has heard.
      heard: dub.heard,
      ...(solo === null ? {} : { solo: String(solo) }),
    });
    const path = `/api/films/${encodeURIComponent(this.desk.name)}/dub/heard?${query.toString()}`;
    const answer = await fetch(path, { signal, credentials: 'same-origin' }).catch(
      (why: unknown) => {
        if (signal.aborted) throw why;
        throw new NotReached(why);
      },
    );
    if (!answer.ok) {
      const problem = (await answer.json().catch(() => SILENT)) as Problem;
      throw new Refused(problem, answer.status);
    }
    const samples = new Float32Array(await answer.arrayBuffer());
    const one = samplesOf(first, count, speedFrom(dub.speed));
    return { channels: samples.length >= 2 * one ? 2 : 1, samples };
  }
}

const SILENT: Problem = {
  code: 'page.not_heard',
  message: 'the mix cannot be heard',
  hint: 'the picture runs without it; look whether its sounds are all there',
  details: null,
};
