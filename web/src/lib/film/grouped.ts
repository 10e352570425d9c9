// Numbers as the sheets write them: a comma for each thousand, a true minus.

/** A whole number as people read it: 2724 as `2,724`. */
export function grouped(count: number): string {
  if (!Number.isInteger(count)) throw new RangeError(`not a whole number: ${count}`);
  const digits = String(Math.abs(count)).replace(/\B(?=(\d{3})+$)/g, ',');
  return count < 0 ? `−${digits}` : digits;
}

/** The same with its sign always said: `+18`, `−45`, `0`. */
export function signed(count: number): string {
  return count > 0 ? `+${grouped(count)}` : grouped(count);
}

/** A whole number as it was typed, with or without commas; null when it is none. */
export function parseGrouped(text: string): number | null {
  const plain = text.trim();
  if (!/^\d{1,3}(,\d{3})+$|^\d+$/.test(plain)) return null;
  const count = Number(plain.replaceAll(',', ''));
  return Number.isSafeInteger(count) ? count : null;
}
