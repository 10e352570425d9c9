import { render } from '@testing-library/svelte';
import { expect, it } from 'vitest';
import Can from './Can.svelte';

function filmRadius(wound: number): number {
  const { container } = render(Can, { wound });
  return Number(container.querySelector('.film')?.getAttribute('r') ?? 0);
}

it('fills as the roll is read, and never over the tin', () => {
  expect(filmRadius(0)).toBe(0);
  expect(filmRadius(0.5)).toBeGreaterThan(filmRadius(0.1));
  expect(filmRadius(7)).toBe(filmRadius(1));
});
