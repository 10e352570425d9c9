// Where one is: which film, which room, and at what. The address of the browser
// is the only place where this stands, so that going back and reloading work.

export const ROOMS = [
  'script',
  'rolls',
  'cutting',
  'titles',
  'dubbing',
  'bench',
  'screening',
] as const;
export type Room = (typeof ROOMS)[number];

export interface Place {
  /** The film; null on the shelf. */
  readonly film: string | null;
  readonly room: Room;
  /** The roll, version, frame or join one is at, by name. */
  readonly at: Readonly<Record<string, string>>;
}

const SHELF: Place = { film: null, room: 'rolls', at: {} };

export function placeOf(url: URL): Place {
  const [head, film, room] = url.pathname.split('/').filter((part) => part !== '');
  if (head !== 'film' || !film) return SHELF;
  const known = ROOMS.find((one) => one === room);
  return {
    film: decodeURIComponent(film),
    room: known ?? 'rolls',
    at: Object.fromEntries(url.searchParams),
  };
}

export function pathOf(place: Place): string {
  if (place.film === null) return '/';
  const at = new URLSearchParams(place.at).toString();
  return `/film/${encodeURIComponent(place.film)}/${place.room}${at ? `?${at}` : ''}`;
}

export class Address {
  place = $state.raw<Place>(SHELF);

  constructor(private readonly window_: Window = window) {
    this.place = placeOf(new URL(window_.location.href));
    window_.addEventListener('popstate', () => {
      this.place = placeOf(new URL(window_.location.href));
    });
  }

  /** Goes somewhere; the browser's way back leads here. */
  go(place: Place): void {
    this.place = place;
    this.window_.history.pushState(null, '', pathOf(place));
  }

  /** Goes to a room of the same film. */
  goTo(room: Room, at: Record<string, string> = {}): void {
    this.go({ film: this.place.film, room, at });
  }

  /** Says where in the room one is; the way back skips it. */
  note(at: Record<string, string | null>): void {
    const all: Record<string, string> = { ...this.place.at };
    for (const [name, value] of Object.entries(at)) {
      if (value === null) delete all[name];
      else all[name] = value;
    }
    this.place = { ...this.place, at: all };
    this.window_.history.replaceState(null, '', pathOf(this.place));
  }
}
