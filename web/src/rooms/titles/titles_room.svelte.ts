// What the Titles room holds: the titles as the program gives them, and the one being written.
import { problemOf, Refused } from '$lib/api/server';
import type { Problem } from '$lib/api/wire';
import { CardLook } from './card_look.svelte';
import { CardRun, type RunWindow } from './card_run.svelte';
import { blankTitle } from './blank_title';
import type { StandReckoned } from './stand_reckoned';
import type {
  Ground,
  Lettering,
  Shooting,
  StandWords,
  TitleKept,
  TitleKind,
  Titles,
  TitleWords,
} from './title_types';
import type { TitlesDesk } from './titles_desk';

/** What is typed is kept when the hand has rested so long. Unit: milliseconds. */
export const PAUSE = 900;

export type CardPanel = 'design' | 'letters' | 'ground';
export type SidePanel = 'sheet' | 'stand';

const same = (a: unknown, b: unknown) => JSON.stringify(a) === JSON.stringify(b);

export class TitlesRoom {
  titles = $state.raw<Titles | null>(null);
  failed = $state.raw<Problem | null>(null);
  /** Why the last change was not kept. */
  refused = $state.raw<Problem | null>(null);
  /** Another window has changed the title that is written here. */
  overtaken = $state(false);
  chosen = $state<number | null>(null);
  /** The chosen title as it is written; it may not be kept yet. */
  draft = $state.raw<TitleWords | null>(null);
  stand = $state.raw<StandReckoned | null>(null);
  standProblem = $state.raw<Problem | null>(null);

  panel = $state<CardPanel>('design');
  side = $state<SidePanel>('sheet');
  /** Which of the three frames are drawn over the card. */
  readonly frames = $state({ field: true, shown: true, safe: true });

  readonly look: CardLook;
  readonly run: CardRun;

  /** The title as it stood when one began to write, and at which revision that was. */
  private base: TitleWords | null = null;
  private seen = 0;
  private resting: ReturnType<typeof setTimeout> | null = null;
  private keeping: Promise<boolean> | null = null;
  private loading: Promise<void> | null = null;
  private wanted = 0;

  constructor(
    private readonly desk: TitlesDesk,
    window_?: RunWindow,
  ) {
    this.look = new CardLook(desk);
    this.run = new CardRun(desk, window_);
  }

  readonly isEmpty = $derived(this.titles !== null && this.titles.titles.length === 0);
  readonly place: number = $derived(
    this.titles?.titles.findIndex((one) => one.id === this.chosen) ?? -1,
  );
  /** The chosen title as it is kept. */
  readonly kept: TitleKept | null = $derived(this.titles?.titles[this.place] ?? null);

  /** Asks for the titles anew; what is on its way may be older than what was just kept. */
  async load(): Promise<void> {
    this.wanted += 1;
    this.loading ??= this.loadAll().finally(() => (this.loading = null));
    return this.loading;
  }

  private async loadAll(): Promise<void> {
    for (let had = 0; had < this.wanted; ) {
      had = this.wanted;
      try {
        this.adopt(await this.desk.load());
        this.failed = null;
      } catch (why) {
        this.failed = problemOf(why);
      }
    }
  }

  private adopt(titles: Titles): void {
    const stand = this.titles?.stand;
    const place = this.place;
    this.titles = titles;
    if (!same(stand, titles.stand)) {
      this.look.forget();
      void this.reckonStand();
    }
    if (!this.kept) {
      // It is gone: the one that stands in its place now.
      const next = titles.titles[Math.min(Math.max(place, 0), titles.titles.length - 1)];
      this.take(next ?? null);
    } else if (!this.isWritten) this.take(this.kept);
    else this.lookAgain();
  }

  /** Whether something is written that is not kept yet. */
  get isWritten(): boolean {
    return this.draft !== null && !same(this.draft, this.base);
  }

  private take(title: TitleKept | null): void {
    const another = title?.id !== this.chosen;
    const changed = another || !same(title?.title ?? null, this.draft);
    this.chosen = title?.id ?? null;
    this.draft = title?.title ?? null;
    this.base = this.draft;
    this.seen = this.titles?.revision ?? 0;
    if (another) this.run.whole();
    if (changed) this.look.at(this.draft, 'at once');
    else this.lookAgain();
  }

  private lookAgain(): void {
    this.look.at(this.draft, 'at once');
  }

  private async reckonStand(): Promise<void> {
    try {
      this.stand = await this.desk.stand();
      this.standProblem = null;
    } catch (why) {
      this.stand = null;
      this.standProblem = problemOf(why);
    }
  }

  // Writing.

  /** Typed: kept when the hand rests. */
  write(patch: Partial<TitleWords>): void {
    if (!this.draft) return;
    this.draft = { ...this.draft, ...patch };
    this.look.at(this.draft);
    if (this.resting) clearTimeout(this.resting);
    if (!this.overtaken) this.resting = setTimeout(() => void this.keep(), PAUSE);
  }

  /** Chosen by a press: kept at once. */
  async put(patch: Partial<TitleWords>): Promise<boolean> {
    this.write(patch);
    return this.keep();
  }

  letter(patch: Partial<Lettering>): Promise<boolean> {
    const { draft } = this;
    return draft ? this.put({ lettering: { ...draft.lettering, ...patch } }) : refusedNow();
  }

  ground(patch: Partial<Ground>): Promise<boolean> {
    const { draft } = this;
    return draft ? this.put({ ground: { ...draft.ground, ...patch } }) : refusedNow();
  }

  shoot(patch: Partial<Shooting>): Promise<boolean> {
    const { draft } = this;
    return draft ? this.put({ shooting: { ...draft.shooting, ...patch } }) : refusedNow();
  }

  /** Keeps what is written; true when nothing is left to be kept. */
  async keep(): Promise<boolean> {
    if (this.resting) clearTimeout(this.resting);
    this.resting = null;
    while (this.keeping) await this.keeping;
    const { draft, chosen } = this;
    if (!draft || chosen === null || !this.isWritten || this.overtaken) return !this.overtaken;
    this.keeping = this.send(chosen, draft).finally(() => (this.keeping = null));
    return this.keeping;
  }

  private async send(id: number, title: TitleWords): Promise<boolean> {
    try {
      const revision = await this.desk.change({ id, to: { what: 'title', title } }, this.seen);
      this.refused = null;
      this.base = title;
      this.seen = revision;
    } catch (why) {
      this.overtaken = why instanceof Refused && why.stale;
      this.refused = problemOf(why);
      return false;
    }
    await this.load();
    return true;
  }

  /** Two windows wrote the same title: this one's words stand. */
  async keepMine(): Promise<void> {
    this.overtaken = false;
    await this.load();
    this.seen = this.titles?.revision ?? this.seen;
    await this.keep();
  }

  /** What the other window wrote stands, or what was there before a refusal. */
  async putBack(): Promise<void> {
    this.overtaken = false;
    this.refused = null;
    this.draft = this.base;
    await this.load();
    this.take(this.kept);
  }

  // The list.

  /** Chooses another title, when what is written is kept. */
  async choose(id: number): Promise<void> {
    if (id === this.chosen || !(await this.keep())) return;
    const title = this.titles?.titles.find((one) => one.id === id);
    if (title) this.take(title);
  }

  async step(by: number): Promise<void> {
    const all = this.titles?.titles ?? [];
    const to = all[Math.min(Math.max(this.place + by, 0), all.length - 1)];
    if (to) await this.choose(to.id);
  }

  /** Goes to the next title of which something is asked. */
  nextQuestion(): boolean {
    const all = this.titles?.titles ?? [];
    const next = all.slice(this.place + 1).find((one) => one.problems.length > 0);
    if (!next) return false;
    void this.choose(next.id);
    return true;
  }

  /** A new title behind the chosen one. */
  async add(words: Partial<TitleWords> = {}, kind: TitleKind = 'intertitle'): Promise<boolean> {
    if (!(await this.keep())) return false;
    const before = new Set(this.titles?.titles.map((one) => one.id));
    const lettering = this.draft?.lettering ?? blankTitle().lettering;
    const title = { ...blankTitle(), lettering, kind, ...words };
    // The name of the film stands first, its end last; others behind the chosen one.
    const after = kind === 'main' ? 0 : kind === 'end' ? null : this.chosen;
    if (!(await this.ask({ id: null, after, to: { what: 'title', title } }))) return false;
    const added = this.titles?.titles.find((one) => !before.has(one.id));
    if (added) this.take(added);
    return true;
  }

  async remove(): Promise<void> {
    if (this.chosen === null) return;
    if (this.resting) clearTimeout(this.resting);
    this.draft = this.base;
    await this.ask({ id: this.chosen, to: { what: 'gone' } });
  }

  /** The chosen title changes places with its neighbour. */
  async move(by: -1 | 1): Promise<boolean> {
    const all = this.titles?.titles ?? [];
    const to = this.place + by;
    if (this.place < 0 || to < 0 || to >= all.length) return false;
    return this.moveBehind(by > 0 ? (all[to]?.id ?? 0) : (all[to - 1]?.id ?? 0));
  }

  /** The chosen title stands behind another; 0 before all. */
  async moveBehind(after: number): Promise<boolean> {
    if (this.chosen === null || after === this.chosen || !(await this.keep())) return false;
    return this.ask({ id: this.chosen, after, to: { what: 'moved' } });
  }

  /** The copy stand and the hall. */
  async setStand(patch: Partial<StandWords>): Promise<boolean> {
    const { titles } = this;
    if (!titles || !(await this.keep())) return false;
    const stand = { ...titles.stand, ...patch };
    if (same(stand, titles.stand)) return true;
    return this.ask({ to: { what: 'stand', stand } });
  }

  private async ask(change: Parameters<TitlesDesk['change']>[0]): Promise<boolean> {
    return this.tell(async () => {
      this.seen = await this.desk.change(change, this.titles?.revision ?? 0);
    });
  }

  /** Keeps a file with the film; its name there. */
  async keepFile(file: File): Promise<string | null> {
    try {
      const name = await this.desk.keepFile(file);
      this.refused = null;
      return name;
    } catch (why) {
      this.refused = problemOf(why);
      return null;
    }
  }

  // In the cut.

  /** The card in a version stands as long as the sheet exposes. */
  async agree(cut: string, position: number): Promise<boolean> {
    if (!(await this.keep()) || !this.kept) return false;
    const { whole } = this.kept;
    return this.tell(() => this.desk.letStand(cut, position, whole));
  }

  /** Lays the title into a version as a card to shoot: the film's end behind all, others before. */
  async layInto(cut: string): Promise<boolean> {
    if (!(await this.keep()) || !this.kept) return false;
    const { title, whole } = this.kept;
    const where = title.kind === 'main' ? 'head' : 'tail';
    return this.tell(() => this.desk.layInto(cut, where, title.name, whole));
  }

  private async tell(act: () => Promise<void>): Promise<boolean> {
    let done = true;
    try {
      await act();
      this.refused = null;
    } catch (why) {
      this.refused = problemOf(why);
      done = false;
    }
    await this.load();
    return done;
  }

  leave(): void {
    void this.keep();
    this.look.leave();
    this.run.leave();
  }
}

const refusedNow = () => Promise.resolve(false);
