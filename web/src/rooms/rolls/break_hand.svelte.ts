// The hand on the breaks of a roll: which one is looked at, and what is decided.
import { problemOf } from '$lib/api/server';
import type { FilmChange, Kept, Problem } from '$lib/api/wire';
import { grouped } from '$lib/film/grouped';
import {
  changesOf,
  type FilmChanged,
  leftToLook,
  nearestChange,
  nextToLook,
} from './changes_of_roll';
import { changeSaid } from './reasons_of_change';
import type { RollsRoom } from './rolls.svelte';

export interface BreakHandParts {
  readonly room: RollsRoom;
  readonly desk: { change(change: FilmChange, seen: number): Promise<Kept> };
  readonly say: (words: string, about?: string) => void;
}

export class BreakHand {
  /** What was refused last. */
  problem = $state.raw<Problem | null>(null);
  /** Said when the walk has left a roll behind, or has come to its end. */
  came = $state.raw<string | null>(null);

  #held = $state<string | null>(null);
  readonly #parts: BreakHandParts;

  constructor(parts: BreakHandParts) {
    this.#parts = parts;
  }

  readonly changes: readonly FilmChanged[] = $derived.by(() => {
    const { log } = this.#parts.room;
    return log ? changesOf(log) : [];
  });

  /** The change that is looked at: the one taken up, else the nearest. */
  readonly held: FilmChanged | null = $derived.by(() => {
    const taken = this.changes.find((one) => `${this.#roll} ${one.key}` === this.#held);
    return taken ?? nearestChange(this.changes, this.#parts.room.frame);
  });

  /** How many breaks nobody has looked at. */
  readonly left: number = $derived.by(() => leftToLook(this.changes));

  get #roll(): string {
    return this.#parts.room.roll ?? '';
  }

  /** Takes a change up; one stands at its first frame. */
  take(change: FilmChanged): void {
    const { room, say } = this.#parts;
    this.problem = null;
    this.came = null;
    this.#held = `${this.#roll} ${change.key}`;
    room.goTo(change.at);
    say(changeSaid(this.#roll, change), 'frame');
  }

  /** The change before or after the frame one is at, looked at or not. */
  neighbour(side: 'before' | 'after'): void {
    const { frame } = this.#parts.room;
    const next =
      side === 'before'
        ? this.changes.filter((one) => one.at < frame).at(-1)
        : this.changes.find((one) => one.at > frame);
    if (next) this.take(next);
  }

  /**
   * The next break that nobody has looked at: on this roll, and when all of it have
   * been, on the rolls behind it and then on those before. Says where it leads, and
   * where there is none.
   */
  async nextToLook(): Promise<boolean> {
    const { room } = this.#parts;
    // Where breaks are not looked at yet, the first is the one at or behind the frame.
    const from = room.look === 'breaks' && this.held ? this.held.at : room.frame - 1;
    const next = nextToLook(this.changes, from);
    if (next) {
      this.take(next);
      return true;
    }
    return this.#onOtherRolls();
  }

  async #onOtherRolls(): Promise<boolean> {
    const { room, say } = this.#parts;
    const done = this.#roll;
    const names = room.heads.map((head) => head.roll);
    const here = names.indexOf(done);
    for (const roll of [...names.slice(here + 1), ...names.slice(0, Math.max(0, here))]) {
      const log = await room.logOf(roll);
      // Somebody has taken another roll up meanwhile: it is not taken away.
      if (this.#roll !== done) return false;
      const next = log ? nextToLook(changesOf(log), -1) : null;
      if (!next) continue;
      room.choose(roll);
      this.take(next);
      this.came = `Every break of ${done} has been looked at. This is ${roll}.`;
      say(`${this.came} ${changeSaid(roll, next)}`, 'frame');
      return true;
    }
    const all = names.length > 1 ? 'Every break of every roll' : `Every break of ${done}`;
    this.came = `${all} has been looked at.`;
    say(this.came);
    return false;
  }

  /** The break stands as it is, and the next one comes. */
  async letStand(): Promise<void> {
    const { held } = this;
    if (held?.state === 'stands' || held?.state === 'told') {
      await this.nextToLook();
      return;
    }
    if (!held?.take) return;
    const change = { film_change: 'let_break_stand', roll: this.#roll, frame: held.at } as const;
    if (await this.#change(change, `The break at ${grouped(held.at)} stands.`)) {
      await this.nextToLook();
    }
  }

  /** The take begins at the frame one is at, not where it did. */
  async moveHere(): Promise<void> {
    const { held } = this;
    const to = this.#parts.room.frame;
    if (!held?.take || held.at === to) return;
    const change = { film_change: 'move_break', roll: this.#roll, frame: held.at, to } as const;
    if (await this.#change(change, `The take begins at ${grouped(to)} now.`)) {
      this.#held = `${this.#roll} break ${to}`;
    }
  }

  /** No take begins there: the two on its sides become one. */
  async takeBack(): Promise<void> {
    const { held } = this;
    if (!held?.take) return;
    const { at } = held;
    const change = { film_change: 'mend_break', roll: this.#roll, frame: at } as const;
    await this.#change(change, `No take begins at ${grouped(at)}.`);
  }

  /** A take begins there after all. */
  async beginHere(): Promise<void> {
    const { held } = this;
    if (!held || !this.canBegin) return;
    const change = { film_change: 'break_at', roll: this.#roll, frame: held.at } as const;
    await this.#change(change, `A take begins at ${grouped(held.at)}.`);
  }

  /** Whether a take may begin at what is held: a break taken back, or a join in a take. */
  get canBegin(): boolean {
    const { held } = this;
    return held?.state === 'taken back' || (held !== null && held.found !== null && !held.take);
  }

  /** What may be moved to where one is; null where nothing may. */
  get canMove(): number | null {
    const { held } = this;
    const frame = this.#parts.room.frame;
    return held?.take && held.at !== frame ? frame : null;
  }

  async #change(change: FilmChange, said: string): Promise<boolean> {
    const { room, desk, say } = this.#parts;
    if (!room.log) return false;
    this.problem = null;
    this.came = null;
    try {
      await desk.change(change, room.log.revision);
      say(said);
      return true;
    } catch (why) {
      this.problem = problemOf(why);
      return false;
    }
  }
}
