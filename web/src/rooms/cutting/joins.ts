// The joins of a cut. A join is named by the piece before it, counted from 0;
// that of the head leader with the first piece is −1.
import type { Cut, JoinRow, Piece } from '$lib/api/wire';

export const JOIN_KINDS = ['tape', 'cement', 'weld'] as const;
export type JoinKind = (typeof JOIN_KINDS)[number];

/** What is asked of a version to know its joins. */
export type Joined = Pick<Cut, 'pieces' | 'usual_join' | 'joins'>;

/** A join's kind out of the server's word; a word we do not know is tape, which eats nothing. */
export function joinKind(word: string): JoinKind {
  return JOIN_KINDS.find((kind) => kind === word) ?? 'tape';
}

/** The kind of a join: that of the piece before it, else the usual one. */
export function joinKindAt(cut: Joined, join: number): JoinKind {
  return joinKind(cut.pieces[join]?.join ?? cut.usual_join);
}

const NOTHING: Omit<JoinRow, 'join'> = {
  out_tail: 0,
  in_head: 0,
  scar_out: 0,
  scar_in: 0,
  shortest: 1,
};

/** What a kind of join costs on this gauge. */
export function joinRow(cut: Joined, kind: JoinKind): JoinRow {
  return cut.joins.find((row) => row.join === kind) ?? { join: kind, ...NOTHING };
}

/** Whether there is a join at all: pieces that run on into each other have none. */
export function isJoined(cut: Joined, join: number): boolean {
  return cut.pieces.length > 0 && !(cut.pieces[join]?.runs_on ?? false);
}

/** `7 | 8`, `head leader | 1`, `23 | tail leader`. */
export function joinName(join: number, pieces: number): string {
  const before = join < 0 ? 'head leader' : String(join + 1);
  const after = join + 1 >= pieces ? 'tail leader' : String(join + 2);
  return `${before} | ${after}`;
}

/** The same for whoever listens: `7 and 8`. */
export function joinSpoken(join: number, pieces: number): string {
  return joinName(join, pieces).replace(' | ', ' and ');
}

/** The joins one can go to, from the head leader's to the tail leader's. */
export function joinWithin(join: number, pieces: readonly Piece[]): number {
  return Math.max(-1, Math.min(join, pieces.length - 1));
}

/** What a kind eats and marks, in words: `eats 1 frame, marks 1`. */
export function joinCosts(row: JoinRow): string {
  const eaten = row.out_tail + row.in_head;
  const marked = row.scar_out + row.scar_in;
  const eats = eaten === 0 ? 'eats none' : `eats ${eaten} ${eaten === 1 ? 'frame' : 'frames'}`;
  return marked === 0 ? eats : `${eats}, marks ${marked}`;
}

/**
 * How far the tongue of a join reaches over its neighbour, where that is known.
 * Unit: mm. The one-sided lap of cement on Super 8 measures 1.40 mm, as the
 * table of joins says; of other laps only the frames are known.
 */
export function tongueMm(gauge: string, kind: JoinKind): number | null {
  return gauge === 'super8' && kind === 'cement' ? 1.4 : null;
}
