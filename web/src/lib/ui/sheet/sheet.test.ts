import { render, screen } from '@testing-library/svelte';
import { createRawSnippet } from 'svelte';
import { expect, it } from 'vitest';
import Sheet from './Sheet.svelte';

it('is a region named by its heading, at the depth asked for', () => {
  const children = createRawSnippet(() => ({ render: () => '<p>23 pieces</p>' }));
  render(Sheet, { heading: 'Cutting sheet', level: 3, children });
  const sheet = screen.getByRole('region', { name: 'Cutting sheet' });
  expect(screen.getByRole('heading', { level: 3, name: 'Cutting sheet' })).toBeTruthy();
  expect(sheet.textContent).toContain('23 pieces');
});
