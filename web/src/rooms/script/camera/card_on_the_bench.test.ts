import { fireEvent, render, screen, waitFor, within } from '@testing-library/svelte';
import { expect, it, vi } from 'vitest';
import { Refused } from '$lib/api/server';
import CameraCard from './CameraCard.svelte';
import { GROUPS } from './calculators';
import { PretendCamera } from './pretend_camera';

const film = { gauge: 'super8', speed: '18', framesPerFoot: 72 };

function laid(desk = new PretendCamera()) {
  const onuse = vi.fn();
  const onaway = vi.fn();
  render(CameraCard, { desk, film, onuse, onaway });
  return { desk, onuse, onaway };
}

it('lists every calculator in one group of choices', () => {
  laid();
  const list = screen.getByRole('group', { name: 'What is to be reckoned' });
  const count = GROUPS.reduce((sum, group) => sum + group.calculators.length, 0);
  expect(within(list).getAllByRole('radio')).toHaveLength(count);
  expect(within(list).getByRole('radio', { name: 'Framing' })).toHaveProperty('checked', true);
});

it('answers when the hand rests, with plates, drawing and the sum opened', async () => {
  const { desk } = laid();
  expect(screen.queryByText('How it was reckoned')).toBeNull();
  expect(await screen.findByText('How it was reckoned')).toBeTruthy();
  expect(screen.getByRole('img', { name: /standing person/ })).toBeTruthy();
  expect(
    screen.getByText('lens × (1 + height shown ÷ height of the image)', { exact: false }),
  ).toBeTruthy();
  expect(desk.asked).toHaveLength(1);
});

it('asks at once on Enter', async () => {
  const { desk } = laid();
  const lens = screen.getByRole('textbox', { name: 'Lens, mm' });
  await fireEvent.input(lens, { target: { value: '25' } });
  await fireEvent.keyDown(lens, { key: 'Enter' });
  expect(desk.asked.at(-1)?.query).toMatchObject({ lens_mm: 25 });
});

it('writes its line into the script', async () => {
  const { onuse } = laid();
  await fireEvent.click(await screen.findByRole('button', { name: 'Write into the script' }));
  expect(onuse).toHaveBeenCalledWith('medium close: 12.5 mm lens, 1.76 m');
  expect(screen.getByText('Written.')).toBeTruthy();
});

it('takes another view up from the list of sizes', async () => {
  const { desk } = laid();
  await fireEvent.click(await screen.findByRole('button', { name: 'full' }));
  await waitFor(() => expect(desk.asked.at(-1)?.query).toMatchObject({ size: 'full' }));
});

it('says a slip under its field, and refuses nothing silently', async () => {
  const desk = new PretendCamera();
  desk.refuses = new Refused(
    { code: 'camera.unsaid', message: 'two make the third', hint: 'say two', details: null },
    400,
  );
  laid(desk);
  expect(await screen.findByText('This cannot be worked out.')).toBeTruthy();
  await fireEvent.input(screen.getByRole('textbox', { name: 'Lens, mm' }), {
    target: { value: 'wide' },
  });
  expect(await screen.findByText('Write a figure, such as 12.5.')).toBeTruthy();
});

it('warns before it sends anybody to look for the sun', async () => {
  laid();
  await fireEvent.click(screen.getByRole('radio', { name: 'Sun' }));
  expect(screen.getByText(/Never look at the sun/)).toBeTruthy();
  expect(screen.getByRole('textbox', { name: 'North' })).toBeTruthy();
});

it('is put away', async () => {
  const { onaway } = laid();
  await fireEvent.click(screen.getByRole('button', { name: 'Put away' }));
  expect(onaway).toHaveBeenCalledOnce();
});
