// What was done to an original on its way into the ledger, and entries struck off it.
import { problemOf } from '$lib/api/server';
import type { FilmChange, Problem } from '$lib/api/wire';
import type { FilmDesk } from '$lib/desk/film_desk.svelte';
import { today } from '$lib/words/days';
import type { HandlingKind } from '$lib/words/handled';
import { type Machine } from './runs';

export class RunLedger {
  roll = $state('');
  kind = $state<HandlingKind>('run');
  on = $state('');
  times = $state('1');
  through = $state<Machine>('projector');
  by = $state('');
  note = $state('');
  problem = $state.raw<Problem | null>(null);

  constructor(private readonly desk: Pick<FilmDesk, 'film' | 'change' | 'load'>) {}

  /** A fresh form: today, and whoever writes here. */
  begin(roll: string, by: string): void {
    this.roll = roll || (this.desk.film?.rolls[0]?.roll ?? '');
    this.on = today();
    this.by = by;
    this.note = '';
    this.times = '1';
    this.problem = null;
  }

  /** Writes it down; what was typed stays if it is refused. */
  async keep(): Promise<boolean> {
    const { roll, kind } = this;
    const [on, by, note] = [this.on.trim(), this.by.trim(), this.note.trim()];
    const through = kind === 'run' ? this.through : '';
    const times = Number(this.times.trim() || '1');
    if (!Number.isSafeInteger(times) || times < 1) {
      this.problem = {
        code: 'page.times',
        message: `“${this.times.trim()}” is no number of times`,
        hint: 'write a whole number, such as 1',
        details: null,
      };
      return false;
    }
    const kept = await this.ask({
      film_change: 'handle_roll',
      roll,
      kind,
      on,
      through,
      times,
      by,
      note,
    });
    if (kept) {
      this.note = '';
      this.times = '1';
    }
    return kept;
  }

  strike(roll: string, number: number): Promise<boolean> {
    return this.ask({ film_change: 'strike_run', roll, number });
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
