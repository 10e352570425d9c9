import { render, screen } from '@testing-library/svelte';
import { createRawSnippet } from 'svelte';
import { expect, it } from 'vitest';
import LightTable from './LightTable.svelte';

const children = createRawSnippet(() => ({ render: () => '<p>film</p>' }));

it('is a named place where the light inks stand', () => {
  render(LightTable, { label: 'Roll R1 as film', children });
  const table = screen.getByRole('region', { name: 'Roll R1 as film' });
  expect(table.dataset['on']).toBe('glass');
  expect(table.tabIndex).toBe(-1);
});

it('takes the focus only where a room asks for it', () => {
  render(LightTable, { label: 'R1', focusable: true, children });
  expect(screen.getByRole('region', { name: 'R1' }).tabIndex).toBe(0);
});

it('gives its keys to the room where it is asked to', () => {
  render(LightTable, { label: 'the join', focusable: true, keys: 'room', children });
  expect(screen.getByRole('region', { name: 'the join' }).dataset['keys']).toBe('room');
});
