// How much longer, in words that do not dance while one looks.

const rounded = (value: number, step: number) => Math.max(step, Math.round(value / step) * step);

/** `about 40 s left`, `about 3 min left`; null says that it is not known yet. */
export function timeLeftWords(seconds: number | null): string {
  if (seconds === null || !Number.isFinite(seconds)) return 'time left not known yet';
  if (seconds < 5) return 'a few seconds left';
  if (seconds < 90) return `about ${rounded(seconds, seconds < 30 ? 5 : 10)} s left`;
  if (seconds < 3600) return `about ${rounded(seconds / 60, 1)} min left`;
  return `about ${rounded(seconds / 3600, 0.5)} h left`;
}
