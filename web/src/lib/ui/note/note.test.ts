import { render } from '@testing-library/svelte';
import { expect, it } from 'vitest';
import Note from './Note.svelte';

it('holds the words as they were written, line breaks too', () => {
  const { container } = render(Note, { words: 'gate blown\nout here' });
  expect(container.querySelector('blockquote')?.textContent).toBe('gate blown\nout here');
  expect(container.querySelector('figcaption')).toBeNull();
});

it('is signed and dated where two people write', () => {
  const { container } = render(Note, { words: 'softer', by: 'Mara', on: '3 May' });
  expect(container.querySelector('figcaption')?.textContent).toBe('Mara, 3 May');
});
