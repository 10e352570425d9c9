// Tallies as a hand keeps them: in fives.

export interface Gate {
  /** Bars drawn, and bars that the gate will have. */
  readonly done: number;
  readonly all: number;
}

export interface TallyPlan {
  readonly gates: readonly Gate[];
}

/** No more gates than this stand beside each other. */
export const MOST_GATES = 10;
/** Of a long tally, so many full gates are left in sight. */
const BEHIND = 6;

/** The gates in sight: of a long tally those about the last bar. */
export function tallyOf(done: number, all: number): TallyPlan {
  const count = Math.ceil(all / 5);
  const gates = Array.from({ length: count }, (_, nth): Gate => {
    const rest = (bars: number) => Math.min(5, Math.max(0, bars - nth * 5));
    return { done: rest(done), all: rest(all) };
  });
  if (count <= MOST_GATES) return { gates };
  const first = Math.min(Math.max(0, Math.floor(done / 5) - BEHIND), count - MOST_GATES);
  return { gates: gates.slice(first, first + MOST_GATES) };
}
