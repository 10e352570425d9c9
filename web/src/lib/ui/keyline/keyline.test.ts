import { fireEvent, render, screen, within } from '@testing-library/svelte';
import { expect, it } from 'vitest';
import Keyline from './Keyline.svelte';
import { drawnArrow, keySpoken, OR } from './key_names';

const keys = [
  { keys: ['up', 'down'], words: 'one frame' },
  { keys: ['Tab'], words: 'next join' },
];

it('draws the arrows and says them in words', () => {
  expect(drawnArrow('left')).toContain('M12 7');
  expect(drawnArrow('Tab')).toBeUndefined();
  expect(keySpoken('left')).toBe('left arrow');
  render(Keyline, { keys });
  const [first] = within(screen.getByRole('list', { name: 'Keys' })).getAllByRole('listitem');
  expect(first?.textContent?.replace(/\s+/g, ' ')).toContain('up arrow');
  expect(first?.querySelectorAll('svg')).toHaveLength(2);
});

it('two keys of which either does it stand with a word between them', () => {
  render(Keyline, { keys: [{ keys: ['Insert', OR, '/'], words: 'lay in' }] });
  const [entry] = screen.getAllByRole('listitem');
  expect([...(entry?.querySelectorAll('kbd') ?? [])].map((key) => key.textContent?.trim())).toEqual(
    ['Insert', '/'],
  );
  expect(entry?.textContent?.replace(/\s+/g, ' ').trim()).toBe('Insert or / lay in');
});

it('opens the sheet of all keys', async () => {
  render(Keyline, { keys, all: [{ heading: 'At the join', keys }] });
  await fireEvent.click(screen.getByRole('button', { name: /all keys/ }));
  const sheet = screen.getByRole('dialog', { name: 'All keys' });
  expect(within(sheet).getByRole('heading', { name: 'At the join' })).toBeTruthy();
});

it('says that a change is kept, and only then', async () => {
  const { rerender } = render(Keyline, { keys });
  expect(screen.queryByText('kept')).toBeNull();
  await rerender({ kept: true });
  expect(screen.getByText('kept')).toBeTruthy();
});
