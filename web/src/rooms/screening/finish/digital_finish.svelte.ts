// The digital finish of a version: what it is for, what goes into it, and the work itself.
import { problemOf, type Server, told } from '$lib/api/server';
import type { Job, Places, Problem } from '$lib/api/wire';
import type { FilmDesk } from '$lib/desk/film_desk.svelte';
import type { Jobs } from '$lib/desk/jobs.svelte';

/** What a finish is for, which decides how it is coded. */
export const PURPOSES = [
  { value: 'keeping', words: 'to keep', coded: 'FFV1 in Matroska: every picture to the last bit' },
  { value: 'showing', words: 'to show', coded: 'H.264 in MP4: small, plays anywhere' },
  { value: 'others', words: 'for others to work on', coded: 'ProRes in a MOV file' },
] as const;

export type Purpose = (typeof PURPOSES)[number]['value'];

/** Frames a second that files are asked for; an empty one is the film's own speed. */
export const RATES = ['', '24', '25', '30000/1001', '30'] as const;

export class DigitalFinish {
  places = $state.raw<Places | null>(null);
  problem = $state.raw<Problem | null>(null);
  cut = $state('');
  purpose = $state<Purpose>('showing');
  folder = $state('');
  name = $state('');
  rate = $state('');
  whole = $state(false);
  sound = $state(true);
  drawn = $state(true);
  light = $state(false);
  steady = $state(false);
  flicker = $state(false);
  list = $state(false);
  captions = $state(false);
  begun = $state<number | null>(null);

  constructor(
    private readonly server: Server,
    private readonly jobs: Jobs,
    private readonly desk: Pick<FilmDesk, 'film' | 'name'>,
  ) {}

  get job(): Job | null {
    const own = this.jobs.all.find((one) => one.job === this.begun);
    // One that another window began is shown as well.
    const other = this.jobs.all.find(
      (one) => one.kind === 'finish' && one.film === this.desk.name && one.state === 'running',
    );
    return own ?? other ?? null;
  }

  get runs(): boolean {
    return this.job?.state === 'running';
  }

  /** Steadied or evened pictures are never kept for good. */
  get isMaster(): boolean {
    return this.purpose === 'keeping';
  }

  /** Frames of the file that so many of the film make; null where the rate is too low. */
  fileFrames(frames: number, speed: string): number | null {
    const film = fraction(speed);
    const file = fraction(this.rate || speed);
    if (!film || !file) return null;
    const up = file[0] * film[1];
    const down = file[1] * film[0];
    return up < down ? null : Math.ceil((frames * up) / down);
  }

  async open(cut: string): Promise<void> {
    if (!this.runs) this.cut = cut;
    if (this.name === '') this.name = `${this.desk.name}-${cut}`;
    await this.try(async () => {
      this.places = await told(this.server.GET('/api/places'));
      if (this.folder === '') this.folder = this.places.chosen[0]?.path ?? '';
    });
  }

  async make(): Promise<boolean> {
    const body = {
      cut: this.cut,
      purpose: this.purpose,
      folder: this.folder,
      name: this.name.trim(),
      file_rate: this.rate || null,
      whole: this.whole,
      sound: this.sound,
      black_cards: !this.drawn,
      treat: {
        light: this.light,
        steady: this.steady && !this.isMaster,
        flicker: this.flicker && !this.isMaster,
      },
      list: this.list,
      captions: this.captions,
    };
    return this.try(async () => {
      const path = { film: this.desk.name };
      const job = await told(
        this.server.POST('/api/films/{film}/finish', { params: { path }, body }),
      );
      this.begun = job.job;
      this.jobs.hear({ event: 'job', job });
    });
  }

  async stop(): Promise<void> {
    const job = this.job;
    if (job) await this.jobs.stop(job.job);
  }

  private async try(act: () => Promise<void>): Promise<boolean> {
    try {
      await act();
      this.problem = null;
      return true;
    } catch (why) {
      this.problem = problemOf(why);
      return false;
    }
  }
}

/** A speed as a fraction of whole numbers. */
function fraction(text: string): readonly [number, number] | null {
  const found = /^(\d+)(?:\/(\d+))?$/.exec(text.trim());
  if (!found) return null;
  const [num, den] = [Number(found[1]), Number(found[2] ?? 1)];
  return num > 0 && den > 0 ? [num, den] : null;
}
