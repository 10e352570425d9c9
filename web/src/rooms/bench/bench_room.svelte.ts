// What the bench shows and what is done at it, apart from how it looks.
import { NotReached, problemOf } from '$lib/api/server';
import type { Problem } from '$lib/api/wire';
import type { BenchDesk } from './bench_desk';
import type {
  BenchAct,
  BenchDocument,
  BenchLine,
  BenchSetUp,
  BenchWrite,
  OnTheBench,
} from './bench_types';
import { foreseen } from './foreseen';
import { KeptWrites, type Store, type WaitingWrite } from './kept_writes';

/**
 * After a tick the button rests so long: a trembling hand or a glove that touches
 * twice makes one tick. Unit: milliseconds.
 */
export const REST = 500;

/** Time as the room needs it. */
export interface Waits {
  readonly now: () => Date;
  readonly later: (ms: number, act: () => void) => void;
}

const CLOCK: Waits = {
  now: () => new Date(),
  later: (ms, act) => void setTimeout(act, ms),
};

/** What is looked at: an act to come, or a line of what was done. */
export type LookedAt =
  | { readonly kind: 'act'; readonly act: BenchAct; readonly ahead: number }
  | { readonly kind: 'line'; readonly line: BenchLine; readonly back: number }
  | { readonly kind: 'nothing' };

export class BenchRoom {
  /** The bench as the program has it. */
  kept = $state.raw<BenchDocument | null>(null);
  /** Why it cannot be shown. */
  failed = $state.raw<Problem | null>(null);
  /** Why the last thing written was refused. */
  refused = $state.raw<Problem | null>(null);
  waiting = $state.raw<readonly WaitingWrite[]>([]);
  /** Since when the program does not answer; null while it does. */
  lostSince = $state.raw<Date | null>(null);
  /** How far one looks ahead of the next act; below 0, back over what was done. */
  ahead = $state(0);
  /** Whether the button rests after a tick. */
  resting = $state(false);

  readonly #writes: KeptWrites;

  constructor(
    readonly desk: BenchDesk,
    private readonly clock: Waits = CLOCK,
    store?: Store,
  ) {
    this.#writes = new KeptWrites(
      desk.film,
      (one) => this.#send(one),
      (waiting, held) => {
        this.waiting = waiting;
        this.lostSince = held ? (this.lostSince ?? this.clock.now()) : null;
      },
      (why) => (this.refused = problemOf(why)),
      store,
    );
    this.waiting = this.#writes.waiting;
  }

  /** The bench with what waits to be written down. */
  readonly shown = $derived.by((): BenchDocument | null =>
    this.kept ? foreseen(this.kept, this.waiting, this.clock.now()) : null,
  );

  get bench(): OnTheBench | null {
    return this.shown?.on_the_bench ?? null;
  }

  /** What comes next; none when the work is done. */
  get next(): BenchAct | null {
    return this.bench?.acts[0] ?? null;
  }

  readonly looked = $derived.by((): LookedAt => {
    const { bench, ahead } = this;
    if (ahead < 0) {
      const line = bench?.done_lines[-ahead - 1];
      if (line) return { kind: 'line', line, back: -ahead };
    }
    const act = bench?.acts[Math.max(0, ahead)];
    return act ? { kind: 'act', act, ahead: Math.max(0, ahead) } : { kind: 'nothing' };
  });

  /** Whether the next act can be ticked off now. */
  get canTick(): boolean {
    const { bench, next } = this;
    return bench !== null && next !== null && !bench.waits && !this.resting && this.ahead === 0;
  }

  /** The last line that can be struck out. */
  get last(): BenchLine | null {
    return this.bench?.done_lines.find((line) => line.can_be_struck) ?? null;
  }

  async load(): Promise<void> {
    try {
      this.#put(await this.desk.load());
    } catch (why) {
      if (why instanceof NotReached) this.#lost();
      if (!this.kept) this.failed = problemOf(why);
    }
  }

  /** Looks one on, or one back; false where there is nothing more. */
  look(by: 1 | -1): boolean {
    const to = this.ahead + by;
    const { bench } = this;
    if (!bench || to > Math.max(0, bench.acts.length - 1) || -to > bench.done_lines.length) {
      return false;
    }
    this.ahead = to;
    return true;
  }

  /** The next act was done as it is shown. From elsewhere it only leads back to it. */
  tick(): boolean {
    if (this.ahead !== 0) {
      this.ahead = 0;
      return false;
    }
    if (!this.canTick || !this.shown) return false;
    this.#rest();
    void this.write({ bench: 'tick', lines: this.shown.lines });
    return true;
  }

  /** Writes something down; true when it is kept. */
  async write(write: BenchWrite): Promise<boolean> {
    this.refused = null;
    try {
      await this.#writes.ask(write);
      if (write.bench !== 'tick') this.ahead = 0;
      return true;
    } catch (why) {
      this.refused = problemOf(why);
      this.ahead = 0;
      await this.load();
      return false;
    }
  }

  /** How film lies on the bench, as the hand has it. */
  async setUp(bench: BenchSetUp): Promise<void> {
    this.refused = null;
    try {
      await this.desk.setUp?.(bench, this.kept?.revision ?? 0);
    } catch (why) {
      if (why instanceof NotReached) this.#lost();
      this.refused = problemOf(why);
    }
    await this.load();
  }

  /** The program has stopped, as the page has heard: nothing but ticking goes on. */
  lose(since: Date): void {
    this.lostSince ??= since;
  }

  /** The program is there again. */
  comeBack(): void {
    this.lostSince = null;
    this.#writes.goOn();
    void this.load();
  }

  /** What waited when the page was closed is sent. */
  begin(): void {
    this.#writes.goOn();
  }

  async #send({ key, write }: WaitingWrite): Promise<void> {
    try {
      await this.desk.write(key, write, this.kept?.revision ?? 0);
    } catch (why) {
      if (why instanceof NotReached) this.#lost();
      throw why;
    }
    await this.load();
  }

  #lost(): void {
    this.lostSince ??= this.clock.now();
    this.desk.notReached();
  }

  #put(found: BenchDocument): void {
    if (this.kept && this.kept.revision > found.revision) return;
    this.failed = null;
    this.kept = found;
    const far = Math.max(0, (found.on_the_bench?.acts.length ?? 0) - 1);
    if (this.ahead > far) this.ahead = 0;
  }

  #rest(): void {
    this.resting = true;
    this.clock.later(REST, () => (this.resting = false));
  }
}
