import { fireEvent, render, screen } from '@testing-library/svelte';
import { describe, expect, it, vi } from 'vitest';
import Tabs from './Tabs.svelte';
import { nextTab } from './walk';

describe('walking among tabs', () => {
  it.each([
    ['ArrowRight', 0, 1],
    ['ArrowRight', 2, 0],
    ['ArrowLeft', 0, 2],
    ['Home', 2, 0],
    ['End', 0, 2],
  ])('%s from %i goes to %i', (key, at, to) => expect(nextTab(key, at, 3)).toBe(to));
  it('leaves other keys to the room', () => expect(nextTab('ArrowDown', 0, 3)).toBeNull());
});

it('are links to rooms, the one where we stand marked', () => {
  const tabs = [
    { id: 'rolls', words: 'Rolls', href: '#rolls' },
    { id: 'cutting', words: 'Cutting', href: '#cutting' },
  ];
  render(Tabs, { label: 'Rooms', tabs, chosen: 'cutting' });
  expect(screen.getByRole('navigation', { name: 'Rooms' })).toBeTruthy();
  expect(screen.getByRole('link', { name: 'Cutting' }).getAttribute('aria-current')).toBe('page');
  expect(screen.getByRole('link', { name: 'Rolls' }).getAttribute('aria-current')).toBeNull();
});

it('are tabs of a panel where they have no address; the arrows choose', async () => {
  const onchoose = vi.fn();
  const tabs = [
    { id: 'pages', words: 'Pages' },
    { id: 'rows', words: 'Rows' },
  ];
  render(Tabs, { label: 'Sheets', tabs, chosen: 'pages', onchoose });
  const [pages, rows] = screen.getAllByRole('tab');
  expect([pages?.tabIndex, rows?.tabIndex]).toEqual([0, -1]);
  await fireEvent.keyDown(pages as HTMLElement, { key: 'ArrowRight' });
  expect(onchoose).toHaveBeenCalledExactlyOnceWith('rows');
  expect(document.activeElement).toBe(rows);
});
