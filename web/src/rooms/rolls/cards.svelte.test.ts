// @vitest-environment node
import { beforeEach, expect, it } from 'vitest';
import { Refused } from '$lib/api/server';
import type { FilmChange, Kept, RollLog, Take } from '$lib/api/wire';
import { Cards, type CardsDesk } from './cards.svelte';
import { logOf, takeOf } from './pretend_log';

const stale = () =>
  new Refused({ code: 'store.stale', message: 'changed', hint: 'look', details: null }, 409);

class PretendDesk implements CardsDesk {
  log: RollLog = logOf([takeOf(24, 390), takeOf(390, 762)], 3600, { revision: 5 });
  sent: { change: FilmChange; seen: number }[] = [];
  answer: (change: FilmChange) => Promise<Kept> = (change) => Promise.resolve(this.keep(change));

  get rolls(): ReadonlyMap<string, RollLog> {
    return new Map([['R1', this.log]]);
  }

  change(change: FilmChange, seen: number): Promise<Kept> {
    this.sent.push({ change, seen });
    return this.answer(change);
  }

  async loadRoll(): Promise<RollLog> {
    return this.log;
  }

  keep(change: FilmChange): Kept {
    if (change.film_change === 'name_take') this.write(change.in, change.words);
    return { revision: this.log.revision, already: false, words: '', roll: this.log };
  }

  write(first: number, words: Partial<Take>): void {
    const takes = this.log.takes.map((take) => (take.in === first ? { ...take, ...words } : take));
    this.log = { ...this.log, takes, revision: this.log.revision + 1 };
  }
}

let desk: PretendDesk;
let cards: Cards;
const take = (first: number) => desk.log.takes.find((each) => each.in === first)!;
const card = (first: number) => cards.takeUp({ roll: 'R1', first }, take(first), desk.log.revision);

beforeEach(() => {
  desk = new PretendDesk();
  cards = new Cards(desk);
});

it('keeps what is typed with the revision it was typed on, and only when something is', async () => {
  const one = card(24);
  await cards.keep(one);
  expect(desk.sent).toHaveLength(0);
  one.write('size', 'wide');
  await cards.keep(one);
  expect(desk.sent.map((each) => each.seen)).toEqual([5]);
  expect([one.isDirty, one.seen, take(24).size]).toEqual([false, 6, 'wide']);
});

it('words typed on one take stay on it while one goes elsewhere', () => {
  card(24).write('setup', '3A');
  expect(card(390).typed.setup).toBe('');
  expect(card(24).typed.setup).toBe('3A');
});

it('a half written slate waits and is not sent', async () => {
  const one = card(24);
  one.write('setup', '3A');
  await cards.keep(one);
  expect([desk.sent.length, one.isDirty]).toEqual([0, true]);
});

it('a faster window is asked about, and mine is kept over theirs', async () => {
  const one = card(24);
  one.write('size', 'mine');
  desk.answer = () => {
    desk.write(24, { size: 'theirs' });
    return Promise.reject(stale());
  };
  await cards.keep(one);
  expect([one.typed.size, one.theirs?.size, one.problem]).toEqual(['mine', 'theirs', null]);
  // Nothing is sent while it is asked.
  await cards.keep(one);
  expect(desk.sent).toHaveLength(1);
  desk.answer = (change) => Promise.resolve(desk.keep(change));
  await cards.keepMine(one);
  expect(desk.sent.map((each) => each.seen)).toEqual([5, 6]);
  expect([take(24).size, one.theirs]).toEqual(['mine', null]);
});

it('an answer that arrives before its own log is no dispute', async () => {
  const one = card(24);
  one.write('setup', '3a');
  one.write('take', '1');
  desk.answer = (change) => {
    desk.keep(change);
    desk.write(24, { setup: '3A' });
    // The log is on the desk before the change is told to be kept.
    cards.seeAgain(desk.log);
    return Promise.resolve({ revision: 7, already: false, words: '', roll: desk.log });
  };
  await cards.keep(one);
  expect([one.theirs, one.isDirty, one.typed.setup]).toEqual([null, false, '3A']);
});

it('what was typed while it was sent is sent after it', async () => {
  const one = card(24);
  one.write('size', 'wide');
  desk.answer = async (change) => {
    if (desk.sent.length === 1) {
      one.write('note', 'better');
      await cards.keep(one);
    }
    return desk.keep(change);
  };
  await cards.keep(one);
  expect(desk.sent).toHaveLength(2);
  expect([take(24).note, one.isDirty]).toEqual(['better', false]);
});

it('a refusal of another kind is said and the words stay', async () => {
  const one = card(24);
  one.write('note', 'x');
  const long = { code: 'production.unfit', message: 'too long', hint: 'shorter', details: null };
  desk.answer = () => Promise.reject(new Refused(long, 422));
  await cards.keep(one);
  expect([one.problem?.message, one.typed.note, one.isDirty]).toEqual(['too long', 'x', true]);
});

it('words on a take that was mended away are shown until they are put away', () => {
  const one = card(390);
  one.write('note', 'the rope');
  desk.log = { ...desk.log, takes: [takeOf(24, 762)], revision: 6 };
  expect(cards.stranded(desk.log)).toEqual([one]);
  cards.putAway(one);
  expect(cards.stranded(desk.log)).toEqual([]);
});
