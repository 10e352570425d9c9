// What the Screening room shows and what it does, apart from how it looks.
import { problemOf } from '$lib/api/server';
import type { Cut, Problem, RollLog } from '$lib/api/wire';
import type { FilmDesk } from '$lib/desk/film_desk.svelte';
import { speedFrom } from '$lib/film/speed';
import { Projection } from '$lib/play/projection.svelte';
import { planOfCut, planOfRoll } from './what_runs';

/** What is threaded. */
export type Threaded =
  | { readonly kind: 'cut'; readonly cut: string }
  | { readonly kind: 'roll'; readonly roll: string }
  | { readonly kind: 'nothing' };

export class ScreeningRoom {
  readonly projection: Projection;
  threaded = $state.raw<Threaded>({ kind: 'nothing' });
  problem = $state.raw<Problem | null>(null);
  /** The words of a note that is being written. */
  words = $state('');
  writing = $state(false);
  /** Whether the film ran when the note was begun: then it runs on behind it. */
  #ranOn = false;
  /** Whether a run has ended, so that its count is told. */
  ran = $state(false);

  constructor(readonly desk: FilmDesk) {
    const film = () => {
      if (!desk.film) throw new Error('a screening without a film');
      return desk.film;
    };
    this.projection = new Projection(desk.name, film, () => (this.ran = true));
  }

  get view() {
    return this.projection.view;
  }

  /** The version on the screen, once it has come. */
  get cut(): Cut | null {
    return this.threaded.kind === 'cut' ? (this.desk.cuts.get(this.threaded.cut) ?? null) : null;
  }

  /** The log of the roll on the screen, once it has come. */
  get log(): RollLog | null {
    return this.threaded.kind === 'roll' ? (this.desk.rolls.get(this.threaded.roll) ?? null) : null;
  }

  /** How fast what is threaded runs: a version at the film's speed, a roll at its own. */
  get speed(): string {
    return this.log?.film_speed ?? this.desk.film?.speed ?? '18';
  }

  /** Threads a version or a roll; it stands on its first frame, or where it is asked to. */
  async thread(what: Threaded, at = 0): Promise<void> {
    this.threaded = what;
    this.problem = null;
    this.ran = false;
    try {
      const known = what.kind === 'cut' && this.desk.cuts.has(what.cut);
      if (known) this.lay(at);
      if (what.kind === 'cut') await this.desk.loadCut(what.cut);
      if (what.kind === 'roll' && !this.desk.rolls.has(what.roll)) {
        await this.desk.loadRoll(what.roll);
      }
      // What was known has been run or stepped through meanwhile; where it has
      // changed, the room lays it anew where one stands.
      if (!known) this.lay(at);
    } catch (why) {
      this.problem = problemOf(why);
    }
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

  /** The film frame on the screen, where it is one. */
  get frame(): { roll: string; frame: number } | null {
    const plan = this.projection.projector.plan;
    // The view says when another plan was threaded.
    if (this.view.at >= this.view.length) return null;
    const showing = plan.showing(this.view.at);
    return showing.kind === 'picture' ? { roll: showing.roll, frame: showing.frame } : null;
  }

  /** Stops on the frame, so that a note falls on it. */
  beginNote(): void {
    if (this.writing) return;
    this.#ranOn = this.view.machine !== 'stopped';
    this.projection.projector.stop();
    this.writing = true;
  }

  /** Keeps the note on the frame one stands on; what was typed stays if it is refused. */
  async keepNote(): Promise<boolean> {
    const at = this.frame;
    const words = this.words.trim();
    if (!at || words === '') return false;
    const seen = this.desk.film?.revision ?? 0;
    try {
      await this.desk.change({ film_change: 'write_note', ...at, words, writer: '' }, seen);
      await this.desk.load();
      this.words = '';
      this.problem = null;
      this.endNote();
      return true;
    } catch (why) {
      this.problem = problemOf(why);
      return false;
    }
  }

  /** The note is put away; what ran when it was begun runs on. */
  endNote(): void {
    this.writing = false;
    const runsOn = this.#ranOn && this.view.machine === 'stopped';
    this.#ranOn = false;
    if (runsOn) this.projection.projector.runOrStop();
  }

  async removeNote(id: number): Promise<void> {
    const seen = this.desk.film?.revision ?? 0;
    try {
      await this.desk.change({ film_change: 'remove_note', id }, seen);
      await this.desk.load();
    } catch (why) {
      this.problem = problemOf(why);
    }
  }

  leave(): void {
    this.projection.close();
  }
}
