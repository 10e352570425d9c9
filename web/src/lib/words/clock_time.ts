// The time of day as a clock on the wall has it.

/** `14:02`, whatever the system's own way of writing it is. */
export function clockTime(at: Date): string {
  const two = (count: number) => String(count).padStart(2, '0');
  return `${two(at.getHours())}:${two(at.getMinutes())}`;
}
