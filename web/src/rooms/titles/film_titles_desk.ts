// The titles of the film that lies open, asked for over the wire.
import { Refused, type Server, told } from '$lib/api/server';
import type { Problem } from '$lib/api/wire';
import type { FilmDesk } from '$lib/desk/film_desk.svelte';
import { formOf } from '../cutting/pieces';
import type { StandReckoned } from './stand_reckoned';
import type { Card, TitleChange, Titles, TitleWords } from './title_types';
import type { TitlesDesk } from './titles_desk';

const MOVED: Problem = {
  code: 'page.card_moved',
  message: 'no card stands there any more',
  hint: 'look at the version in Cutting',
  details: null,
};

export class FilmTitlesDesk implements TitlesDesk {
  constructor(
    private readonly desk: FilmDesk,
    private readonly server: Server,
  ) {}

  load(): Promise<Titles> {
    return told(this.server.GET('/api/films/{film}/titles', { params: this.params }));
  }

  card(title: TitleWords, signal?: AbortSignal): Promise<Card> {
    const asked = this.server.POST('/api/films/{film}/titles/card', {
      params: this.params,
      body: title,
      ...(signal ? { signal } : {}),
    });
    return told(asked);
  }

  async drawn(
    title: TitleWords,
    width: number,
    at: number | null,
    signal?: AbortSignal,
  ): Promise<string | null> {
    const asked = this.server.POST('/api/films/{film}/titles/drawn', {
      params: { ...this.params, query: { width, ...(at === null ? {} : { at }) } },
      body: title,
      parseAs: 'blob',
      ...(signal ? { signal } : {}),
    });
    return URL.createObjectURL(await told<Blob>(asked));
  }

  letGo(address: string): void {
    URL.revokeObjectURL(address);
  }

  stand(): Promise<StandReckoned | null> {
    return told(this.server.GET('/api/films/{film}/titles/stand', { params: this.params }));
  }

  async change(change: TitleChange, seen: number): Promise<number> {
    const kept = await this.desk.change({ film_change: 'titles', ...change }, seen);
    return kept.revision;
  }

  async keepFile(file: File): Promise<string> {
    const bytes = await file.arrayBuffer();
    const asked = this.server.POST('/api/films/{film}/titles/files', {
      params: this.params,
      body: bytes as unknown as string,
      bodySerializer: () => bytes,
      headers: { 'Content-Type': 'application/octet-stream' },
    });
    return (await told(asked)).name;
  }

  async letStand(cut: string, position: number, frames: number): Promise<void> {
    const version = await this.desk.loadCut(cut);
    const piece = version.pieces[position - 1];
    if (piece?.kind !== 'card') throw new Refused(MOVED, 409);
    const form = { ...formOf(piece), frames };
    await this.desk.changeCut(cut, { change: 'replace', at: position - 1, piece: form });
  }

  async layInto(cut: string, where: 'head' | 'tail', title: string, frames: number): Promise<void> {
    const version = await this.desk.loadCut(cut);
    const at = where === 'head' ? 0 : version.pieces.length;
    const piece = { kind: 'card' as const, frames, title };
    await this.desk.changeCut(cut, { change: 'insert', at, piece });
  }

  private get params() {
    return { path: { film: this.desk.name } };
  }
}
