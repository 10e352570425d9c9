import { describe, expect, it } from 'vitest';
import type { CopyFinding, FamilyPair, FamilyShot } from '$lib/api/wire';
import {
  betweenWords,
  cameraLetter,
  faceOf,
  gatePoints,
  hairLine,
  kinshipShort,
  ofHundred,
  shotName,
  speaksFor,
  UNEVEN,
} from './family_words';

const shot = { film: 'attic', roll: 'R1', in: 30, out: 60 } as FamilyShot;

describe('words of family reels', () => {
  it('calls shots by their frames, with the film where there are several', () => {
    expect(shotName(shot, false)).toBe('R1·30–59');
    expect(shotName(shot, true)).toBe('attic/R1·30–59');
    expect(faceOf(shot)).toBe(40);
  });

  it('gives cameras letters, and more than the alphabet has', () => {
    expect([0, 25, 26].map(cameraLetter)).toEqual(['A', 'Z', 'A1']);
  });

  it('never calls anything whole certainty', () => {
    expect(ofHundred(0.9999)).toBe('99 of 100');
    expect(ofHundred(0.5)).toBe('50 of 100');
  });

  it('says that a pair nothing speaks about may lie the other way', () => {
    const pair: FamilyPair = { before: 0.5, beside: 0.4, told: false, words: '' };
    expect(betweenWords(pair)).toBe('or the other way about');
    expect(betweenWords({ ...pair, before: 0.96, told: true })).toContain('96 of 100');
  });

  it('names the kinships that a finding does not speak against', () => {
    const speaks = [
      { kinship: 'first_is_nearer', share: 1 },
      { kinship: 'second_is_nearer', share: 0.03 },
      { kinship: 'of_a_third', share: 0.6 },
    ];
    const finding = { kind: 'dirt', words: '', speaks } as CopyFinding;
    expect(speaksFor(finding)).toEqual(['first_is_nearer', 'of_a_third']);
    expect(kinshipShort('second_is_nearer', 'R1', 'R2')).toBe('R2 is nearer');
  });
});

describe('the drawing of a gate', () => {
  it('draws a burr larger than it is, and straight edges where they are', () => {
    const flat = (x: number) => [-1, 0, 1].map((y) => [x, y * 100]);
    const level = (y: number) => [-1, 0, 1].map((x) => [x * 100, y]);
    const left = [...flat(-500), [-498, 50]];
    const points = gatePoints({ outline: [left, flat(500), level(-375), level(375)] });
    expect(points).toContain(`${(-500 + 2 * UNEVEN).toFixed(1)},50.0`);
    expect(points).toContain('500.0,100.0');
  });

  it('lets a hair hang from its side into the picture', () => {
    const hair = { side: 'bottom', along: 20, length: 60 };
    expect(hairLine(hair, 750)).toEqual({ x1: 20, y1: 375, x2: 20, y2: 315 });
    expect(hairLine({ ...hair, side: 'left' }, 750)).toEqual({
      x1: -500,
      y1: 20,
      x2: -440,
      y2: 20,
    });
  });
});
