import { fireEvent, render, screen } from '@testing-library/svelte';
import { expect, it, vi } from 'vitest';
import Segment from './Segment.svelte';

const choices = [
  { value: 'circled', words: 'circled' },
  { value: 'hold', words: 'hold' },
  { value: 'ng', words: 'NG' },
];

it('is a named group with one choice taken, and tells of another', async () => {
  const onchoose = vi.fn();
  render(Segment, { label: 'The take', choices, value: 'hold', onchoose });
  expect(screen.getByRole('group', { name: 'The take' })).toBeTruthy();
  expect(screen.getByRole<HTMLInputElement>('radio', { name: 'hold' }).checked).toBe(true);

  await fireEvent.click(screen.getByRole('radio', { name: 'NG' }));
  expect(onchoose).toHaveBeenCalledExactlyOnceWith('ng');
  expect(screen.getByRole<HTMLInputElement>('radio', { name: 'hold' }).checked).toBe(false);
});

it('keeps two groups on one page apart', () => {
  render(Segment, { label: 'one', choices, value: 'hold' });
  render(Segment, { label: 'two', choices, value: 'hold' });
  const names = screen.getAllByRole<HTMLInputElement>('radio').map((radio) => radio.name);
  expect(new Set(names).size).toBe(2);
});
