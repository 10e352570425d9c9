// How film lies on the bench, by the rules of the printed cards: checked by thinking of a
// strip in the hand, emulsion or base up, turned on the table and turned over.
import { describe, expect, it } from 'vitest';
import { SUPER_8 } from '../../stories/gauges';
import { CARD } from './boat_bench';
import { endOfStrip } from './card_frames';
import { asItLies, bladeFromLeft, lyingFilm, type Lies, liesWords } from './lying_film';
import { rulerPlan } from './ruler_plan';

const BASE_LEFT: Lies = { emulsionUp: false, headLeft: true };
const BASE_RIGHT: Lies = { emulsionUp: false, headLeft: false };
const EMULSION_LEFT: Lies = { emulsionUp: true, headLeft: true };
const EMULSION_RIGHT: Lies = { emulsionUp: true, headLeft: false };
const ALL = [BASE_LEFT, BASE_RIGHT, EMULSION_LEFT, EMULSION_RIGHT];

const film = (lies: Lies, isPrint = false) => lyingFilm(SUPER_8, 10, 2, lies, isPrint);

describe('film as it lies on the bench', () => {
  it('is mirrored with the emulsion up, and a contact print with the base up', () => {
    expect(ALL.map((lies) => film(lies).mirrored)).toEqual([false, false, true, true]);
    expect(ALL.map((lies) => film(lies, true).mirrored)).toEqual([true, true, false, false]);
  });

  it('has the tops of its pictures to the head', () => {
    expect(ALL.map((lies) => film(lies).turn)).toEqual([-90, 90, -90, 90]);
  });

  // Super 8 held heads up and seen through the base has its holes at the left. Laid with
  // the head to the left it is turned against the clock: the left edge comes to lie below.
  // Turned over about its length, above; turned end for end, the other way about.
  it('has its holes on the edge where they are', () => {
    const middle = 8 * 10 * 0.5;
    const below = ALL.map((lies) => film(lies).holes.every((hole) => hole.y > middle));
    const above = ALL.map((lies) => film(lies).holes.every((hole) => hole.y + hole.h < middle));
    expect(below).toEqual([true, false, false, true]);
    expect(above).toEqual([false, true, true, false]);
  });

  it('has its pictures in their frames, whichever way it lies', () => {
    for (const lies of ALL) {
      const { pictures, pitch, long, wide } = film(lies);
      expect(long).toBeCloseTo(2 * 42.34, 6);
      pictures.forEach((at, place) => {
        // Turned by a quarter about its middle.
        const [x, y] = [at.x + at.w / 2, at.y + at.h / 2];
        expect(x).toBeCloseTo((place + 0.5) * pitch, 6);
        expect(y - at.w / 2).toBeGreaterThanOrEqual(0);
        expect(y + at.w / 2).toBeLessThanOrEqual(wide);
        expect(at.w / at.h).toBeCloseTo(SUPER_8.picture.w / SUPER_8.picture.h, 6);
      });
    }
  });

  it('reads from its head: 546 thrown, 547 kept; with the head right the other way about', () => {
    const { frames, cut } = endOfStrip('R2', CARD.head, 'head', () => undefined);
    const names = (lies: Lies) => asItLies(frames, lies).map((one) => one.name);
    expect(names(BASE_LEFT)).toEqual(['R2·546', 'R2·547']);
    expect(names(EMULSION_RIGHT)).toEqual(['R2·547', 'R2·546']);
    expect(cut).toBe(1);
    // Three frames, the blade behind two of them as one counts from the head.
    expect([bladeFromLeft(2, 3, BASE_LEFT), bladeFromLeft(2, 3, BASE_RIGHT)]).toEqual([2, 1]);
  });

  it('is said in words', () => {
    expect(liesWords(EMULSION_RIGHT)).toBe('Emulsion up, head to the right');
    expect(liesWords(BASE_LEFT)).toBe('Base up, head to the left');
  });

  it('runs along the ruler from the side where its head lies', () => {
    const [left, right] = [rulerPlan(CARD, 40), rulerPlan(CARD, 40, false)];
    expect(left.head).toBeLessThan(left.tail);
    expect(right.head).toBeCloseTo(1 - left.head, 9);
    expect(right.tail).toBeCloseTo(1 - left.tail, 9);
    expect(right.marks.map((mark) => mark.words).sort()).toEqual(
      left.marks.map((mark) => mark.words).sort(),
    );
  });
});
