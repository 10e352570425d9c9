// The cards of the takes that were written on in this window, and how they are kept.
import { problemOf, Refused } from '$lib/api/server';
import type { FilmChange, Kept, RollLog, Take } from '$lib/api/wire';
import { type CardOf, type LineName, TakeForm, wordsOf } from './take_form.svelte';

/** What the cards need of the desk. */
export interface CardsDesk {
  readonly rolls: ReadonlyMap<string, RollLog>;
  change(change: FilmChange, seen: number): Promise<Kept>;
  loadRoll(roll: string): Promise<RollLog>;
}

function takeOf(log: RollLog | undefined | null, first: number): Take | undefined {
  return log?.takes.find((take) => take.in === first);
}

export class Cards {
  readonly #desk: CardsDesk;
  // Cards that were taken up, by roll and first frame. What is typed on one stays
  // on it, wherever one goes meanwhile.
  readonly #cards = new Map<string, TakeForm>();
  readonly #again = new Set<TakeForm>();

  constructor(desk: CardsDesk) {
    this.#desk = desk;
  }

  /** The card of a take. */
  takeUp(of: CardOf, take: Take, revision: number): TakeForm {
    const key = `${of.roll}·${of.first}`;
    const known = this.#cards.get(key);
    if (known) return known;
    const card = new TakeForm(of, take, revision);
    this.#cards.set(key, card);
    return card;
  }

  /** A log has come anew: every card of that roll sees it. */
  seeAgain(log: RollLog): void {
    for (const card of this.#cards.values()) {
      if (card.of.roll !== log.roll.roll) continue;
      const take = takeOf(log, card.of.first);
      if (take) card.seeAgain(take, log.revision);
    }
  }

  /** Cards that are written on and whose take another window has mended away. */
  stranded(log: RollLog): TakeForm[] {
    return [...this.#cards.values()].filter(
      (card) => card.of.roll === log.roll.roll && card.isDirty && !takeOf(log, card.of.first),
    );
  }

  putAway(card: TakeForm): void {
    card.putBack();
  }

  /** Writes one line and keeps the card at once: for what is chosen, not typed. */
  async choose(card: TakeForm, name: LineName, words: string): Promise<void> {
    card.write(name, words);
    await this.keep(card);
  }

  /**
   * Keeps what is typed. A slate that is half written waits for its other half;
   * a dispute with another window waits for its answer.
   */
  async keep(card: TakeForm): Promise<void> {
    if (card.sending) {
      this.#again.add(card);
      return;
    }
    if (!card.isDirty || card.theirs || card.slateProblem !== null) return;
    card.sending = true;
    card.problem = null;
    const { roll, first } = card.of;
    const sent = card.typed;
    try {
      const change = { film_change: 'name_take', roll, in: first, words: wordsOf(sent) } as const;
      const kept = await this.#desk.change(change, card.seen);
      const take = takeOf(kept.roll ?? this.#desk.rolls.get(roll), first);
      if (take) card.kept(sent, take, kept.revision);
    } catch (why) {
      await this.#refused(card, why);
    } finally {
      card.sending = false;
    }
    if (this.#again.delete(card)) await this.keep(card);
  }

  async #refused(card: TakeForm, why: unknown): Promise<void> {
    if (!(why instanceof Refused) || !why.stale) {
      card.problem = problemOf(why);
      return;
    }
    try {
      const log = await this.#desk.loadRoll(card.of.roll);
      const take = takeOf(log, card.of.first);
      if (take) card.refusedAsStale(take, log.revision);
    } catch (problem) {
      card.problem = problemOf(problem);
    }
  }

  /** Ours stands over theirs. */
  async keepMine(card: TakeForm): Promise<void> {
    card.keepMine(this.#revision(card));
    await this.keep(card);
  }

  takeTheirs(card: TakeForm): void {
    card.takeTheirs(this.#revision(card));
  }

  #revision(card: TakeForm): number {
    return this.#desk.rolls.get(card.of.roll)?.revision ?? card.seen;
  }
}
