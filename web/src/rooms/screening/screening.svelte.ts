// What the Screening room shows and what it does, apart from how it looks.
import { problemOf } from '$lib/api/server';
import type { Cut, Problem, RollLog } from '$lib/api/wire';
import type { FilmDesk } from '$lib/desk/film_desk.svelte';
import { speedFrom } from '$lib/film/speed';
import { Projection } from '$lib/play/projection.svelte';
import { overScars } from './draw_scar';
import { type Scar, scarsOf, scarWords } from './join_scars';
import { NoteHand } from './note_hand.svelte';
import { type NoteAt, notesOfCut, notesOfRoll } from './notes_of_cut';
import { planOfCut, planOfRoll } from './what_runs';

/** What is threaded. */
export type Threaded =
  | { readonly kind: 'cut'; readonly cut: string }
  | { readonly kind: 'roll'; readonly roll: string }
  | { readonly kind: 'nothing' };

export class ScreeningRoom {
  readonly projection: Projection;
  readonly hand: NoteHand;
  threaded = $state.raw<Threaded>({ kind: 'nothing' });
  problem = $state.raw<Problem | null>(null);
  /** Whether a run has ended, so that its count is told. */
  ran = $state(false);
  /** Film is on its way to the gate: a run asked for meanwhile waits for it. */
  private isThreading = false;
  /** Whether the lever was pulled before there was film to run. */
  waitsToRun = $state(false);
  /** The speed at which the finished strip runs, where it is shown as it will run. */
  stripSpeed = $state<string | null>(null);

  constructor(readonly desk: FilmDesk) {
    const film = () => {
      if (!desk.film) throw new Error('a screening without a film');
      return desk.film;
    };
    this.projection = new Projection(desk.name, film, () => (this.ran = true));
    this.hand = new NoteHand(desk, this);
  }

  get view() {
    return this.projection.view;
  }

  get runs(): boolean {
    return this.view.machine !== 'stopped';
  }

  stop(): void {
    this.waitsToRun = false;
    this.projection.projector.stop();
  }

  /** The lever: film that is not in the gate yet runs as soon as it is. */
  runOn(): void {
    if (this.isThreading) this.waitsToRun = !this.waitsToRun;
    else this.projection.projector.runOrStop();
  }

  /** The version on the screen, once it has come. */
  get cut(): Cut | null {
    return this.threaded.kind === 'cut' ? (this.desk.cuts.get(this.threaded.cut) ?? null) : null;
  }

  /** The log of the roll on the screen, once it has come. */
  get log(): RollLog | null {
    return this.threaded.kind === 'roll' ? (this.desk.rolls.get(this.threaded.roll) ?? null) : null;
  }

  /** Whether the finished strip is shown as it will run; a roll has not been cut. */
  get asStrip(): boolean {
    return this.stripSpeed !== null && this.threaded.kind === 'cut';
  }

  /** How fast what is threaded runs: a version at the film's speed or as it was measured, a roll at its own. */
  get speed(): string {
    if (this.asStrip && this.stripSpeed) return this.stripSpeed;
    return this.log?.film_speed ?? this.desk.film?.speed ?? '18';
  }

  /** Threads a version or a roll; it stands on its first frame, or where it is asked to. */
  async thread(what: Threaded, at = 0): Promise<void> {
    this.threaded = what;
    this.problem = null;
    this.ran = false;
    this.waitsToRun = false;
    try {
      const known = what.kind === 'cut' && this.desk.cuts.has(what.cut);
      this.isThreading = !known && what.kind !== 'nothing';
      if (known) this.lay(at);
      if (what.kind === 'cut') await this.desk.loadCut(what.cut);
      if (what.kind === 'roll' && !this.desk.rolls.has(what.roll)) {
        await this.desk.loadRoll(what.roll);
      }
      // Something else was asked for meanwhile: that has its own threading.
      if (this.threaded !== what) return;
      // What was known has been run or stepped through meanwhile; where it has
      // changed, the room lays it anew where one stands.
      if (!known) this.lay(at);
      this.isThreading = false;
      if (this.waitsToRun) this.projection.projector.run();
    } catch (why) {
      if (this.threaded !== what) return;
      this.isThreading = false;
      this.problem = problemOf(why);
    }
    this.waitsToRun = false;
  }

  /** Lays what is threaded anew, where the film has changed under it. */
  lay(at: number): void {
    const { threaded, desk } = this;
    if (threaded.kind === 'cut' && this.cut) {
      this.projection.projector.load(planOfCut(this.cut), at);
    } else if (threaded.kind === 'roll' && desk.film) {
      this.projection.projector.load(planOfRoll(desk.film, threaded.roll), at);
    }
    if (threaded.kind !== 'nothing') this.projection.projector.setSpeed(speedFrom(this.speed));
  }

  /** What the joins of the finished strip mark, by running frame. */
  readonly marks = $derived.by((): ReadonlyMap<number, readonly Scar[]> => {
    return this.asStrip && this.cut ? scarsOf(this.cut) : new Map<number, Scar[]>();
  });

  /** What marks the frame that stands on the screen, in words; empty where nothing does, and while it runs. */
  get marksHere(): string {
    if (this.runs) return '';
    const pieces = this.cut?.pieces.length ?? 0;
    const here = this.marks.get(this.view.at) ?? [];
    return here.map((scar) => scarWords(scar, pieces)).join(' ');
  }

  /** The marks of the joins are laid on the film, or taken off it. */
  layMarks(): void {
    const overs = new Map([...this.marks].map(([at, found]) => [at, overScars(found)]));
    this.projection.lay((running) => overs.get(running));
  }

  /** The film frame on the screen, where it is one. */
  get frame(): { roll: string; frame: number } | null {
    const plan = this.projection.projector.plan;
    // The view says when another plan was threaded.
    if (this.view.at >= this.view.length) return null;
    const showing = plan.showing(this.view.at);
    return showing.kind === 'picture' ? { roll: showing.roll, frame: showing.frame } : null;
  }

  /** The notes that fall on what is threaded, of whoever is shown. */
  get fallen(): readonly NoteAt[] {
    const { threaded, cut } = this;
    if (cut) return notesOfCut(cut, this.hand.shown);
    return threaded.kind === 'roll' ? notesOfRoll(threaded.roll, this.hand.shown) : [];
  }

  leave(): void {
    this.projection.close();
  }
}
