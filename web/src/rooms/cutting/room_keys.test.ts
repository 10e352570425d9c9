// @vitest-environment node
import { expect, it, vi } from 'vitest';
import { type Binding, withoutLetters } from '$lib/keys/binding';
import { keysOfEmptySheet, roomKeys, type RoomActs } from './room_keys';

function acts() {
  return {
    nudge: vi.fn<RoomActs['nudge']>(),
    toTakeEnd: vi.fn<RoomActs['toTakeEnd']>(),
    chooseSide: vi.fn<RoomActs['chooseSide']>(),
    walk: vi.fn<RoomActs['walk']>(() => true),
    toEnd: vi.fn<RoomActs['toEnd']>(),
    runOrStop: vi.fn(),
    runBoth: vi.fn(),
    cutOnAction: vi.fn(),
    keep: vi.fn(() => true),
    putBack: vi.fn(() => true),
    layIn: vi.fn(),
    lift: vi.fn(),
    move: vi.fn<RoomActs['move']>(),
    hold: vi.fn<RoomActs['hold']>(),
    another: vi.fn(),
    divide: vi.fn(),
    writePiece: vi.fn(),
    undo: vi.fn(),
    redo: vi.fn(),
    nextPart: vi.fn<RoomActs['nextPart']>(),
  };
}
const names = (bindings: readonly Binding[]) =>
  bindings.flatMap((each) => each.keys.map((key) => `${each.with ?? ''} ${key}`.trim()));

it('no letter runs or marks anything, and no press means two things', () => {
  const all = names(withoutLetters(roomKeys(acts(), 72)));
  expect(new Set(all).size).toBe(all.length);
});

it('what a small keyboard lacks has a second key', () => {
  const hand = acts();
  const bindings = roomKeys(hand, 72);
  const press = (key: string) => bindings.find((each) => each.keys.includes(key))?.act(key);
  for (const key of ['Insert', '/', 'F2', '*']) press(key);
  expect(hand.layIn).toHaveBeenCalledTimes(2);
  expect(hand.writePiece).toHaveBeenCalledTimes(2);
});

it('while nothing is laid in, only keys that do something are named', () => {
  expect(names(keysOfEmptySheet(roomKeys(acts(), 72)))).toEqual([
    'Insert',
    '/',
    'ctrl z',
    'ctrl+shift z',
    'F6',
    'shift F6',
  ]);
});
