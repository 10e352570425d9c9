// A line of the camera report, and the table that brings it in.
import type { LinedTake } from './script_types';

export interface ReportLine {
  readonly roll: string;
  readonly slate: string;
  readonly take: string;
  /** The counter: frames, or feet and frames as `12+34`. */
  readonly start: string;
  readonly end: string;
  readonly mark: string;
  readonly remark: string;
}

/** The take of a setup that comes next. */
export function nextTake(takes: readonly LinedTake[], setup: string): number {
  const name = setup.trim().toUpperCase();
  const all = takes.filter((take) => take.setup.toUpperCase() === name);
  return Math.max(0, ...all.map((take) => take.take)) + 1;
}

/** Where the counter of a roll stands. */
export function lastEnd(takes: readonly LinedTake[], roll: string): number {
  const all = takes.filter((take) => take.roll === roll.trim());
  return Math.max(0, ...all.map((take) => take.out));
}

const COLUMNS = ['roll', 'slate', 'take', 'start', 'end', 'mark', 'remark'] as const;

/** The line as a table, every cell in quotes. */
export function reportTable(line: ReportLine): string {
  const cell = (text: string) => `"${text.trim().replaceAll('"', '""')}"`;
  const row = COLUMNS.map((column) => cell(line[column])).join(',');
  return `${COLUMNS.join(',')}\n${row}\n`;
}
