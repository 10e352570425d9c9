// The script of the film that lies open, asked for over the wire.
import { type Server, told } from '$lib/api/server';
import type { FilmDesk } from '$lib/desk/film_desk.svelte';
import type { ScriptDesk } from './script_desk';
import type {
  Imported,
  InCamera,
  LinedTake,
  OneMore,
  Plan,
  Script,
  ScriptChange,
} from './script_types';

export class FilmScriptDesk implements ScriptDesk {
  /** The newest revision that something changed here has led to. */
  #own = 0;

  constructor(
    private readonly desk: FilmDesk,
    private readonly server: Server,
  ) {}

  load(): Promise<Script> {
    return told(this.server.GET('/api/films/{film}/script', { params: this.#params }));
  }

  plan(): Promise<Plan> {
    return told(this.server.GET('/api/films/{film}/plan', { params: this.#params }));
  }

  async oneMore(setup: string): Promise<OneMore | null> {
    const params = { ...this.#params, query: { one_more: setup } };
    const plan = await told(this.server.GET('/api/films/{film}/plan', { params }));
    return plan.one_more[0] ?? null;
  }

  async inCamera(): Promise<InCamera | null> {
    const params = { ...this.#params, query: { in_camera: true } };
    const plan = await told(this.server.GET('/api/films/{film}/plan', { params }));
    return plan.in_camera ?? null;
  }

  async change(change: ScriptChange, revision: number): Promise<void> {
    const seen = Math.max(revision, this.#own);
    const kept = await this.desk.change({ film_change: 'script', ...change }, seen);
    this.#own = Math.max(this.#own, kept.revision);
  }

  async circle(take: LinedTake): Promise<void> {
    const log = await this.desk.loadRoll(take.roll);
    const found = log.takes.find((one) => one.in === take.in);
    if (!found) return;
    const rating = found.rating === 'circled' ? 'none' : 'circled';
    const words = {
      setup: take.setup,
      take: take.take,
      rating,
      size: found.size ?? '',
      camera_move: found.camera_move ?? '',
      direction: found.direction ?? '',
      action: found.action ?? '',
      note: found.note ?? '',
    };
    const change = { film_change: 'name_take', roll: take.roll, in: take.in, words } as const;
    const kept = await this.desk.change(change, log.revision);
    this.#own = Math.max(this.#own, kept.revision);
  }

  bringIn(file: File): Promise<Imported> {
    const params = { ...this.#params, query: { name: file.name } };
    const asked = file.arrayBuffer().then((bytes) =>
      this.server.POST('/api/films/{film}/script/file', {
        params,
        body: bytes as unknown as string,
        bodySerializer: () => bytes,
        headers: { 'Content-Type': 'text/plain' },
      }),
    );
    return told(asked);
  }

  async keepPhotograph(file: File): Promise<string> {
    const bytes = await file.arrayBuffer();
    const asked = this.server.POST('/api/films/{film}/photographs', {
      params: this.#params,
      body: bytes as unknown as string,
      bodySerializer: () => bytes,
      headers: { 'Content-Type': 'application/octet-stream' },
    });
    return (await told(asked)).photograph;
  }

  get #params() {
    return { path: { film: this.desk.name } };
  }
}
