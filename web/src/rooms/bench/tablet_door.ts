// How a tablet comes in, and which film it is let in for.
import { Refused, type Server, told } from '$lib/api/server';
import type { components } from '$lib/api/schema';

/** What a tablet knows of its film besides the bench. */
export type TabletFilm = components['schemas']['TabletFilmDocument'];

/** The film that this tablet was let in for; null where it is not let in. */
export async function filmOfTablet(server: Server): Promise<TabletFilm | null> {
  try {
    return await told(server.GET('/api/bench/tablet'));
  } catch (why) {
    if (isOutside(why)) return null;
    throw why;
  }
}

/** Comes in with the code that stands on the main machine. */
export function comeIn(server: Server, code: string, name: string): Promise<TabletFilm> {
  const body = { code: code.replace(/\D/g, ''), name };
  return told(server.POST('/api/bench/tablet', { body }));
}

/** Whether this was refused because the tablet is not let in, or no longer. */
export function isOutside(why: unknown): boolean {
  return why instanceof Refused && why.status === 401;
}

/**
 * The code out of the address that a camera has read, `…/#code=48291753`; it is taken
 * out of the address, since it opens once.
 */
export function codeOfAddress(place: Location = location): string {
  const code = /^#code=(\d+)$/.exec(place.hash)?.[1] ?? '';
  if (code) history.replaceState(null, '', place.pathname);
  return code;
}

/** Where a tablet asks for a picture of its film; none where the roll has none. */
export function tabletPicture(film: TabletFilm, roll: string, frame: number): string | undefined {
  return address(film, roll, `pictures/${frame}`, {});
}

/** The same, small, at least so high. Unit: px. */
export function tabletSmall(
  film: TabletFilm,
  roll: string,
  frame: number,
  height: number,
): string | undefined {
  return address(film, roll, `small/${frame}`, { height: String(height) });
}

function address(
  film: TabletFilm,
  roll: string,
  what: string,
  more: Record<string, string>,
): string | undefined {
  const pictures = film.rolls.find((one) => one.roll === roll)?.pictures;
  if (!pictures) return undefined;
  const query = new URLSearchParams({ ...more, pictures });
  return `/api/bench/tablet/rolls/${encodeURIComponent(roll)}/${what}?${query.toString()}`;
}
