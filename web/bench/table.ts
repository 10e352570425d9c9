// Plain tables; the last columns say the limit and what the measure is worth beside it.

/** `meets`, or by how much it misses. */
export function verdict(measure: number, most: number, words: (measure: number) => string): string {
  // Not a number is no measure, and meets nothing.
  return measure <= most ? 'meets' : `MISSES by ${words(measure - most)}`;
}

/** Rows of words under a head; the first and the last column begin at the left. */
export class Table {
  private readonly rows: (readonly string[])[];

  constructor(head: readonly string[] = ['', 'measured', 'limit', '']) {
    this.rows = [head];
  }

  row(...cells: readonly string[]): void {
    this.rows.push(cells);
  }

  /** A measure that must not exceed its limit. */
  limited(what: string, measure: number, most: number, words: (measure: number) => string): void {
    this.row(what, words(measure), words(most), verdict(measure, most, words));
  }

  /** A measure without a limit. */
  told(what: string, measure: string, said = 'reported'): void {
    this.row(what, measure, '-', said);
  }

  toString(): string {
    const columns = this.rows[0]?.length ?? 0;
    const widths = Array.from({ length: columns }, (_, column) =>
      this.rows.reduce((most, row) => Math.max(most, [...(row[column] ?? '')].length), 0),
    );
    return this.rows.map((row) => lineOf(row, widths)).join('\n');
  }
}

function lineOf(row: readonly string[], widths: readonly number[]): string {
  const cells = widths.map((width, column) => {
    const cell = row[column] ?? '';
    return column === 0 || column === widths.length - 1 ? cell.padEnd(width) : cell.padStart(width);
  });
  return cells.join('  ').trimEnd();
}
