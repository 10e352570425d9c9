// Timings of a tape counter as they are typed, as the form the program reads.

export interface TimingTyped {
  readonly count: string;
  readonly seconds: string;
}

/** `3:45`, `225` or `225,4` in seconds; nothing for anything else. */
export function secondsTyped(typed: string): number | null {
  const found = /^(?:(\d+):)?(\d+(?:[.,]\d+)?)$/.exec(typed.trim());
  if (!found) return null;
  const seconds = Number((found[2] ?? '').replace(',', '.'));
  if (found[1] !== undefined && seconds >= 60) return null;
  return Number(found[1] ?? 0) * 60 + seconds;
}

/** The form, once it is whole, or what is still to be done. */
export function timingsForm(rows: readonly TimingTyped[]): { text: string | null; says: string } {
  const typed = rows.filter((row) => row.count.trim() !== '' || row.seconds.trim() !== '');
  const read = typed.map((row) => ({
    count: Number(row.count.trim().replace(',', '.') || Number.NaN),
    seconds: secondsTyped(row.seconds),
  }));
  if (read.some((row) => !(row.count > 0) || row.seconds === null || row.seconds <= 0)) {
    return { text: null, says: 'Write each counter with its time, such as 120 and 3:45.' };
  }
  const forward = read.every((row, nth) => {
    const before = read[nth - 1];
    return !before || (row.count > before.count && (row.seconds ?? 0) > (before.seconds ?? 0));
  });
  if (!forward) return { text: null, says: 'Each counter and each time is later than the last.' };
  if (read.length < 3) return { text: null, says: 'Three timings, and the table is there.' };
  const lines = read.map((row) => `${String(row.count)},${String(row.seconds)}`);
  return { text: ['count,seconds', ...lines, ''].join('\n'), says: '' };
}
