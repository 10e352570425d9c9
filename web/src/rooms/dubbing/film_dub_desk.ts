// The sound of the film that lies open, asked for over the wire.
import { NotReached, Refused, type Server, told } from '$lib/api/server';
import type { CutChange, Problem } from '$lib/api/wire';
import type { FilmDesk } from '$lib/desk/film_desk.svelte';
import { speedFrom } from '$lib/film/speed';
import { sampleOf, samplesOf } from '$lib/sound/sample_places';
import type { Heard } from '$lib/sound/sound_player';
import type { DubDesk, HeardAsked } from './dub_desk';
import type { Dub, DubChange, MixLoudness, Sound } from './dub_types';
import type { Peaks } from './wave';

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

  async changeCut(cut: string, change: CutChange, seen: number): Promise<number> {
    const kept = await this.desk.change(
      { film_change: 'change_cut', cut, cut_change: change },
      seen,
    );
    return kept.revision;
  }

  async heard(
    { dub, solo, through, first, count }: HeardAsked,
    signal: AbortSignal,
  ): Promise<Heard> {
    const speed = speedFrom(dub.speed);
    const query = new URLSearchParams({
      cut: dub.cut,
      first: String(sampleOf(first, speed)),
      count: String(samplesOf(first, count, speed)),
      // Another mix, another address: the browser may keep what it has heard.
      heard: dub.heard,
      ...(solo === null ? {} : { solo: String(solo) }),
      ...(through ? { through: 'true' } : {}),
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
    return { channels: 2, samples: new Float32Array(await answer.arrayBuffer()) };
  }

  loudness(cut: string): Promise<MixLoudness> {
    const params = { path: { film: this.desk.name }, query: { cut } };
    return told(this.server.GET('/api/films/{film}/dub/loudness', { params }));
  }

  async outline(sound: Sound): Promise<Peaks> {
    const params = {
      path: { film: this.desk.name, id: sound.id },
      query: { first: 0, count: Math.max(1, sound.milliseconds * 48), width: OUTLINE },
    };
    const answer = await told(
      this.server.GET('/api/films/{film}/sounds/{id}/peaks', { params, parseAs: 'arrayBuffer' }),
    );
    const bytes = new Int8Array(answer as unknown as ArrayBuffer);
    return Array.from({ length: bytes.length / 2 }, (_, nth) => {
      const [low, high] = [bytes[2 * nth] ?? 0, bytes[2 * nth + 1] ?? 0];
      return Math.max(Math.abs(low), Math.abs(high)) / 127;
    });
  }

  async bring(file: File): Promise<void> {
    const query = new URLSearchParams({ name: file.name });
    const path = `/api/films/${encodeURIComponent(this.desk.name)}/sounds?${query.toString()}`;
    const answer = await fetch(path, {
      method: 'POST',
      body: file,
      credentials: 'same-origin',
      headers: { 'content-type': 'application/octet-stream' },
    }).catch((why: unknown) => {
      throw new NotReached(why);
    });
    if (answer.ok) return;
    throw new Refused((await answer.json().catch(() => SILENT)) as Problem, answer.status);
  }
}

/** Columns of an outline: a march of a minute gets one for each half frame. */
const OUTLINE = 2048;

const SILENT: Problem = {
  code: 'page.not_heard',
  message: 'the mix cannot be heard',
  hint: 'the picture runs without it; look whether its sounds are all there',
  details: null,
};
