import { render, screen } from '@testing-library/svelte';
import { createRawSnippet } from 'svelte';
import { expect, it, vi } from 'vitest';
import Button from './Button.svelte';

const words = (text: string) => createRawSnippet(() => ({ render: () => `<span>${text}</span>` }));

it('is named by its verb and its small words, and tells when it is pressed', () => {
  const onclick = vi.fn();
  render(Button, { children: words('Start 8 at R1·2940'), small: '1 frame later', onclick });
  screen.getByRole('button', { name: 'Start 8 at R1·2940 1 frame later' }).click();
  expect(onclick).toHaveBeenCalledOnce();
});

it('never sends a form unless asked to, and is deaf while disabled', () => {
  const onclick = vi.fn();
  render(Button, { children: words('Lay in'), disabled: true, onclick });
  const button = screen.getByRole<HTMLButtonElement>('button', { name: 'Lay in' });
  button.click();
  expect(button.type).toBe('button');
  expect(onclick).not.toHaveBeenCalled();
});
