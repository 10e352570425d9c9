import { describe, expect, it } from 'vitest';
import type { Piece } from '$lib/api/wire';
import { extremes } from '../cutting/film_in_proportion';
import { boatV1 } from './boat_v1';
import { barsOf, figuresOf, runningCurve, secondMarks, secondsWords, windowFrom } from './pace';

const EIGHTEEN = { num: 18, den: 1 };
const plain = (kind: 'leader' | 'card', frames: number): Piece => ({
  kind,
  frames,
  starts_at: 0,
  action: '',
  runs_on: false,
  note: '',
});

describe('the pace of the first cut, as story 6 has it', () => {
  const bars = barsOf(boatV1());
  const figures = figuresOf(bars);

  it('counts 21 pictures of 23 pieces: mean 6.52 s, median 6.0 s', () => {
    expect(figures?.pictures).toBe(21);
    expect(secondsWords(figures?.mean ?? 0, EIGHTEEN, 2)).toBe('6.52');
    expect(secondsWords(figures?.median ?? 0, EIGHTEEN, 1)).toBe('6.0');
  });

  it('finds the shortest, 2.5 s at no. 9, and the longest, 15.0 s at no. 22', () => {
    const far = [figures?.shortest, figures?.longest];
    expect(far.map((bar) => bar?.position)).toEqual([9, 22]);
    expect(far.map((bar) => secondsWords(bar?.frames ?? 0, EIGHTEEN, 1))).toEqual(['2.5', '15.0']);
  });

  it('names the same pieces as the strip in Cutting', () => {
    const cutting = extremes(boatV1());
    expect([cutting?.shortest, cutting?.longest]).toEqual([
      (figures?.shortest.position ?? 0) - 1,
      (figures?.longest.position ?? 0) - 1,
    ]);
  });

  it('is shorter in seconds at a measured speed, and as long in frames', () => {
    const measured = { num: 1837, den: 100 };
    expect(secondsWords(figures?.mean ?? 0, measured, 2)).toBe('6.38');
    expect(secondsWords(figures?.longest.frames ?? 0, measured, 1)).toBe('14.7');
  });

  it('tells titles, leader and cards apart from the pictures', () => {
    expect([bars[0]?.counts, bars[1]?.counts, bars[22]?.counts]).toEqual([
      'title',
      'picture',
      'title',
    ]);
    const more = barsOf([plain('leader', 36), ...boatV1(), plain('card', 126)]);
    expect([more[0]?.counts, more.at(-1)?.counts]).toEqual(['leader', 'card']);
    expect(figuresOf(more)?.mean).toBe(figures?.mean);
  });
});

describe('the running curve', () => {
  const bars = barsOf(boatV1());

  it('is the mean of so many pictures, in their middle, and only of whole windows', () => {
    const curve = runningCurve(bars, 5);
    expect(curve).toHaveLength(17);
    // No. 2 to 6: 144, 108, 126, 72 and 126 frames.
    expect(curve[0]).toEqual({ row: 3, mean: 115.2 });
    // No. 18 to 22: 180, 54, 72, 144 and 270 frames.
    expect(curve.at(-1)).toEqual({ row: 19, mean: 144 });
  });

  it('leaps over what is no picture', () => {
    const pieces = boatV1().slice(1, 3);
    const curve = runningCurve(barsOf([pieces[0]!, plain('leader', 400), pieces[1]!]), 2);
    expect(curve).toEqual([{ row: 1, mean: 126 }]);
  });

  it('of all pictures is one place: the mean', () => {
    expect(runningCurve(bars, 21)).toEqual([{ row: 11, mean: figuresOf(bars)?.mean }]);
    expect(runningCurve(bars, 22)).toEqual([]);
  });

  it('has a window of at least two and at most all pictures', () => {
    expect(['5', ' 2 ', '21'].map((typed) => windowFrom(typed, 21))).toEqual([5, 2, 21]);
    expect(['1', '22', '', '2.5', '-3', 'five'].map((typed) => windowFrom(typed, 21))).toEqual(
      Array(6).fill(null),
    );
  });
});

describe('figures of odd cuts', () => {
  it('are none without a picture', () => {
    expect(figuresOf(barsOf([plain('leader', 20)]))).toBeNull();
    expect(figuresOf([])).toBeNull();
  });

  it('of an even number have the mean of the middle two as their median', () => {
    const bars = barsOf(boatV1().slice(1, 5));
    expect(figuresOf(bars)?.median).toBe((108 + 126) / 2);
  });

  it('the scale stands at round seconds', () => {
    expect(secondMarks(15, 8)).toEqual([0, 2, 4, 6, 8, 10, 12, 14]);
    expect(secondMarks(240, 8)).toEqual([0, 30, 60, 90, 120, 150, 180, 210, 240]);
    expect(secondMarks(0, 8)).toEqual([0]);
  });
});
