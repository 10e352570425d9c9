import { fireEvent, render, screen } from '@testing-library/svelte';
import { expect, it, vi } from 'vitest';
import Field from './Field.svelte';

it('is named, and its hint and its fault are read with it', () => {
  render(Field, {
    label: 'first kept',
    value: 'R2·6o6',
    hint: 'Such as R2·606.',
    error: 'No frame.',
  });
  const field = screen.getByRole('textbox', { name: 'first kept' });
  const words = (field.getAttribute('aria-describedby') ?? '')
    .split(' ')
    .map((id) => document.getElementById(id)?.textContent);
  expect(words).toEqual(['Such as R2·606.', 'No frame.']);
  expect(field.getAttribute('aria-invalid')).toBe('true');
});

it('keeps on Enter, puts back on Esc, and owns its keys', async () => {
  const onkeep = vi.fn();
  const onputback = vi.fn();
  const room = vi.fn();
  document.addEventListener('keydown', room);
  render(Field, { label: 'length', value: '37ft60', onkeep, onputback });
  const field = screen.getByRole('textbox');
  await fireEvent.keyDown(field, { key: 'Enter' });
  await fireEvent.change(field);
  await fireEvent.keyDown(field, { key: 'Escape' });
  await fireEvent.keyDown(field, { key: 'ArrowDown' });
  expect(onkeep).toHaveBeenCalledExactlyOnceWith('37ft60');
  expect(onputback).toHaveBeenCalledOnce();
  expect(room).not.toHaveBeenCalled();
  document.removeEventListener('keydown', room);
});

it.each(['line', 'box'] as const)('a %s takes no more letters than it has room for', (kind) => {
  render(Field, { label: 'note', value: '', kind, maxlength: 80 });
  expect(screen.getByRole<HTMLInputElement>('textbox').maxLength).toBe(80);
});

it('a box keeps its line breaks: Enter in it is a new line', async () => {
  const onkeep = vi.fn();
  render(Field, { label: 'note', value: 'a', kind: 'box', onkeep });
  await fireEvent.keyDown(screen.getByRole('textbox'), { key: 'Enter' });
  expect(onkeep).not.toHaveBeenCalled();
});

it('tells what is written as it is written', async () => {
  const oninput = vi.fn();
  render(Field, { label: 'length', value: '', oninput });
  await fireEvent.input(screen.getByRole('textbox'), { target: { value: '12ft' } });
  expect(oninput).toHaveBeenCalledExactlyOnceWith('12ft');
});

it('offers what is known, and takes anything else', async () => {
  const oninput = vi.fn();
  render(Field, { label: 'scene, letter', value: '', offers: ['1', '2A'], oninput });
  const field = screen.getByLabelText<HTMLInputElement>('scene, letter');
  expect([...(field.list?.options ?? [])].map((option) => option.value)).toEqual(['1', '2A']);
  await fireEvent.input(field, { target: { value: '7C' } });
  expect(oninput).toHaveBeenLastCalledWith('7C');
});
