// Tablets that are let in at the bench.

export interface Tablets {
  /** Where a tablet finds the bench; none while the door is shut. */
  readonly address?: string | null;
  /** The code that lets the next one in; none when none was asked for or it was used. */
  readonly code?: string | null;
  readonly tablets: readonly Tablet[];
}

export interface Tablet {
  readonly id: string;
  readonly name: string;
  /** When, in UTC. */
  readonly let_in: string;
  readonly last_seen?: string | null;
}
