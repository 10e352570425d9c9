import { fireEvent, render, screen } from '@testing-library/svelte';
import { tick } from 'svelte';
import { expect, it } from 'vitest';
import { footageSum } from '$lib/film/sums';
import Plate from './Plate.svelte';

const parts = [{ count: '37' }, { words: 'ft' }, { count: '60' }, { words: 'fr' }];

it('reads as one count with its unit in words', () => {
  const { container } = render(Plate, { label: 'length of the cut', parts });
  expect(container.textContent?.replace(/\s+/g, ' ').trim()).toBe('length of the cut: 37 ft 60 fr');
  expect(screen.queryByRole('button')).toBeNull();
});

it('opens its sum, and Esc puts it away and gives the focus back', async () => {
  render(Plate, { label: 'length of the cut', parts, sum: footageSum(2724, 72) });
  const plate = screen.getByRole('button', { name: /37 ft 60 fr , opens its sum/ });
  await fireEvent.click(plate);
  const card = screen.getByRole('dialog', { name: 'The sum of length of the cut' });
  expect(plate.getAttribute('aria-expanded')).toBe('true');
  expect(card.textContent).toContain('2,724 frames ÷ 72 to the foot');
  expect(document.activeElement).toBe(card);

  await fireEvent.keyDown(card, { key: 'Escape' });
  await tick();
  expect(screen.queryByRole('dialog')).toBeNull();
  expect(document.activeElement).toBe(plate);
});

it('is put away by a press elsewhere, and by a second press on the plate', async () => {
  render(Plate, { parts, sum: footageSum(2724, 72) });
  const plate = screen.getByRole('button');
  await fireEvent.click(plate);
  await fireEvent.pointerDown(document.body);
  expect(screen.queryByRole('dialog')).toBeNull();
  await fireEvent.click(plate);
  await fireEvent.click(plate);
  expect(screen.queryByRole('dialog')).toBeNull();
});
