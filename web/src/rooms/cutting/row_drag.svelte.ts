// A row of the sheet taken with the mouse and put down between two others.
// Whoever has no mouse moves it with Ctrl and the arrows.

/** Less than this is a press, not a pull. Unit: px. */
const PULL = 6;

/** The line between two rows that is nearest to a height; 0 is above the first. */
export function lineOfDrop(y: number, rowHeight: number, rows: number): number {
  return Math.max(0, Math.min(Math.round(y / rowHeight), rows));
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

  /** @param ondrop a row was put down at a line, 0 before the first. */
  constructor(private readonly ondrop: (row: number, line: number) => void) {}

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
    const line = lineOfDrop(at.y, at.height, at.count);
    this.line = at.offset + line * at.height;
  };

  end = (event: PointerEvent): void => {
    const { pull } = this;
    const at = pull?.pulling ? this.measure(event) : null;
    this.cancel();
    if (!pull || !at) return;
    this.dropped = true;
    this.ondrop(pull.from, lineOfDrop(at.y, at.height, at.count));
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
