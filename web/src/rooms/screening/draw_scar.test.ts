import { describe, expect, it } from 'vitest';
import type { ScreenLook } from '$lib/play/screen';
import { overScars } from './draw_scar';
import type { Scar } from './join_scars';

const look = { black: 'black', white: 'white' } as ScreenLook;
const at = { x: 100, y: 0, w: 800, h: 600 };

/** What is drawn, in rough words: `fill y..y`, `line y`. */
function drawn(scar: Scar): string[] {
  const done: string[] = [];
  const on = {
    fillRect: (_x: number, y: number, _w: number, h: number) =>
      done.push(`fill ${Math.round(y)} ${Math.round(y + h)}`),
    moveTo: (_x: number, y: number) => done.push(`line ${Math.round(y)}`),
    arc: () => done.push('bubble'),
    ...Object.fromEntries(
      ['save', 'restore', 'beginPath', 'rect', 'clip', 'lineTo', 'stroke'].map((name) => [
        name,
        () => undefined,
      ]),
    ),
  };
  overScars([scar])(on as unknown as CanvasRenderingContext2D, at, look);
  return done;
}
const scar = (kind: Scar['kind'], side: Scar['side'], off = 0, isEdge = true): Scar => ({
  join: 3,
  kind,
  side,
  off,
  isEdge,
});

describe('joins on the screen', () => {
  it('of tape shade the whole frame; the edge stands at the far end of the outermost', () => {
    expect(drawn(scar('tape', 'out', 0, false))[0]).toBe('fill 0 600');
    const lines = (one: Scar) => drawn(one).filter((each) => each.startsWith('line'));
    // Next to the join only the frame line shows, at the foot going out, at the head coming in.
    expect(lines(scar('tape', 'out', 0, false))).toEqual(['line 600']);
    expect(lines(scar('tape', 'in', 0, false))).toEqual(['line 0']);
    // On the outermost the edge: near the head going out, near the foot coming in.
    expect(Number(lines(scar('tape', 'out', 1))[0]?.slice(5))).toBeLessThan(60);
    expect(Number(lines(scar('tape', 'in', 1))[0]?.slice(5))).toBeGreaterThan(540);
  });

  it('of cement lay a band at the frame line, over a third of the picture', () => {
    expect(drawn(scar('cement', 'out'))[0]).toBe('fill 390 600');
    expect(drawn(scar('cement', 'in'))[0]).toBe('fill 0 210');
  });

  it('of a weld are lines at the frame line and no shade', () => {
    const found = drawn(scar('weld', 'out'));
    expect(found.some((each) => each.startsWith('fill'))).toBe(false);
    expect(found.map((each) => Number(each.slice(5)) > 570)).toEqual([true, true]);
  });

  it('look the same each time the frame is shown', () => {
    expect(drawn(scar('tape', 'out', 1))).toEqual(drawn(scar('tape', 'out', 1)));
  });
});
