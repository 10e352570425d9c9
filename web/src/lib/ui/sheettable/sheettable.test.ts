import { fireEvent, render, screen } from '@testing-library/svelte';
import { createRawSnippet } from 'svelte';
import { describe, expect, it, vi } from 'vitest';
import SheetTable from './SheetTable.svelte';
import { rowForKey, rowsInSight, scrolledTo } from './row_window';

describe('the rows that are drawn', () => {
  it('are those in sight and a few to spare', () => {
    expect(rowsInSight(560, 560, 56, 300, 6)).toEqual({ first: 4, end: 26 });
  });
  it('end with the sheet, and begin with it', () => {
    expect(rowsInSight(0, 560, 56, 300, 6)).toEqual({ first: 0, end: 16 });
    expect(rowsInSight(16_240, 560, 56, 300, 6)).toEqual({ first: 284, end: 300 });
    expect(rowsInSight(9_000, 560, 56, 3, 6)).toEqual({ first: 3, end: 3 });
  });
  it('are some while nothing has been measured yet', () => {
    expect(rowsInSight(0, 0, 0, 300, 6)).toEqual({ first: 0, end: 12 });
  });
});

describe('bringing a row into sight', () => {
  it('moves nothing where it is in sight', () => expect(scrolledTo(5, 112, 560, 56)).toBe(112));
  it('moves as little as it can upward', () => expect(scrolledTo(1, 112, 560, 56)).toBe(56));
  it('moves as little as it can downward', () => expect(scrolledTo(12, 0, 560, 56)).toBe(168));
});

describe('a key on the sheet', () => {
  it.each([
    ['ArrowDown', 4, 5],
    ['ArrowDown', 9, 9],
    ['ArrowUp', 0, 0],
    ['PageDown', 4, 7],
    ['PageUp', 1, 0],
    ['Home', 7, 0],
    ['End', 2, 9],
    ['ArrowDown', -1, 0],
    ['ArrowUp', -1, 9],
  ])('%s from %i leads to %i of ten', (key, from, to) => {
    expect(rowForKey(key, from, 10, 3)).toBe(to);
  });
  it('is left alone where it means nothing, or where there are no rows', () => {
    expect(rowForKey('a', 3, 10, 3)).toBeNull();
    expect(rowForKey('ArrowDown', -1, 0, 3)).toBeNull();
  });
});

const columns = [
  { id: 'no', heading: 'no.', width: '2rem' },
  { id: 'take', heading: 'take', width: '1fr' },
];
const rows = Array.from({ length: 300 }, (_, at) => ({ no: at + 1 }));
type Piece = (typeof rows)[number];
const cell = createRawSnippet<[string, Piece, number]>((column, row) => ({
  render: () => `<span>${column()} ${row().no}</span>`,
}));
const shown = { label: 'Cutting sheet', columns, rows, cell, key: (row: Piece) => row.no };

describe('a sheet of three hundred rows', () => {
  it('is a grid that says how long it is and draws only some', () => {
    render(SheetTable<Piece>, shown);
    expect(screen.getByRole('grid').getAttribute('aria-rowcount')).toBe('301');
    expect(screen.getAllByRole('columnheader').map((one) => one.textContent?.trim())).toEqual([
      'no.',
      'take',
    ]);
    expect(screen.getAllByRole('row').length).toBeLessThan(20);
  });

  it('is walked with the arrows and opened with Enter', async () => {
    const onchoose = vi.fn();
    const onopen = vi.fn();
    render(SheetTable<Piece>, { ...shown, chosen: 2, onchoose, onopen });
    const grid = screen.getByRole('grid');
    await fireEvent.keyDown(grid, { key: 'ArrowDown' });
    await fireEvent.keyDown(grid, { key: 'Enter' });
    expect(onchoose).toHaveBeenCalledExactlyOnceWith(3);
    expect(onopen).toHaveBeenCalledExactlyOnceWith(3);
    const active = grid.getAttribute('aria-activedescendant') ?? '';
    expect(document.getElementById(active)?.getAttribute('aria-selected')).toBe('true');
    expect(document.getElementById(active)?.textContent).toContain('take 4');
  });

  it('leaves keys with Ctrl to the room', async () => {
    const onchoose = vi.fn();
    render(SheetTable<Piece>, { ...shown, onchoose });
    const grid = screen.getByRole('grid');
    await fireEvent.keyDown(grid, { key: 'Home', ctrlKey: true });
    expect(onchoose).not.toHaveBeenCalled();
  });

  it('is chosen by a press, with what was held down', async () => {
    const onchoose = vi.fn();
    render(SheetTable<Piece>, { ...shown, onchoose });
    await fireEvent.click(screen.getByText('take 3'), { shiftKey: true });
    expect(onchoose).toHaveBeenCalledExactlyOnceWith(
      2,
      expect.objectContaining({ shiftKey: true }),
    );
  });

  it('marks the rows that are held together with the chosen one', () => {
    render(SheetTable<Piece>, { ...shown, chosen: 2, held: [1, 2] });
    const marked = screen
      .getAllByRole('row')
      .filter((row) => row.getAttribute('aria-selected') === 'true');
    expect(marked.map((row) => row.getAttribute('aria-rowindex'))).toEqual(['3', '4']);
    expect(screen.getByRole('grid').getAttribute('aria-multiselectable')).toBe('true');
  });

  it('shows its one sentence where there are no rows', () => {
    const empty = createRawSnippet(() => ({ render: () => '<p>Bring a take here.</p>' }));
    render(SheetTable<Piece>, { ...shown, rows: [], empty });
    expect(screen.getByText('Bring a take here.')).toBeTruthy();
  });
});
