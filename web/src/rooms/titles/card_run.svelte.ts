// The card run in place, frame by frame, as its sheet exposes it.
import { RunClock } from '$lib/play/run_clock';
import type { Speed } from '$lib/film/speed';
import type { CardRun as Run, TitleWords } from './title_types';
import type { TitlesDesk } from './titles_desk';

/** The window's own time. */
export interface RunWindow {
  now(): number;
  /** Calls back when the screen is drawn next; gives back how to call it off. */
  next(act: (ms: number) => void): () => void;
}

const WINDOW: RunWindow = {
  now: () => performance.now(),
  next: (act) => {
    const request = requestAnimationFrame(act);
    return () => cancelAnimationFrame(request);
  },
};

/** Width of a picture that runs. Unit: px. */
const WIDE = 640;

/** The picture of a frame: its number, by the runs of frames that look alike. */
export function pictureAt(runs: readonly Run[], frame: number): number | null {
  let first = 0;
  for (const run of runs) {
    first += run.frames;
    if (frame < first) return run.picture;
  }
  return null;
}

export class CardRun {
  /** The frame that is looked at, from 0; null shows the card with all of its lettering. */
  at = $state<number | null>(null);
  running = $state(false);
  /** Pictures that came before it can run. */
  threading = $state.raw<{ done: number; all: number } | null>(null);
  /** The picture of the frame looked at; the one before stands while it comes. */
  picture = $state<string | null>(null);
  runs = $state.raw<readonly Run[]>([]);

  private title: TitleWords | null = null;
  private readonly pictures = new Map<number, string>();
  private stopNext: () => void = () => {};
  private going = new AbortController();
  private of = '';

  constructor(
    private readonly desk: TitlesDesk,
    private readonly window_: RunWindow = WINDOW,
  ) {}

  get frames(): number {
    return this.runs.reduce((sum, run) => sum + run.frames, 0);
  }

  /** Another card, or the same one exposed otherwise. */
  lay(title: TitleWords | null, runs: readonly Run[]): void {
    const of = JSON.stringify([title?.words, title?.lettering, title?.ground, title?.shooting]);
    const same = of === this.of && JSON.stringify(runs) === JSON.stringify(this.runs);
    this.title = title;
    if (same) return;
    this.of = of;
    this.runs = runs;
    this.empty();
    this.at = this.at === null || runs.length === 0 ? null : Math.min(this.at, this.frames - 1);
    if (this.at !== null) void this.show(this.at);
  }

  /** Steps from where it is; without a frame, from the first. */
  step(by: number): void {
    this.stop();
    this.go(this.at === null ? (by > 0 ? 0 : this.frames - 1) : this.at + by);
  }

  go(frame: number): void {
    if (this.frames === 0) return;
    this.at = Math.min(Math.max(frame, 0), this.frames - 1);
    void this.show(this.at);
  }

  /** Back to the card with all of its lettering. */
  whole(): void {
    this.stop();
    this.at = null;
    this.picture = null;
  }

  async run(speed: Speed): Promise<void> {
    if (this.running || this.threading || !this.title || this.frames === 0) return;
    if (!(await this.thread())) return;
    const from = this.at === null || this.at >= this.frames - 1 ? 0 : this.at;
    this.running = true;
    this.go(from);
    const clock = new RunClock(this.window_.now(), speed);
    const draw = (ms: number) => {
      const frame = from + clock.stepAt(ms);
      if (frame >= this.frames) {
        this.go(this.frames - 1);
        this.running = false;
        return;
      }
      if (frame !== this.at) this.go(frame);
      this.stopNext = this.window_.next(draw);
    };
    this.stopNext = this.window_.next(draw);
  }

  stop(): void {
    this.stopNext();
    this.running = false;
    if (!this.threading) return;
    this.threading = null;
    this.going.abort();
    this.going = new AbortController();
  }

  leave(): void {
    this.empty();
    this.title = null;
  }

  private empty(): void {
    this.stop();
    this.going.abort();
    this.going = new AbortController();
    for (const address of this.pictures.values()) this.desk.letGo(address);
    this.pictures.clear();
    this.picture = null;
  }

  /** Every picture there is, so that none is waited for while it runs. */
  private async thread(): Promise<boolean> {
    const { signal } = this.going;
    const all = [...new Set(this.runs.map((run) => run.picture))];
    this.threading = { done: 0, all: all.length };
    for (const [nth, picture] of all.entries()) {
      if (!this.pictures.has(picture)) await this.fetch(picture, signal);
      if (signal.aborted) return false;
      this.threading = { done: nth + 1, all: all.length };
    }
    this.threading = null;
    return true;
  }

  private async fetch(picture: number, signal: AbortSignal): Promise<void> {
    const { title } = this;
    if (!title) return;
    const drawn = await this.desk.drawn(title, WIDE, picture, signal).catch(() => null);
    if (!drawn) return;
    if (signal.aborted) this.desk.letGo(drawn);
    else this.pictures.set(picture, drawn);
  }

  private async show(frame: number): Promise<void> {
    const { signal } = this.going;
    const picture = pictureAt(this.runs, frame);
    if (picture === null) return;
    if (!this.pictures.has(picture)) await this.fetch(picture, signal);
    if (!signal.aborted && this.at === frame) this.picture = this.pictures.get(picture) ?? null;
  }
}
