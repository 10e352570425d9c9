import { render, screen } from '@testing-library/svelte';
import { expect, it, vi } from 'vitest';
import Flag from './Flag.svelte';

it('says that it is a sign, of what kind and how much', () => {
  const { container } = render(Flag, { kind: 'hair', measure: '216 fr' });
  expect(container.textContent?.replace(/\s+/g, ' ').trim()).toBe('Sign: hair 216 fr');
  expect(screen.queryByRole('button')).toBeNull();
});

it('opens the pictures where there are some', () => {
  const onopen = vi.fn();
  render(Flag, { kind: 'hair', measure: '216 fr', onopen });
  screen.getByRole('button', { name: /hair 216 fr ?, opens the pictures/ }).click();
  expect(onopen).toHaveBeenCalledOnce();
});
