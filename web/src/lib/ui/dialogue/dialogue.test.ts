import { fireEvent, render, screen } from '@testing-library/svelte';
import { createRawSnippet, tick } from 'svelte';
import { expect, it, vi } from 'vitest';
import Dialogue from './Dialogue.svelte';

const children = createRawSnippet(() => ({ render: () => '<p>13 takes go with it.</p>' }));
const heading = 'Take R2 out?';

it('is named by its heading while open, and holds nothing while shut', async () => {
  const { rerender } = render(Dialogue, { open: false, heading, children });
  expect(screen.queryByText('13 takes go with it.')).toBeNull();
  await rerender({ open: true });
  expect(screen.getByRole('dialog', { name: heading })).toBeTruthy();
  expect(screen.getByText('13 takes go with it.')).toBeTruthy();
});

it('tells once that it was put away', async () => {
  const onclose = vi.fn();
  render(Dialogue, { open: true, heading, children, onclose });
  screen.getByRole('button', { name: 'Put away' }).click();
  await tick();
  expect(onclose).toHaveBeenCalledOnce();
  expect(screen.queryByRole('dialog')).toBeNull();
});

it('laid open again, it does not heed that it was closed before', async () => {
  const onclose = vi.fn();
  render(Dialogue, { open: true, heading, children, onclose });
  // A browser tells of a closing only when it comes to it.
  screen.getByRole('dialog').dispatchEvent(new Event('close'));
  await tick();
  expect(onclose).not.toHaveBeenCalled();
  expect(screen.getByRole('dialog')).toBeTruthy();
});

it('is put away by a press beside it only where it may be', async () => {
  const onclose = vi.fn();
  render(Dialogue, { open: true, heading, children, onclose, closable: false });
  await fireEvent.pointerDown(screen.getByRole('dialog'));
  expect(onclose).not.toHaveBeenCalled();
  expect(screen.queryByRole('button')).toBeNull();
});

it('keeps its keys from the room beneath', async () => {
  const heard = vi.fn();
  document.addEventListener('keydown', heard);
  render(Dialogue, { open: true, heading, children });
  await fireEvent.keyDown(screen.getByRole('dialog'), { key: 'ArrowDown' });
  expect(heard).not.toHaveBeenCalled();
  document.removeEventListener('keydown', heard);
});
