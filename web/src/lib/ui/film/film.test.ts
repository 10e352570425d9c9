import { render, screen, within } from '@testing-library/svelte';
import { describe, expect, it, vi } from 'vitest';
import { stripLayout } from '$lib/film/gauge_geometry';
import { REGULAR_8, SUPER_8 } from '../../../stories/gauges';
import FilmStrip from './FilmStrip.svelte';
import JoinMark from './JoinMark.svelte';
import { type FilmFrame, frameMeaning, frameWords, labelEnd, overlapPath } from './film_frame';

const frame = (name: string, more: Partial<FilmFrame> = {}): FilmFrame => ({
  name,
  state: 'kept',
  ...more,
});
const tongue = { end: 'head', mm: 1.4, words: 'tongue of 6 | 7' } as const;

describe('what is said of a frame', () => {
  it('is the word of its state unless the room has a better one', () => {
    expect(frameWords(frame('R2·607', { state: 'thrown' }))).toBe('thrown');
    expect(frameWords(frame('R1·2938', { state: 'thrown', words: 'in shot 6' }))).toBe('in shot 6');
    expect(frameWords(frame('R2·606'))).toBe('');
  });
  it('holds what the hatch and the tag mean, each once', () => {
    const wanted = frame('R1·2939', { state: 'eaten', overlap: tongue, tag: 'wanted twice' });
    expect(frameMeaning({ ...wanted, words: 'on trial' })).toBe(
      'eaten by the join, tongue of 6 | 7',
    );
    expect(frameMeaning(frame('R2·606'))).toBe('');
    expect(frameMeaning(frame('R2·607', { state: 'thrown', words: 'in shot 6' }))).toBe('thrown');
  });
  it('stands close to the cut but never on what is eaten', () => {
    expect(labelEnd(frame('a'), false)).toBe('tail');
    expect(labelEnd(frame('a'), true)).toBe('head');
    expect(labelEnd(frame('a', { overlap: tongue }), true)).toBe('tail');
    expect(labelEnd(frame('a', { overlap: { ...tongue, end: 'tail' } }), false)).toBe('head');
  });
});

describe('the outline of an overlap', () => {
  const picture = { x: 10, y: 20, w: 200, h: 150 };
  it('begins at the head of the picture and runs down into it', () => {
    expect(overlapPath(picture, 'head', 50)).toMatch(/^M10\.0 20\.0h200\.0v40\.0/);
  });
  it('begins at the tail and runs up into it', () => {
    expect(overlapPath(picture, 'tail', 50)).toMatch(/^M10\.0 170\.0h200\.0v-40\.0/);
  });
});

describe('a strip of film', () => {
  const frames = [
    frame('R1·2938', { state: 'thrown', words: 'in shot 6' }),
    frame('R1·2939', { state: 'eaten', words: 'on trial', overlap: tongue, tag: 'wanted twice' }),
    frame('R1·2940', { state: 'scar' }),
  ];

  it('is a list of its frames in words, the marks among them', () => {
    render(FilmStrip, { label: 'incoming strip', geometry: SUPER_8, scale: 42, frames, cut: 1 });
    const items = within(screen.getByRole('list', { name: 'incoming strip' })).getAllByRole(
      'listitem',
    );
    const words = items.map((item) => item.textContent?.replace(/[\s·]+/g, ' ').trim());
    expect(words[0]).toBe('R1 2938 in shot 6 , thrown');
    expect(words[1]).toContain('wanted twice');
    expect(words[1]).toContain('tongue of 6 | 7');
    expect(words[2]).toBe('R1 2940 scar');
  });

  it('has as many holes as frames on Super 8, one more where they lie on the line', () => {
    const holes = (geometry: typeof SUPER_8) => {
      const { container } = render(FilmStrip, { label: 'strip', geometry, scale: 12, frames });
      return container.querySelectorAll('rect.hole').length;
    };
    expect(holes(SUPER_8)).toBe(3);
    expect(holes(REGULAR_8)).toBe(4);
  });

  it('is as wide and as high as its gauge says', () => {
    const { container } = render(FilmStrip, {
      label: 'strip',
      geometry: SUPER_8,
      scale: 10,
      frames,
      from: 0.5,
      shown: 2,
    });
    const strip = container.querySelector<HTMLElement>('.strip');
    expect(Number.parseFloat(strip?.style.height ?? '')).toBeCloseTo(84.68, 6);
    const film = container.querySelector('svg rect.film');
    expect(Number(film?.getAttribute('width'))).toBeCloseTo(79.76, 6);
  });

  it('tells which frame was chosen, where frames can be', () => {
    const onchoose = vi.fn();
    render(FilmStrip, { label: 'strip', geometry: SUPER_8, scale: 15, frames, onchoose });
    screen.getByRole('button', { name: /2940/ }).click();
    expect(onchoose).toHaveBeenCalledExactlyOnceWith(2);
  });

  it('draws the eaten part as deep as the overlap', () => {
    const { container } = render(FilmStrip, {
      label: 'strip',
      geometry: SUPER_8,
      scale: 42,
      frames,
    });
    const { picture } = stripLayout(SUPER_8, 42);
    const eaten = container.querySelector('path.eaten')?.getAttribute('d');
    expect(eaten).toBe(overlapPath(picture, 'head', 1.4 * 42));
  });
});

it.each(['cement', 'tape', 'weld'] as const)('a %s join is named', (kind) => {
  render(JoinMark, { kind });
  expect(screen.getByRole('img', { name: `${kind} join` })).toBeTruthy();
});
