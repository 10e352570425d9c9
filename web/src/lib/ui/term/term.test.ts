import { fireEvent, render, screen } from '@testing-library/svelte';
import { createRawSnippet } from 'svelte';
import { expect, it } from 'vitest';
import { meaningOf } from '$lib/words/glossary';
import Term from './Term.svelte';

it('opens its meaning on the word itself, however it is bent', async () => {
  const children = createRawSnippet(() => ({ render: () => '<span>joins</span>' }));
  render(Term, { term: 'join', children });
  const word = screen.getByRole('button', { name: 'joins' });
  await fireEvent.click(word);
  const card = screen.getByRole('dialog', { name: 'What join means' });
  expect(card.textContent).toContain(meaningOf('join'));
  await fireEvent.keyDown(card, { key: 'Escape' });
  expect(screen.queryByRole('dialog')).toBeNull();
});
