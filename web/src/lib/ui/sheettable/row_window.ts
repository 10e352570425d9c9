// Which rows of a long sheet are drawn, and where a key leads in it. Plain
// numbers, no page needed.

/** A part of the rows. */
export interface RowWindow {
  readonly first: number;
  /** The first that is not drawn any more. */
  readonly end: number;
}

/** The rows in sight with some to spare above and below, so that scrolling shows no gap. */
export function rowsInSight(
  scrolled: number,
  sight: number,
  row: number,
  count: number,
  spare: number,
): RowWindow {
  if (row <= 0) return { first: 0, end: Math.min(count, 2 * spare) };
  const first = Math.floor(scrolled / row) - spare;
  const end = Math.ceil((scrolled + sight) / row) + spare;
  return { first: Math.max(0, Math.min(first, count)), end: Math.max(0, Math.min(end, count)) };
}

/** How far to scroll so that a row stands wholly in sight; as it is where it does already. */
export function scrolledTo(place: number, scrolled: number, sight: number, row: number): number {
  const top = place * row;
  if (top < scrolled) return top;
  if (top + row > scrolled + sight) return Math.max(0, top + row - sight);
  return scrolled;
}

/** The row that a key leads to; null where the key is not for the sheet. */
export function rowForKey(key: string, chosen: number, count: number, page: number): number | null {
  const last = count - 1;
  if (last < 0) return null;
  const step = { ArrowDown: 1, ArrowUp: -1, PageDown: page, PageUp: -page }[key];
  if (step !== undefined) {
    if (chosen < 0) return step > 0 ? 0 : last;
    return Math.min(last, Math.max(0, chosen + step));
  }
  if (key === 'Home') return 0;
  if (key === 'End') return last;
  return null;
}
