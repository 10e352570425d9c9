// Which pieces are held, as short as it can be said.

/** `3 to 6`, `3, 5 and 9`, `14 pieces`; places are counted from 0 and said from 1. */
export function heldWords(places: readonly number[]): string {
  const [first, last] = [places[0], places.at(-1)];
  if (first === undefined || last === undefined) return 'no piece';
  if (places.length === 1) return `${first + 1}`;
  if (last - first + 1 === places.length) return `${first + 1} to ${last + 1}`;
  if (places.length > 3) return `${places.length} pieces`;
  const said = places.map((place) => `${place + 1}`);
  return `${said.slice(0, -1).join(', ')} and ${said.at(-1)}`;
}
