// Sizes of files, as people say them.

const UNITS = ['bytes', 'kB', 'MB', 'GB', 'TB'] as const;

/** `1.2 GB`, `640 kB`; decimal, as the makers of disks count. */
export function sizeWords(bytes: number): string {
  let [value, unit] = [bytes, 0];
  while (value >= 999.5 && unit < UNITS.length - 1) {
    value /= 1000;
    unit += 1;
  }
  const places = unit > 0 && value < 9.95 ? 1 : 0;
  return `${value.toFixed(places)} ${UNITS[unit]}`;
}
