import { render, screen } from '@testing-library/svelte';
import { describe, expect, it, vi } from 'vitest';
import Progress from './Progress.svelte';
import { timeLeftWords } from './time_left';

describe('the time left', () => {
  it.each([
    [null, 'time left not known yet'],
    [Number.NaN, 'time left not known yet'],
    [2, 'a few seconds left'],
    [13, 'about 15 s left'],
    [41, 'about 40 s left'],
    [89, 'about 90 s left'],
    [170, 'about 3 min left'],
    [4 * 3600 + 900, 'about 4.5 h left'],
  ])('%s is "%s"', (seconds, words) => expect(timeLeftWords(seconds)).toBe(words));
});

describe('work that takes a while', () => {
  it('says how many frames are done of how many', () => {
    render(Progress, { label: 'Reading R2', done: 1240, all: 3600, left: 41 });
    const bar = screen.getByRole('progressbar', { name: 'Reading R2' });
    expect(bar.getAttribute('aria-valuetext')).toBe('1,240 of 3,600 frames');
    expect(bar.getAttribute('aria-valuenow')).toBe('1240');
    expect(bar.querySelector<HTMLElement>('.film')?.style.height).toMatch(/^34\.4/);
    expect(screen.queryByRole('button')).toBeNull();
  });

  it('counts on where the end is not known', () => {
    render(Progress, { label: 'Reading R2', done: 18, all: null });
    const bar = screen.getByRole('progressbar');
    expect(bar.getAttribute('aria-valuenow')).toBeNull();
    expect(bar.getAttribute('aria-valuetext')).toBe('18 frames so far');
  });

  it('can be stopped once', async () => {
    const onstop = vi.fn();
    const shown = { label: 'Reading R2', done: 1, all: 9, onstop };
    const { rerender } = render(Progress, shown);
    screen.getByRole('button', { name: 'Stop' }).click();
    expect(onstop).toHaveBeenCalledOnce();
    await rerender({ ...shown, stopping: true });
    expect(screen.getByRole<HTMLButtonElement>('button').disabled).toBe(true);
  });
});
