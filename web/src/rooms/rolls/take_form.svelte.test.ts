// @vitest-environment node
import { describe, expect, it } from 'vitest';
import { takeOf } from './pretend_log';
import { nextTake, TakeForm, wordsOf } from './take_form.svelte';

const TAKE = takeOf(547, 607, { setup: '3B', take: 2, size: 'close', note: 'good' });
const form = () => new TakeForm({ roll: 'R2', first: 547 }, TAKE, 7);

describe('a card that is written on', () => {
  it('knows which lines differ and puts them back', () => {
    const card = form();
    expect(card.isDirty).toBe(false);
    card.write('size', 'wide');
    card.write('note', 'good ');
    expect(card.changed).toEqual(['size']);
    card.putBack();
    expect([card.isDirty, card.typed.size]).toEqual([false, 'close']);
  });

  it('a half written slate is not kept', () => {
    const card = form();
    card.write('take', '');
    expect([card.slateProblem !== null, card.words]).toEqual([true, null]);
    card.write('take', '0');
    expect(card.words).toBeNull();
    card.write('take', '1000');
    expect(card.words).toBeNull();
    card.write('setup', '');
    card.write('take', '');
    expect(card.words?.setup).toBeNull();
    card.write('take', '3');
    expect(card.slateProblem).toMatch(/scene/);
  });

  it('sends every line, without the spaces about it', () => {
    const card = form();
    card.write('setup', ' 3A ');
    card.write('take', ' 4');
    card.write('action', '  the rope ');
    expect(wordsOf(card.typed)).toEqual({
      setup: '3A',
      take: 4,
      rating: 'none',
      size: 'close',
      camera_move: '',
      direction: '',
      action: 'the rope',
      note: 'good',
    });
  });
});

describe('another window', () => {
  it('is taken over while nothing is typed', () => {
    const card = form();
    card.seeAgain({ ...TAKE, size: 'wide' }, 9);
    expect([card.typed.size, card.seen, card.theirs]).toEqual(['wide', 9, null]);
  });

  it('never pushes typed words out: both stand, and one chooses', () => {
    const card = form();
    card.write('size', 'very wide');
    card.seeAgain({ ...TAKE, size: 'wide' }, 9);
    expect(card.typed.size).toBe('very wide');
    expect(card.theirs?.size).toBe('wide');
    expect(card.disputed).toEqual(['size']);
    card.keepMine(9);
    expect([card.theirs, card.isDirty, card.typed.size, card.seen]).toEqual([
      null,
      true,
      'very wide',
      9,
    ]);
    const other = form();
    other.write('size', 'very wide');
    other.seeAgain({ ...TAKE, size: 'wide' }, 9);
    other.takeTheirs(9);
    expect([other.isDirty, other.typed.size]).toEqual([false, 'wide']);
  });

  it('a change elsewhere on the roll is no dispute', () => {
    const card = form();
    card.write('size', 'wide');
    card.seeAgain(TAKE, 9);
    expect([card.theirs, card.seen, card.isDirty]).toEqual([null, 9, true]);
  });

  it('an older log says nothing', () => {
    const card = form();
    card.seeAgain({ ...TAKE, size: 'old' }, 7);
    expect(card.typed.size).toBe('close');
  });

  it('the same words are no dispute', () => {
    const card = form();
    card.write('size', 'wide');
    card.seeAgain({ ...TAKE, size: 'wide' }, 9);
    expect([card.theirs, card.isDirty]).toEqual([null, false]);
  });
});

it('what is typed while it is being kept stays typed', () => {
  const card = form();
  card.write('setup', '3c');
  const sent = card.typed;
  card.write('note', 'better');
  card.kept(sent, { ...TAKE, setup: '3C' }, 8);
  expect(card.typed.setup).toBe('3C');
  expect(card.typed.note).toBe('better');
  expect([card.changed, card.seen]).toEqual([['note'], 8]);
});

it('the next take of a setup follows the highest', () => {
  const takes = [
    takeOf(0, 1, { setup: '3A', take: 1 }),
    takeOf(1, 2, { setup: '3A', take: 4 }),
    takeOf(2, 3, { setup: '3B', take: 9 }),
    takeOf(3, 4),
  ];
  expect([nextTake(takes, '3a'), nextTake(takes, '7')]).toEqual([5, 1]);
});
