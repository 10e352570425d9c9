// The archive box of a film: what is said of it, and the box made and looked at.
import { problemOf, type Server, told } from '$lib/api/server';
import type {
  Accession,
  AccessionWords,
  Job,
  Places,
  Problem,
  StatementWords,
} from '$lib/api/wire';
import type { FilmDesk } from '$lib/desk/film_desk.svelte';
import type { Jobs } from '$lib/desk/jobs.svelte';

/** How a statement can be known, as one says it. */
export const KNOWN: readonly { readonly value: string; readonly words: string }[] = [
  { value: 'maker', words: 'the maker says so' },
  { value: 'written', words: 'it is written' },
  { value: 'guess', words: 'guessed' },
  { value: 'not-known', words: 'not known' },
];

export class ArchiveBox {
  facts = $state.raw<Accession | null>(null);
  places = $state.raw<Places | null>(null);
  problem = $state.raw<Problem | null>(null);
  /** The statement that is being written. */
  what = $state('date');
  value = $state('');
  known = $state('maker');
  source = $state('');
  /** Where the film is kept. */
  number = $state('');
  keeper = $state('');
  kept = $state('');
  lookAgain = $state('');
  /** The box that is to be made. */
  folder = $state('');
  name = $state('');
  scans = $state(true);
  sheets = $state(true);
  mix = $state(true);
  /** The work that was begun last: a box made, or one looked at. */
  begun = $state<number | null>(null);

  constructor(
    private readonly server: Server,
    private readonly jobs: Jobs,
    private readonly desk: Pick<FilmDesk, 'film' | 'change' | 'name'>,
  ) {}

  get job(): Job | null {
    return this.jobs.all.find((one) => one.job === this.begun) ?? null;
  }

  /** What a kind of statement means. */
  meaning(what: string): string {
    return this.facts?.what.find((kind) => kind.what === what)?.words ?? what;
  }

  async open(): Promise<void> {
    if (this.name === '') this.name = `${this.desk.name}-box`;
    await this.try(async () => {
      await this.load();
      this.places = await told(this.server.GET('/api/places'));
      if (this.folder === '') this.folder = this.places.chosen[0]?.path ?? '';
    });
  }

  private async load(): Promise<void> {
    const path = { film: this.desk.name };
    this.facts = await told(this.server.GET('/api/films/{film}/accession', { params: { path } }));
    const words = this.facts.words;
    this.number = words.number ?? '';
    this.keeper = words.keeper ?? '';
    this.kept = words.kept ?? '';
    this.lookAgain = words.look_again ?? '';
  }

  /** Writes the statement down, with how it is known. */
  async say(): Promise<boolean> {
    const said: StatementWords = {
      what: this.what,
      value: this.known === 'not-known' ? '' : this.value.trim(),
      known: this.known,
      source: this.source.trim(),
    };
    const kept = await this.change((words) => [...words, said]);
    if (kept) [this.value, this.source] = ['', ''];
    return kept;
  }

  async unsay(at: number): Promise<boolean> {
    return this.change((words) => words.filter((_, nth) => nth !== at));
  }

  /** Keeps where the film is kept; nothing when nothing was changed. */
  async keep(): Promise<boolean> {
    const words = this.facts?.words;
    const now = [this.number, this.keeper, this.kept, this.lookAgain].map((text) => text.trim());
    const was = [words?.number, words?.keeper, words?.kept, words?.look_again];
    if (now.every((text, at) => text === (was[at] ?? ''))) return true;
    return this.change((all) => all);
  }

  private async change(
    how: (all: readonly StatementWords[]) => readonly StatementWords[],
  ): Promise<boolean> {
    const facts = this.facts;
    if (!facts) return false;
    const words: AccessionWords = {
      number: this.number.trim(),
      keeper: this.keeper.trim(),
      kept: this.kept.trim(),
      look_again: this.lookAgain.trim(),
      statements: [...how(facts.words.statements ?? [])],
    };
    return this.try(async () => {
      await this.desk.change({ film_change: 'say_accession', words }, facts.revision);
      await this.load();
    });
  }

  /** Begins to make the box. */
  async make(): Promise<boolean> {
    const newest = this.desk.film?.cuts.at(-1)?.cut;
    const body = {
      folder: this.folder,
      name: this.name.trim(),
      scans: this.scans,
      sheets: this.sheets,
      mixes: this.mix && newest ? [newest] : [],
    };
    return this.try(async () => {
      const path = { film: this.desk.name };
      const job = await told(this.server.POST('/api/films/{film}/box', { params: { path }, body }));
      this.hear(job);
    });
  }

  /** Holds the box of that name against its checksums. */
  async check(): Promise<boolean> {
    const place = `${this.folder.replace(/\/$/, '')}/${this.name.trim()}`;
    return this.try(async () => {
      this.hear(await told(this.server.POST('/api/boxes/check', { body: { place } })));
    });
  }

  async stop(): Promise<void> {
    if (this.begun !== null) await this.jobs.stop(this.begun);
  }

  private hear(job: Job): void {
    this.begun = job.job;
    this.jobs.hear({ event: 'job', job });
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
