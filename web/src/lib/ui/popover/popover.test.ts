import { describe, expect, it } from 'vitest';
import { placeBeside } from './place';

const room = { width: 1000, height: 600 };
const card = { width: 300, height: 200 };
const at = (left: number, top: number) => ({ left, top, right: left + 100, bottom: top + 40 });

describe('the place of a card', () => {
  it('is below its anchor where there is room', () => {
    expect(placeBeside(at(50, 100), card, room, 6)).toEqual({ left: 50, top: 146 });
  });
  it('is above it near the foot of the window', () => {
    expect(placeBeside(at(50, 500), card, room, 6)).toEqual({ left: 50, top: 294 });
  });
  it('never runs out at the right', () => {
    expect(placeBeside(at(900, 100), card, room, 6).left).toBe(692);
  });
  it('stays in the window where neither side has room', () => {
    const low = { width: 1000, height: 220 };
    expect(placeBeside(at(50, 100), card, low, 6).top).toBe(12);
  });
});
