// Writing notes on frames: new ones, rewritten ones, and those taken away.
import { SvelteSet } from 'svelte/reactivity';
import { problemOf } from '$lib/api/server';
import type { FilmChange, FilmNote, Problem } from '$lib/api/wire';
import type { FilmDesk } from '$lib/desk/film_desk.svelte';
import { WhoWrites } from '$lib/writer/who_writes.svelte';
import { writerOf } from './side_by_side';

/** What is needed of the machine: a note stops it, and it runs on after. */
export interface Machine {
  /** The film frame that a note falls on, where there is one. */
  readonly frame: { readonly roll: string; readonly frame: number } | null;
  readonly runs: boolean;
  stop(): void;
  runOn(): void;
}

export class NoteHand {
  readonly who: WhoWrites;
  /** The words of a note that is being written. */
  words = $state('');
  writing = $state(false);
  /** The note that is being rewritten, and its words as they stand in the field. */
  rewriting = $state<number | null>(null);
  again = $state('');
  problem = $state.raw<Problem | null>(null);
  /** Writers whose notes are put aside here. */
  private readonly aside = new SvelteSet<string>();
  /** Whether the film ran when the note was begun: then it runs on behind it. */
  #ranOn = false;

  constructor(
    private readonly desk: Pick<FilmDesk, 'film' | 'change' | 'load'>,
    private readonly machine: Machine,
    who?: WhoWrites,
  ) {
    this.who = who ?? new WhoWrites();
  }

  /** Whether a writer's notes are shown. */
  shows(writer: string): boolean {
    return !this.aside.has(writer);
  }

  show(writer: string, shown: boolean): void {
    if (shown) this.aside.delete(writer);
    else this.aside.add(writer);
  }

  /** The notes of whoever is shown. */
  get shown(): readonly FilmNote[] {
    return (this.desk.film?.notes ?? []).filter((note) => this.shows(writerOf(note)));
  }

  /** Stops on the frame, so that a note falls on it. */
  begin(): void {
    if (this.writing) return;
    this.#ranOn = this.machine.runs;
    this.machine.stop();
    this.writing = true;
  }

  /** Keeps the note on the frame one stands on; what was typed stays if it is refused. */
  async keep(): Promise<boolean> {
    const at = this.machine.frame;
    const words = this.words.trim();
    if (!at || words === '') return false;
    const writer = this.who.signed();
    if (!(await this.ask({ film_change: 'write_note', ...at, words, writer }))) return false;
    this.words = '';
    this.show(writerOf({ writer }), true);
    this.end();
    return true;
  }

  /** The note is put away; what ran when it was begun runs on. */
  end(): void {
    this.writing = false;
    const runsOn = this.#ranOn && !this.machine.runs;
    this.#ranOn = false;
    if (runsOn) this.machine.runOn();
  }

  beginAgain(note: FilmNote): void {
    this.rewriting = note.id;
    this.again = note.words;
  }

  async keepAgain(note: FilmNote): Promise<boolean> {
    const words = this.again.trim();
    if (words === '') return false;
    const { id, roll, frame, writer } = note;
    const isNews = words !== note.words;
    if (
      isNews &&
      !(await this.ask({ film_change: 'write_note', id, roll, frame, words, writer }))
    ) {
      return false;
    }
    this.rewriting = null;
    return true;
  }

  async remove(id: number): Promise<void> {
    await this.ask({ film_change: 'remove_note', id });
  }

  private async ask(change: FilmChange): Promise<boolean> {
    try {
      await this.desk.change(change, this.desk.film?.revision ?? 0);
      await this.desk.load();
      this.problem = null;
      return true;
    } catch (why) {
      this.problem = problemOf(why);
      return false;
    }
  }
}
