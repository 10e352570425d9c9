// @vitest-environment node
import { expect, it, vi } from 'vitest';
import { isMeant, type KeyPress, withoutLetters } from '$lib/keys/binding';
import { rollsBindings, type RollsActs } from './rolls_keys';

function acts() {
  const spies = {
    step: vi.fn<RollsActs['step']>(),
    end: vi.fn<RollsActs['end']>(),
    neighbour: vi.fn<RollsActs['neighbour']>(),
    otherRoll: vi.fn<RollsActs['otherRoll']>(),
    runOrStop: vi.fn(),
    breakHere: vi.fn(),
    mendBreak: vi.fn(),
    fill: vi.fn(),
    layIn: vi.fn(),
    note: vi.fn(),
    nearer: vi.fn(),
    nextToLook: vi.fn(),
    moveBreak: vi.fn(),
    watch: vi.fn(),
    back: vi.fn(() => true),
  };
  return spies;
}

const press = (key: string, more: Partial<KeyPress> = {}): KeyPress => ({
  key,
  shiftKey: false,
  ctrlKey: false,
  metaKey: false,
  altKey: false,
  repeat: false,
  isComposing: false,
  ...more,
});

it('no letter runs or marks anything, and no press means two things', () => {
  for (const look of ['whole', 'near', 'breaks'] as const) {
    const bindings = withoutLetters(rollsBindings(acts(), look));
    const names = bindings.flatMap((each) => each.keys.map((key) => `${each.with ?? ''} ${key}`));
    expect(new Set(names).size).toBe(names.length);
  }
});

it('each key does what the key line says', () => {
  const hand = acts();
  const bindings = rollsBindings(hand);
  const hit = (key: string, more: Partial<KeyPress> = {}) =>
    bindings.filter((each) => isMeant(each, press(key, more))).forEach((each) => each.act(key));
  hit('ArrowDown');
  hit('ArrowUp', { shiftKey: true });
  hit('ArrowDown', { ctrlKey: true });
  hit('PageUp');
  expect(hand.step.mock.calls).toEqual([
    ['frame', 1],
    ['ten', -1],
    ['second', 1],
    ['foot', -1],
  ]);
  hit('ArrowRight');
  hit('ArrowLeft', { ctrlKey: true });
  hit('End');
  hit(' ');
  hit('Insert');
  hit('Delete');
  hit('Enter');
  hit('Enter', { shiftKey: true });
  hit('F2');
  hit('+', { shiftKey: true });
  hit('Escape');
  expect(hand.neighbour.mock.calls).toEqual([['after']]);
  expect(hand.otherRoll.mock.calls).toEqual([['before']]);
  expect(hand.end.mock.calls).toEqual([['last']]);
  // A keyboard without Insert, or with other work for F2, has a second key for both.
  hit('/', { shiftKey: true });
  hit('*', { shiftKey: true });
  expect([hand.breakHere, hand.note].map((spy) => spy.mock.calls.length)).toEqual([2, 2]);
  hand.breakHere.mockClear();
  hand.note.mockClear();
  hit('/');
  hit('*');
  const { runOrStop, breakHere, mendBreak, fill, layIn, note, nearer, back } = hand;
  for (const spy of [runOrStop, breakHere, mendBreak, fill, layIn, note, nearer, back]) {
    expect(spy).toHaveBeenCalledTimes(1);
  }
});

it('where breaks are looked at, the keys decide on them, and the key line says so', () => {
  const hand = acts();
  const at = (look: 'whole' | 'breaks', key: string) =>
    rollsBindings(hand, look).find((each) => isMeant(each, press(key)));
  expect([at('whole', 'F6')?.act('F6'), at('breaks', 'F6')?.act('F6')]).toEqual([false, undefined]);
  expect(hand.moveBreak).toHaveBeenCalledTimes(1);
  at('whole', 'F4')?.act('F4');
  at('breaks', 'F4')?.act('F4');
  expect(hand.nextToLook).toHaveBeenCalledTimes(2);
  expect([at('whole', 'Enter')?.line, at('breaks', 'Enter')?.line]).toEqual([
    'fill the card',
    'let it stand',
  ]);
});

it('the roll is watched through by one key', () => {
  const hand = acts();
  const watch = rollsBindings(hand).find((each) => isMeant(each, press(' ', { shiftKey: true })));
  watch?.act(' ');
  expect([hand.watch.mock.calls.length, hand.runOrStop.mock.calls.length]).toEqual([1, 0]);
});
