// Where one is in the room: which roll, which frame of it, how near.
import { problemOf } from '$lib/api/server';
import type { Film, Problem, RollHead, RollLog } from '$lib/api/wire';
import { compareRolls } from '$lib/film/frame_name';
import { speedFrom } from '$lib/film/speed';
import { hungOf, lengthAt, type Length, lengthsOf } from './lengths';
import {
  insideRoll,
  lengthEnd,
  neighbourTake,
  type RollMeasure,
  stepped,
  type StepUnit,
} from './steps';

/** All takes hanging, the film near by, or its breaks one after another. */
export type Look = 'whole' | 'near' | 'breaks';

const LOOKS: readonly Look[] = ['whole', 'near', 'breaks'];

/** What the room needs of the desk. */
export interface RollsDesk {
  readonly film: Film | null;
  readonly rolls: ReadonlyMap<string, RollLog>;
  loadRoll(roll: string): Promise<RollLog>;
}

/** The words of an address that the room reads and writes. */
export type RollsPlace = Readonly<Record<string, string>>;

export class RollsRoom {
  look = $state<Look>('whole');
  /** Why the log of the chosen roll cannot be shown. */
  problem = $state.raw<Problem | null>(null);

  #chosen = $state<string | null>(null);
  // Where one was on each roll: coming back to it leads there.
  #frames = $state.raw<ReadonlyMap<string, number>>(new Map());
  readonly #desk: RollsDesk;
  readonly #coming: () => readonly string[];

  /** @param coming names of rolls that are on their way and have no head yet. */
  constructor(desk: RollsDesk, coming: () => readonly string[] = () => []) {
    this.#desk = desk;
    this.#coming = coming;
  }

  /** The rolls in the order people count them. */
  readonly heads: readonly RollHead[] = $derived.by(() =>
    [...(this.#desk.film?.rolls ?? [])].sort((a, b) => compareRolls(a.roll, b.roll)),
  );

  /** The chosen roll, which may still be on its way; null where there is none. */
  readonly roll: string | null = $derived.by(() => {
    const names = [...this.heads.map((head) => head.roll), ...this.#coming()];
    // A roll that was taken out, or never arrived, is no longer in the hand.
    const held = names.find((name) => name === this.#chosen);
    return held ?? names[0] ?? null;
  });

  readonly head: RollHead | null = $derived.by(
    () => this.heads.find((head) => head.roll === this.roll) ?? null,
  );

  /** The log of the chosen roll; null until it has come. */
  readonly log: RollLog | null = $derived.by(() => {
    const { roll, head } = this;
    return (roll !== null && head && this.#desk.rolls.get(roll)) || null;
  });

  readonly lengths: readonly Length[] = $derived.by(() =>
    this.log ? lengthsOf(this.log.takes, this.log.roll.frames) : [],
  );

  /** What hangs from the pegs. */
  readonly hung: readonly Length[] = $derived.by(() => hungOf(this.lengths));

  /** The frame one is at. */
  readonly frame: number = $derived.by(() => {
    const { log, roll } = this;
    if (!log || roll === null) return 0;
    const start = this.hung[0]?.first ?? 0;
    return insideRoll(this.#frames.get(roll) ?? start, log.roll.frames);
  });

  /** The length that the frame lies in. */
  readonly here: Length | null = $derived.by(() => lengthAt(this.lengths, this.frame));

  /** How the chosen roll is measured. */
  readonly measure: RollMeasure | null = $derived.by(() => {
    const film = this.#desk.film;
    if (!film || !this.log) return null;
    return {
      frames: this.log.roll.frames,
      framesPerFoot: film.gauge.frames_per_foot,
      speed: speedFrom(this.log.film_speed),
    };
  });

  /** Takes a roll into the hand. */
  choose(roll: string): void {
    this.#chosen = roll;
    this.problem = null;
  }

  /** The roll before or after the chosen one, as people count; null at the ends. */
  otherRoll(side: 'before' | 'after'): string | null {
    const at = this.heads.findIndex((head) => head.roll === this.roll);
    return this.heads[at + (side === 'before' ? -1 : 1)]?.roll ?? null;
  }

  /** Asks for the log of the chosen roll, unless it is there. */
  async load(): Promise<void> {
    const { roll, head } = this;
    if (roll === null || !head || this.#desk.rolls.has(roll)) return;
    this.problem = null;
    try {
      await this.#desk.loadRoll(roll);
    } catch (why) {
      if (roll === this.roll) this.problem = problemOf(why);
    }
  }

  /** The log of any roll, asked for where it is not there; null where it cannot be had. */
  async logOf(roll: string): Promise<RollLog | null> {
    const known = this.#desk.rolls.get(roll);
    if (known) return known;
    try {
      return await this.#desk.loadRoll(roll);
    } catch {
      // A roll that was taken out meanwhile, or is being read.
      return null;
    }
  }

  goTo(frame: number): void {
    const { log, roll } = this;
    if (!log || roll === null) return;
    this.#frames = new Map(this.#frames).set(roll, insideRoll(frame, log.roll.frames));
  }

  step(unit: StepUnit, steps: number): void {
    if (this.measure) this.goTo(stepped(this.frame, unit, steps, this.measure));
  }

  /** To the first or last frame of the take. */
  end(end: 'first' | 'last'): void {
    this.goTo(lengthEnd(this.lengths, this.frame, end));
  }

  /** To the take before or after. */
  neighbour(side: 'before' | 'after'): void {
    this.goTo(neighbourTake(this.lengths, this.frame, side));
  }

  /** Where one is, for the address. */
  get place(): Record<string, string | null> {
    return {
      roll: this.roll,
      frame: this.log ? String(this.frame) : null,
      look: this.look === 'whole' ? null : this.look,
    };
  }

  /** Goes where an address says; what it does not say stays. */
  arrive(at: RollsPlace): void {
    if (at['roll']) this.choose(at['roll']);
    const frame = /^\d+$/.test(at['frame'] ?? '') ? Number(at['frame']) : null;
    if (frame !== null && this.roll !== null) {
      this.#frames = new Map(this.#frames).set(this.roll, frame);
    }
    if (at['look']) this.look = LOOKS.find((look) => look === at['look']) ?? 'whole';
  }
}
