// The programme of the shelf: what is asked, kept at each change, and what comes of it.
import { problemOf, Refused, type Server, told } from '$lib/api/server';
import type { Problem, ProgrammeForm, ProgrammeRow, ShelfProgramme } from '$lib/api/wire';

/** A row with nothing said in it. */
function blank(what: string): ProgrammeRow {
  return {
    what,
    film: '',
    cut: '',
    title: '',
    maker: '',
    year: '',
    sound: '',
    speed: '',
    remark: '',
    minutes: what === 'interval' ? 15 : 0,
  };
}

export class ProgrammeDesk {
  now = $state.raw<ShelfProgramme | null>(null);
  form = $state<ProgrammeForm | null>(null);
  problem = $state.raw<Problem | null>(null);
  busy = $state(false);
  /** What was written into the ledgers last. */
  written = $state.raw<readonly string[]>([]);
  private before = $state.raw<readonly ProgrammeForm[]>([]);
  private again = false;

  constructor(private readonly server: Server) {}

  get canPutBack(): boolean {
    return this.before.length > 0;
  }

  async load(): Promise<void> {
    try {
      this.lay(await told(this.server.GET('/api/programme', {})));
      this.problem = null;
    } catch (why) {
      this.problem = problemOf(why);
    }
  }

  private lay(programme: ShelfProgramme): void {
    this.now = programme;
    this.form = structuredClone(programme.form);
  }

  addFilm(film: string): Promise<void> {
    this.form?.rows?.push({ ...blank('film'), film });
    return this.keep();
  }

  addInterval(): Promise<void> {
    this.form?.rows?.push(blank('interval'));
    return this.keep();
  }

  remove(at: number): Promise<void> {
    this.form?.rows?.splice(at, 1);
    return this.keep();
  }

  /** One place up or down. */
  move(at: number, by: -1 | 1): Promise<void> {
    const rows = this.form?.rows;
    const row = rows?.[at];
    if (!rows || !row || !rows[at + by]) return Promise.resolve();
    rows.splice(at, 1);
    rows.splice(at + by, 0, row);
    return this.keep();
  }

  /** Keeps what stands in the form; nothing when nothing was changed. */
  async keep(): Promise<void> {
    if (!this.form || !this.now) return;
    if (this.busy) {
      this.again = true;
      return;
    }
    const form = $state.snapshot(this.form);
    const was = this.now.form;
    if (JSON.stringify(form) === JSON.stringify(was)) return;
    if (await this.send(form)) this.before = [...this.before.slice(-19), was];
    if (this.again) {
      this.again = false;
      await this.keep();
    }
  }

  /** Puts back what was kept before the last change. */
  async putBack(): Promise<void> {
    const last = this.before.at(-1);
    if (!last || this.busy) return;
    this.form = structuredClone(last);
    if (await this.send(last)) this.before = this.before.slice(0, -1);
  }

  /** It was shown: a run is written into the ledger of every roll on its reels. */
  async shown(on: string, by: string): Promise<void> {
    const body = { key: crypto.randomUUID(), on, by };
    try {
      this.written = (await told(this.server.POST('/api/programme/shown', { body }))).written;
      this.problem = null;
    } catch (why) {
      this.problem = problemOf(why);
    }
  }

  private async send(form: ProgrammeForm): Promise<boolean> {
    this.busy = true;
    try {
      const body = { revision: this.now?.revision ?? 0, form };
      this.now = await told(this.server.PUT('/api/programme', { body }));
      this.problem = null;
      return true;
    } catch (why) {
      this.problem = problemOf(why);
      // Another window was first: what it kept is shown, and nothing is written over.
      if (why instanceof Refused && why.stale) {
        const refused = this.problem;
        await this.load();
        this.problem = refused;
        this.before = [];
      }
      return false;
    } finally {
      this.busy = false;
    }
  }
}
