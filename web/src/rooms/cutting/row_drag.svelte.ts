// A row of the sheet taken with the mouse and put down between two others.
// Whoever has no mouse moves it with Ctrl and the arrows.

/** Less than this is a press, not a pull. Unit: px. */
const PULL = 6;

/** Where a row that is put down at a height comes to stand. */
export function placeOfDrop(from: number, y: number, rowHeight: number, rows: number): number {
  const line = Math.max(0, Math.min(Math.round(y / rowHeight), rows));
  return line > from ? line - 1 : line;
}

interface Pull {
  readonly from: number;
  readonly startY: number;
  pulling: boolean;
}

export class RowDrag {
  /** The element that holds the rows. */
  rows = $state<HTMLElement>();
  /** The line where the row would come to stand. Unit: px from the top of the rows. */
  line = $state<number | null>(null);
  /** A row was put down a moment ago: the press that ends it chooses nothing. */
  dropped = false;

  private pull: Pull | null = null;

  constructor(private readonly onmove: (from: number, to: number) => void) {}

  begin = (event: PointerEvent): void => {
    this.dropped = false;
    const row = rowOf(event.target);
    if (event.button !== 0 || row === null) return;
    this.pull = { from: row, startY: event.clientY, pulling: false };
  };

  move = (event: PointerEvent): void => {
    const { pull, rows } = this;
    if (!pull || !rows) return;
    if (!pull.pulling && Math.abs(event.clientY - pull.startY) < PULL) return;
    if (!pull.pulling) {
      rows.setPointerCapture(event.pointerId);
      // The press has begun to mark words; a row that is carried marks none.
      getSelection()?.removeAllRanges();
    }
    pull.pulling = true;
    const at = this.measure(event);
    if (!at) return;
    const line = Math.max(0, Math.min(Math.round(at.y / at.height), at.count));
    this.line = at.offset + line * at.height;
  };

  end = (event: PointerEvent): void => {
    const { pull } = this;
    const at = pull?.pulling ? this.measure(event) : null;
    this.cancel();
    if (!pull || !at) return;
    this.dropped = true;
    const to = placeOfDrop(pull.from, at.y, at.height, at.count);
    if (to !== pull.from) this.onmove(pull.from, to);
  };

  cancel = (): void => {
    this.pull = null;
    this.line = null;
  };

  /** Where the pointer is among all rows, drawn or not. */
  private measure(event: PointerEvent) {
    const row = this.rows?.querySelector<HTMLElement>('[role="rowgroup"] [role="row"]');
    const grid = this.rows?.querySelector('[role="grid"]');
    if (!row || !grid || !this.rows) return null;
    const first = Number(row.getAttribute('aria-rowindex')) - 2;
    const box = row.getBoundingClientRect();
    const count = Number(grid.getAttribute('aria-rowcount')) - 1;
    const top = box.top - first * box.height;
    return {
      y: event.clientY - top,
      height: box.height,
      count,
      offset: top - this.rows.getBoundingClientRect().top,
    };
  }
}

function rowOf(target: EventTarget | null): number | null {
  if (!(target instanceof Element) || target.closest('button')) return null;
  const row = target.closest('[role="rowgroup"] [role="row"]');
  return row ? Number(row.getAttribute('aria-rowindex')) - 2 : null;
}
