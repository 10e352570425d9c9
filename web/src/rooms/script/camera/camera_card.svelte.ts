// What stands on the card: the calculator chosen, what was typed, what came of it.
import { problemWords } from '$lib/api/problem_words';
import { problemOf } from '$lib/api/server';
import { type Asked, type CalculatorName, calculator, type Way } from './calculators';
import type { CameraAnswer, CameraDesk, Query } from './camera_desk';
import { openedAnswer, type OpenedAnswer } from './opened_answer';

/** What of the film the calculators want. */
export interface CameraFilm {
  readonly gauge: string;
  /** `18`, `24000/1001`. */
  readonly speed: string;
  readonly framesPerFoot: number;
  /** The rolls whose takes may be a wedge. */
  readonly rolls?: readonly string[];
}

/** What is known of the day and the place; empty where nothing is. */
export type Known = Readonly<Record<string, string>>;

/** A figure as it is typed, with a comma or the long minus too; null where it is none. */
export function figureOf(typed: string): number | null {
  const plain = typed.trim().replace(',', '.').replace('−', '-').replace(/^\+/, '');
  return /^-?\d*\.?\d+$/.test(plain) || /^-?\d+\.$/.test(plain) ? Number(plain) : null;
}

const two = (count: number) => String(count).padStart(2, '0');

/** The day of a clock as it is written: `2026-06-21`. */
export function dayOf(now: Date): string {
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

/** How far a clock is before Greenwich: `+1`, `-3:30`. */
export function clockOf(now: Date): string {
  const before = -now.getTimezoneOffset();
  const minutes = Math.abs(before);
  const rest = minutes % 60 === 0 ? '' : `:${two(minutes % 60)}`;
  return `${before < 0 ? '-' : '+'}${Math.floor(minutes / 60)}${rest}`;
}

/** What was typed, and the ways chosen; kept while the page lies open. */
export class Typing {
  readonly typed = $state<Record<string, string>>({});
  readonly ways = $state<Record<string, string>>({});
}

export class CameraCard {
  chosen = $state<CalculatorName>('framing');
  answer = $state.raw<CameraAnswer | null>(null);
  problem = $state<string | null>(null);
  /** The field that cannot be read, by its name. */
  slip = $state<string | null>(null);
  /** Something is still to be written before anything can be asked. */
  waits = $state(false);
  /** The film as it is now: its rolls may come later than the card. */
  film = $state.raw<CameraFilm>({ gauge: 'super8', speed: '18', framesPerFoot: 72 });
  known = $state.raw<Known>({});
  private asked = 0;

  constructor(
    private readonly desk: CameraDesk,
    film: CameraFilm,
    known: Known = {},
    private readonly typing: Typing = new Typing(),
  ) {
    this.film = film;
    this.known = known;
  }

  get calculator() {
    return calculator(this.chosen);
  }

  /** The ways there are: without a roll there is no wedge on one. */
  get ways(): readonly Way[] {
    const hasRolls = (this.film.rolls?.length ?? 0) > 0;
    return (this.calculator.ways ?? []).filter((way) => way.value !== 'roll' || hasRolls);
  }

  get way(): string {
    return this.typing.ways[this.chosen] ?? this.ways[0]?.value ?? '';
  }

  set way(way: string) {
    this.typing.ways[this.chosen] = way;
  }

  /** What is asked now, in the order of the way chosen. */
  get asks(): readonly Asked[] {
    const { asks } = this.calculator;
    const way = this.ways.find((one) => one.value === this.way);
    if (!way) return asks;
    return way.asks.flatMap((name) => asks.filter((one) => one.name === name));
  }

  choicesOf(asked: Asked): readonly string[] {
    return asked.name === 'roll' ? (this.film.rolls ?? []) : (asked.choices ?? []);
  }

  value(asked: Asked): string {
    const first = asked.name === 'roll' ? (this.film.rolls?.[0] ?? '') : asked.usual;
    const given = this.typing.typed[this.key(asked)] ?? this.known[asked.name];
    return given ?? (asked.name === 'clock' ? this.clock() : first);
  }

  /** This machine's clock on the day asked for, in summer time or not. */
  private clock(): string {
    const asked = this.calculator.asks.find((one) => one.name === 'date');
    const day = new Date(`${asked ? this.value(asked).trim() : ''}T12:00`);
    return Number.isNaN(day.getTime()) ? '' : clockOf(day);
  }

  type(asked: Asked, value: string): void {
    this.typing.typed[this.key(asked)] = value;
  }

  /** Another size of view taken up from the list of them. */
  takeSize(size: string): void {
    if (this.way === 'view') this.way = 'distance';
    const asked = this.calculator.asks.find((one) => one.name === 'size');
    if (asked) this.type(asked, size);
  }

  /** Lens and distance stay as they are when another calculator is chosen. */
  private key(asked: Asked): string {
    const shared = ['lens_mm', 'distance', 'shutter'].includes(asked.name);
    return shared ? asked.name : `${this.chosen}.${asked.name}`;
  }

  /** What would be sent; null where a figure cannot be read or is still to be written. */
  query(): Query | null {
    this.slip = null;
    this.waits = false;
    const { gauge, speed } = this.film;
    const { anyOf } = this.calculator;
    const film = { gauge, speed, set: speed };
    const query: Record<string, string | number> = {};
    for (const name of this.calculator.film) query[name] = film[name];
    for (const asked of this.asks) {
      const typed = this.value(asked).trim();
      if (typed === '' && asked.optional) continue;
      if (typed === '') {
        this.waits = true;
        continue;
      }
      const read = asked.kind === 'figure' ? figureOf(typed) : typed;
      if (read === null) {
        this.slip = asked.name;
        return null;
      }
      query[asked.name] = read;
    }
    if (anyOf?.every((name) => !(name in query))) this.waits = true;
    if (this.waits) return null;
    // A height said instead of a view stands alone.
    if ('height' in query) delete query['size'];
    return query;
  }

  /** Asks anew; of several answers on their way only the last counts. */
  async ask(): Promise<void> {
    const mine = ++this.asked;
    const query = this.query();
    if (query === null) return;
    try {
      const answer = await this.desk.answer(this.chosen, query);
      if (mine !== this.asked) return;
      this.answer = answer;
      this.problem = null;
    } catch (why) {
      if (mine === this.asked) this.problem = problemWords(problemOf(why));
    }
  }

  /** The answer, where it is of the calculator that lies open. */
  get shown(): CameraAnswer | null {
    return this.answer?.name === this.chosen ? this.answer : null;
  }

  get opened(): OpenedAnswer | null {
    return this.shown ? openedAnswer(this.shown, this.film) : null;
  }
}
