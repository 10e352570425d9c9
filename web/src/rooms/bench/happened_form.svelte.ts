// "Something else happened", while it is being told.
import { NotReached, problemOf } from '$lib/api/server';
import type { Problem } from '$lib/api/wire';
import { parseFrameName } from '$lib/film/frame_name';
import type { BenchRoom } from './bench_room.svelte';
import type { BenchAct, BenchWrite, Happened, Meaning, OnTheBench } from './bench_types';
import type { Way } from './happened_ways';

/** What is typed rests so long before its meaning is asked for. Unit: milliseconds. */
export const TYPED = 200;

export const LAID = ['right', 'turned_over', 'end_for_end', 'end_over_end'] as const;
export type Laid = (typeof LAID)[number];

export class HappenedForm {
  way = $state<Way | null>(null);
  /** Frames that the blade was late; below 0, early. */
  late = $state(0);
  roll = $state('');
  /** First and last frame of what was torn or is let go; where a roll was wound to. */
  first = $state(0);
  last = $state(0);
  pin = $state<number | null>(null);
  join = $state('tape');
  laid = $state<Laid>('right');
  /** Which join was opened, counted along the reel from 0 at the head leader. */
  opened = $state(0);
  /** Which join inside a loose length came open, of those that there are. */
  inner = $state<number | null>(null);
  /** A frame of the length that was wound on a reel of outs, and that reel. */
  frame = $state('');
  reel = $state('outs 1');
  words = $state('');

  meaning = $state.raw<Meaning | null>(null);
  /** Why it cannot have happened. */
  cannot = $state.raw<Problem | null>(null);
  asking = $state(false);

  #asked = 0;
  /** The bench and the act that it is told of: those that were seen. */
  #lines = 0;
  #act = $state.raw<BenchAct | null>(null);

  constructor(
    readonly room: BenchRoom,
    private readonly later: (ms: number, act: () => void) => void = (ms, act) =>
      void setTimeout(act, ms),
  ) {}

  get act(): BenchAct | null {
    return this.#act;
  }

  get bench(): OnTheBench | null {
    return this.room.bench;
  }

  /** Begins anew, at the act that is next. */
  begin(): void {
    this.#act = this.room.next;
    this.#lines = this.room.shown?.lines ?? 0;
    this.way = null;
    this.words = '';
    this.room.refused = null;
    this.#forget();
  }

  /** Something of this kind happened. */
  choose(way: Way): void {
    const act = this.#act;
    this.way = way;
    this.late = 0;
    this.roll = act?.roll ?? act?.incoming?.roll ?? this.bench?.roll?.roll ?? this.rolls[0] ?? '';
    this.first = act?.frame ?? act?.incoming?.frame ?? act?.span?.in ?? 0;
    this.last = this.first;
    this.pin = null;
    this.join = act?.join ?? this.bench?.join ?? 'tape';
    this.laid = way === 'turned_over' || way === 'end_for_end' ? way : 'right';
    this.opened = Math.max(0, (this.bench?.joins.done ?? 1) - 1);
    this.inner = way === 'unjoined' && this.innerJoins.length === 1 ? 0 : null;
    this.frame = '';
    if (way === 'roll') this.roll = this.rolls.find((one) => one !== act?.roll) ?? '';
    this.changed();
  }

  get rolls(): readonly string[] {
    return this.bench?.rolls.map((one) => one.roll) ?? [];
  }

  /** Pins on which nothing hangs. */
  get freePins(): readonly number[] {
    return this.bench?.pins.filter((one) => !one.hangs).map((one) => one.pin) ?? [];
  }

  get innerJoins(): OnTheBench['inner_joins'] {
    return this.bench?.inner_joins ?? [];
  }

  /** What is to be written down; null while something is missing. */
  get happened(): Happened | null {
    const { roll, first, last } = this;
    const act = this.#act;
    switch (this.way) {
      case 'cut': {
        if (this.late === 0 || !act?.roll || typeof act.frame !== 'number') return null;
        return { happened: 'cut', roll: act.roll, before: act.frame + this.late };
      }
      case 'torn':
        return last < first ? null : { happened: 'torn', roll, in: first, out: last + 1 };
      case 'let_go':
        return last < first ? null : { happened: 'let_go', roll, in: first, out: last + 1 };
      case 'pin': {
        if (this.pin === null || !act?.span) return null;
        return { happened: 'hung', roll: act.span.roll, frame: act.span.in, pin: this.pin };
      }
      case 'roll':
        return roll === '' ? { happened: 'unmounted' } : { happened: 'mounted', roll };
      case 'wound':
        return first === act?.frame ? null : { happened: 'wound', roll, to: first };
      case 'turned_over':
      case 'end_for_end':
      case 'other_join':
        return this.#joined(act);
      case 'opened':
        return { happened: 'opened', join: this.opened };
      case 'unjoined': {
        const one = this.innerJoins[this.inner ?? -1];
        return one
          ? { happened: 'unjoined', roll: one.roll, frame: one.frame, join: one.join }
          : null;
      }
      case 'made_up': {
        const name = parseFrameName(this.frame);
        const reel = this.reel.trim();
        return name && reel ? { happened: 'made_up', ...name, reel } : null;
      }
      default:
        return null;
    }
  }

  #joined(act: BenchAct | null): Happened | null {
    if (!act || (this.laid === 'right' && this.join === act.join)) return null;
    return {
      happened: 'joined',
      roll: act.incoming?.roll ?? null,
      frame: act.incoming?.frame ?? null,
      position: act.incoming ? null : (act.position ?? null),
      join: this.join,
      laid: this.laid,
    };
  }

  /** What is written down with it. */
  get write(): BenchWrite | null {
    if (this.way === 'remark') {
      const words = this.words.trim();
      return words ? { bench: 'remark', words } : null;
    }
    const { happened } = this;
    return happened && { bench: 'happened', lines: this.#lines, happened: [happened] };
  }

  /** Nothing is written before what it means has been shown. */
  get canWrite(): boolean {
    if (!this.write || this.room.lostSince) return false;
    return this.way === 'remark' || (this.meaning !== null && !this.asking);
  }

  /** Something was chosen or typed: what it means is asked anew. */
  changed(): void {
    this.#forget();
    if (!this.happened) return;
    const nth = this.#asked;
    this.asking = true;
    this.later(TYPED, () => void this.#ask(nth));
  }

  /** Writes it down; true when it is kept. */
  async keep(): Promise<boolean> {
    const { write } = this;
    if (!write || !this.canWrite) return false;
    return this.room.write(write);
  }

  async #ask(nth: number): Promise<void> {
    const { happened } = this;
    if (nth !== this.#asked || !happened) return;
    try {
      const meaning = await this.room.desk.meaning(this.#lines, [happened]);
      if (nth === this.#asked) this.meaning = meaning;
    } catch (why) {
      if (nth !== this.#asked) return;
      this.cannot = problemOf(why);
      if (why instanceof NotReached) this.room.desk.notReached();
    }
    if (nth === this.#asked) this.asking = false;
  }

  #forget(): void {
    this.#asked += 1;
    this.meaning = null;
    this.cannot = null;
    this.asking = false;
  }
}
