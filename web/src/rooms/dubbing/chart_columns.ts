// Where the columns of the chart stand. Unit: px.
export const RUNNING = 74;
export const FILM = 66;
export const SHOT = 190;
export const HANDS = 132;
/** A column is at least so wide; with more columns the chart goes off to the right. */
export const LEAST = 104;

export interface ColumnPlace {
  readonly left: number;
  readonly width: number;
}

export interface ChartPlaces {
  readonly film: number;
  readonly shot: number;
  readonly columns: readonly ColumnPlace[];
  readonly hands: number;
  readonly whole: number;
}

/** The columns of so many sources in so much room. */
export function chartPlaces(room: number, sources: number): ChartPlaces {
  const before = RUNNING + FILM + SHOT;
  const free = room - before - HANDS;
  const width = Math.max(LEAST, Math.floor(free / Math.max(sources, 1)));
  const columns = Array.from({ length: sources }, (_, nth) => ({
    left: before + nth * width,
    width,
  }));
  const end = before + sources * width;
  const hands = sources === 0 ? Math.max(end, room - HANDS) : end;
  return {
    film: RUNNING,
    shot: RUNNING + FILM,
    columns,
    hands,
    whole: Math.max(room, hands + HANDS),
  };
}
