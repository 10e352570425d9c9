// What the Dubbing room holds: the sound laid to one version, and where one is on the chart.
import { problemOf, Refused } from '$lib/api/server';
import type { CutChange, Problem } from '$lib/api/wire';
import { speedFrom } from '$lib/film/speed';
import { anchorAt, laidHere, movedTo, pieceAt } from './anchors';
import { ChartScale, USUAL_ZOOM } from './chart_scale';
import { framesOf } from './cue_length';
import { isAsked } from './cue_words';
import type { DubDesk } from './dub_desk';
import type {
  Column,
  ColumnWords,
  Cue,
  CueWords,
  Dub,
  DubChange,
  MixWords,
  PassWords,
  Sound,
  SoundWords,
} from './dub_types';
import { clampLevel } from './level_line';
import { blankColumn, blankCue, FIRST_COLUMNS } from './new_parts';

export type Card = 'cue' | 'sounds' | 'column' | 'mix' | 'record';

export class DubbingRoom {
  dub = $state.raw<Dub | null>(null);
  failed = $state.raw<Problem | null>(null);
  /** Why the last change was not kept. */
  refused = $state.raw<Problem | null>(null);
  /** Another window changed the same thing meanwhile. */
  overtaken = $state(false);
  /** The running frame under the reading rule. */
  at = $state(0);
  pxPerFoot = $state<number>(USUAL_ZOOM);
  /** Frames a foot of the film's gauge. */
  perFoot = $state(72);
  column = $state<number | null>(null);
  chosen = $state<number | null>(null);
  card = $state<Card>('sounds');
  /** The sound of the library whose form is open; it still is when one comes back. */
  openSound = $state<number | null>(null);
  /** A cue as the hand holds it; it is kept when the hand lets go. */
  held = $state.raw<{ id: number; cue: CueWords; at: number } | null>(null);
  /** Heard alone while one listens; the chart keeps none of it. */
  solo = $state<number | null>(null);

  private cut = '';
  private loading: Promise<void> | null = null;
  private wanted = 0;

  constructor(private readonly desk: DubDesk) {}

  readonly scale = $derived(new ChartScale(this.perFoot, this.pxPerFoot));
  readonly columns: readonly Column[] = $derived(this.dub?.columns ?? []);
  readonly sounds: readonly Sound[] = $derived(this.dub?.sounds ?? []);
  /** The cues as they are drawn: what the hand holds stands where it holds it. */
  readonly cues: readonly Cue[] = $derived.by(() => {
    const { held } = this;
    return (this.dub?.cues ?? []).map((one) =>
      held?.id === one.id ? { ...one, cue: held.cue, at: held.at } : one,
    );
  });
  readonly cue: Cue | null = $derived(this.cues.find((one) => one.id === this.chosen) ?? null);
  readonly inColumn: Column | null = $derived(
    this.columns.find((one) => one.id === this.column) ?? this.columns[0] ?? null,
  );
  /** The first frame of the chart: the leader lies before the picture. */
  readonly first: number = $derived(-(this.dub?.mix.leader ?? 0));
  readonly last: number = $derived(Math.max((this.dub?.frames ?? 1) - 1, 0));

  async load(cut = this.cut): Promise<void> {
    this.cut = cut;
    this.wanted += 1;
    this.loading ??= this.loadAll().finally(() => (this.loading = null));
    return this.loading;
  }

  private async loadAll(): Promise<void> {
    // What is on its way may be older than what was just kept.
    for (let had = 0; had < this.wanted; ) {
      had = this.wanted;
      try {
        this.dub = await this.desk.load(this.cut);
        this.failed = null;
        this.at = Math.min(Math.max(this.at, this.first), this.last);
      } catch (why) {
        this.failed = problemOf(why);
      }
    }
  }

  // Where one is.

  go(frame: number): void {
    this.at = Math.min(Math.max(Math.round(frame), this.first), this.last);
  }

  zoom(by: 1 | -1): void {
    this.pxPerFoot = this.scale.zoomed(by);
  }

  choose(id: number | null): void {
    this.chosen = id;
    const cue = this.cue;
    if (!cue) return;
    this.column = cue.cue.column;
    this.card = 'cue';
  }

  /** The neighbouring column; the cue that is chosen is let go of. */
  beside(by: 1 | -1): void {
    const at = this.columns.findIndex((one) => one.id === this.inColumn?.id);
    const to = this.columns[Math.min(Math.max(at + by, 0), this.columns.length - 1)];
    if (!to) return;
    this.column = to.id;
    if (this.cue?.cue.column !== to.id) this.chosen = null;
  }

  /** Goes to the next cue or question behind the one one is at; false at the end. */
  nextCue(): boolean {
    const from = this.cues.findIndex((one) => one.id === this.chosen);
    const next = from < 0 ? this.cues.find((one) => one.at >= this.at) : this.cues[from + 1];
    if (!next) return false;
    this.choose(next.id);
    this.go(next.at);
    return true;
  }

  // Changes.

  private ask(change: DubChange): Promise<boolean> {
    return this.asking((seen) => this.desk.change(change, seen));
  }

  /** The version itself is changed, as where picture and music are to come out together. */
  changeCut(change: CutChange): Promise<boolean> {
    const cut = this.dub?.cut ?? this.cut;
    return this.asking((seen) => this.desk.changeCut(cut, change, seen));
  }

  private async asking(act: (seen: number) => Promise<number>): Promise<boolean> {
    let done = true;
    try {
      await act(this.dub?.revision ?? 0);
      this.refused = null;
      this.overtaken = false;
    } catch (why) {
      this.overtaken = why instanceof Refused && why.stale;
      this.refused = problemOf(why);
      done = false;
    }
    await this.load();
    this.held = null;
    return done;
  }

  /** Something done beside a change, such as a sound brought in; false when refused. */
  async carriedOut(act: () => Promise<void>): Promise<boolean> {
    try {
      await act();
      this.refused = null;
      return true;
    } catch (why) {
      this.refused = problemOf(why);
      return false;
    }
  }

  /** What was refused is put away; the chart shows what is kept. */
  async putBack(): Promise<void> {
    this.refused = null;
    this.overtaken = false;
    this.held = null;
    await this.load();
  }

  async addColumn(name: string): Promise<boolean> {
    const before = new Set(this.columns.map((one) => one.id));
    const done = await this.ask({ to: { what: 'column', column: blankColumn(name) } });
    const added = this.columns.find((one) => !before.has(one.id));
    if (done && added) this.column = added.id;
    return done;
  }

  /** Rules the first chart: voice, atmosphere, effects, music. */
  async ruleChart(): Promise<void> {
    for (const name of FIRST_COLUMNS) if (!(await this.addColumn(name))) return;
    this.column = this.columns[0]?.id ?? null;
  }

  setColumn(id: number, patch: Partial<ColumnWords>): Promise<boolean> {
    const column = this.columns.find((one) => one.id === id)?.column;
    if (!column) return Promise.resolve(false);
    return this.ask({ id, to: { what: 'column', column: { ...column, ...patch } } });
  }

  /** A column changes places with its neighbour. */
  moveColumn(id: number, by: 1 | -1): Promise<boolean> {
    const at = this.columns.findIndex((one) => one.id === id);
    const to = at + by;
    if (at < 0 || to < 0 || to >= this.columns.length) return Promise.resolve(false);
    const after = by > 0 ? this.columns[to]?.id : (this.columns[to - 1]?.id ?? 0);
    return this.ask({ id, after: after ?? 0, to: { what: 'moved' } });
  }

  async remove(id: number): Promise<boolean> {
    const done = await this.ask({ id, to: { what: 'gone' } });
    if (done && this.chosen === id) this.choose(null);
    if (done && this.column === id) this.column = null;
    if (!this.cue && this.card === 'cue') this.card = 'sounds';
    return done;
  }

  /** A new cue under the rule: of a sound, or to be made by hand. It holds to the frame. */
  async addCue(
    sound: number | null = null,
    at = this.at,
    column = this.inColumn?.id,
    part: Partial<Pick<CueWords, 'from' | 'to'>> = {},
  ): Promise<boolean> {
    const { dub } = this;
    if (!dub || column === undefined) return false;
    const name = this.sounds.find((one) => one.id === sound)?.sound.name ?? '';
    const start = anchorAt(dub.pieces, at, 'frame');
    const words = { ...blankCue(column, start, sound), name, ...part };
    const before = new Set(dub.cues.map((one) => one.id));
    const cue = laidHere(words, dub, at, this.lengthOf(words, dub));
    if (!(await this.ask({ to: { what: 'cue', cue } }))) return false;
    const added = this.dub?.cues.find((one) => !before.has(one.id));
    if (added) this.choose(added.id);
    return true;
  }

  /** A cue as it is from now on. */
  putCue(id: number, cue: CueWords): Promise<boolean> {
    return this.ask({ id, to: { what: 'cue', cue } });
  }

  /** Cues that were worked out elsewhere, kept together: one step back undoes them all. */
  layCues(cues: Extract<DubChange['to'], { what: 'cues' }>['cues']): Promise<boolean> {
    return this.ask({ to: { what: 'cues', cues } });
  }

  /**
   * The chosen cue, changed in part. Where the user has made it longer or shorter, as by another
   * part of its sound, that is how it is laid: nothing has stretched it.
   */
  setCue(patch: Partial<CueWords>): Promise<boolean> {
    const { cue, dub } = this;
    if (!cue || !dub) return Promise.resolve(false);
    const words = { ...cue.cue, ...patch };
    if (cue.state === 'orphan') return this.putCue(cue.id, words);
    const ends = words.end ? (patch.frames ?? cue.frames) : this.lengthOf(words, dub);
    return this.putCue(cue.id, laidHere(words, dub, cue.at, ends));
  }

  /** How long a cue will be whose end holds to nothing. */
  private lengthOf(cue: CueWords, dub: Dub): number {
    return framesOf(cue, this.sounds, speedFrom(dub.speed));
  }

  /** The hand carries a cue to a running frame; nothing is kept yet. */
  carry(id: number, at: number): void {
    const cue = this.dub?.cues.find((one) => one.id === id);
    if (!cue || !this.dub) return;
    this.held = { id, at, cue: movedTo(cue.cue, cue.at, at, this.dub) };
  }

  /** The hand holds a cue whose level line or fades it changes. */
  hold(id: number, patch: Partial<CueWords>): void {
    const cue = this.cues.find((one) => one.id === id);
    if (cue) this.held = { id, at: cue.at, cue: { ...cue.cue, ...patch } };
  }

  /** The hand lets go. */
  async letGo(): Promise<boolean> {
    const { held, dub } = this;
    const cue = dub?.cues.find((one) => one.id === held?.id);
    if (!held || !dub || !cue) return false;
    const words = laidHere(held.cue, dub, held.at, cue.frames);
    return this.putCue(held.id, words);
  }

  /** The chosen cue so many frames on; back when negative. */
  async nudge(by: number): Promise<boolean> {
    const { cue } = this;
    if (!cue || cue.state === 'orphan') return false;
    this.carry(cue.id, Math.max(cue.at + by, this.first));
    this.go(cue.at + by);
    return this.letGo();
  }

  /** The chosen cue louder or softer. Unit: tenths of a decibel. */
  louder(by: number): Promise<boolean> {
    const { cue } = this;
    return cue ? this.setCue({ level: clampLevel(cue.cue.level + by) }) : Promise.resolve(false);
  }

  /** Cues without a place go where the best is proposed for each. One step back undoes them all. */
  takeProposals(cues: readonly Cue[]): Promise<boolean> {
    const { dub } = this;
    const moved = cues.flatMap(({ id, cue, frames, proposals: [best] }) =>
      best && dub
        ? [{ id, cue: laidHere({ ...cue, start: best.anchor, end: null }, dub, best.at, frames) }]
        : [],
    );
    if (moved.length === 0) return Promise.resolve(false);
    return this.ask({ to: { what: 'cues', cues: moved } });
  }

  /** They stay without a place, and nothing more is asked. */
  leaveOrphans(cues: readonly Cue[]): Promise<boolean> {
    const left = cues.map(({ id, cue }) => ({ id, cue: { ...cue, left: true } }));
    return this.ask({ to: { what: 'cues', cues: left } });
  }

  /** What the green button of the chart does: the first question is answered as proposed. */
  answerFirst(): boolean {
    const first = this.cues.find((one) => isAsked(one) && one.proposals.length > 0);
    if (!first) return false;
    const together = this.cues.filter(
      (one) => isAsked(one) && one.cue.column === first.cue.column && one.proposals.length > 0,
    );
    void this.takeProposals(together);
    return true;
  }

  /** A cue that lost its place is laid under the rule; it holds to the same kind of thing there. */
  layHere({ id, cue, frames }: Cue): Promise<boolean> {
    const { dub, at } = this;
    if (!dub) return Promise.resolve(false);
    const start = anchorAt(dub.pieces, at, cue.start.to);
    return this.putCue(id, laidHere({ ...cue, start, end: null }, dub, at, frames));
  }

  /** The end of the chosen cue holds to what is under the rule: it stretches with the picture. */
  async endHere(to: 'frame' | 'join'): Promise<boolean> {
    const { cue, dub, at } = this;
    if (!cue || !dub) return false;
    const piece = pieceAt(dub.pieces, at);
    const where = to === 'join' && piece ? piece.at : at;
    if (where <= cue.at) return false;
    const end = anchorAt(dub.pieces, where, to);
    return this.setCue({ end, frames: where - cue.at });
  }

  /** A name that no column has yet. */
  freeName(wanted: string): string {
    const taken = new Set(this.columns.map((one) => one.column.name));
    for (let nth = 1; ; nth += 1) {
      const name = nth === 1 ? wanted : `${wanted} ${nth}`;
      if (!taken.has(name)) return name;
    }
  }

  setSound(id: number, patch: Partial<SoundWords>): Promise<boolean> {
    const sound = this.sounds.find((one) => one.id === id)?.sound;
    if (!sound) return Promise.resolve(false);
    return this.ask({ id, to: { what: 'sound', sound: { ...sound, ...patch } } });
  }

  /** A pass in the log of the mix: a new one where none is named. */
  putPass(pass: PassWords, id?: number): Promise<boolean> {
    const named = id === undefined ? {} : { id };
    return this.ask({ ...named, to: { what: 'pass', pass } });
  }

  setMix(patch: Partial<MixWords>): Promise<boolean> {
    const { dub } = this;
    if (!dub) return Promise.resolve(false);
    return this.ask({ to: { what: 'mix', mix: { ...dub.mix, ...patch } } });
  }
}
