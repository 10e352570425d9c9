// Which pin somebody asks for.

/** The number of a pin; null for the next free one, nothing where it is neither. */
export function pinAsked(typed: string): number | null | undefined {
  const text = typed.trim();
  if (text === '') return null;
  return /^[1-9]\d{0,3}$/.test(text) ? Number(text) : undefined;
}
