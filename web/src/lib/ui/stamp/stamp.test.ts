import { render } from '@testing-library/svelte';
import { expect, it } from 'vitest';
import Stamp from './Stamp.svelte';

it('reads as one phrase, whatever its lines', () => {
  const { container } = render(Stamp, { lines: ['one frame', 'short'] });
  expect(container.textContent?.replace(/\s+/g, ' ').trim()).toBe('one frame short');
});

it('has a filter of its own, so that two stamps on a page do not share one', () => {
  render(Stamp, { lines: ['a'] });
  render(Stamp, { lines: ['b'] });
  const ids = [...document.querySelectorAll('filter')].map((filter) => filter.id);
  expect(new Set(ids).size).toBe(2);
});
