// Which frames of the finished strip the joins mark, and how.
import type { Cut, JoinRow } from '$lib/api/wire';

/** A join's kind; a word that is not known is drawn as tape, which marks most. */
export type ScarKind = 'tape' | 'cement' | 'weld';

export interface Scar {
  /** The piece before the join, from 0; −1 at the head leader. */
  readonly join: number;
  readonly kind: ScarKind;
  /** On the frames going out, or on those coming in. */
  readonly side: 'out' | 'in';
  /** Frames between it and the join; 0 touches it. */
  readonly off: number;
  /** Whether the mark ends on this frame: here the edge of a patch is seen. */
  readonly isEdge: boolean;
}

type Joined = Pick<Cut, 'pieces' | 'usual_join' | 'joins' | 'frames'>;

/** The marks by running frame. A short piece can be marked from both ends. */
export function scarsOf(cut: Joined): ReadonlyMap<number, readonly Scar[]> {
  const found = new Map<number, Scar[]>();
  const { pieces } = cut;
  const put = (running: number, scar: Scar) => {
    const there = found.get(running);
    if (there) there.push(scar);
    else found.set(running, [scar]);
  };
  for (let join = -1; join < pieces.length; join += 1) {
    if (pieces.length === 0 || pieces[join]?.runs_on) continue;
    const row = rowAt(cut, join);
    const kind = row.join as ScarKind;
    // The frame that comes in first; that of the tail leader lies behind the film.
    const at = pieces[join + 1]?.starts_at ?? cut.frames;
    for (let off = 0; off < row.scar_out && at - 1 - off >= 0; off += 1) {
      put(at - 1 - off, { join, kind, side: 'out', off, isEdge: off === row.scar_out - 1 });
    }
    for (let off = 0; off < row.scar_in && at + off < cut.frames; off += 1) {
      put(at + off, { join, kind, side: 'in', off, isEdge: off === row.scar_in - 1 });
    }
  }
  return found;
}

function rowAt(cut: Joined, join: number): JoinRow {
  const asked = cut.pieces[join]?.join ?? cut.usual_join;
  const known = cut.joins.find((row) => row.join === asked);
  const tape = { join: 'tape', out_tail: 0, in_head: 0, scar_out: 2, scar_in: 2, shortest: 6 };
  return known ?? tape;
}

/** `the join 7 | 8`, `the join of the head leader`. */
export function joinNamed(join: number, pieces: number): string {
  if (join < 0) return 'the join with the head leader';
  if (join + 1 >= pieces) return 'the join with the tail leader';
  return `the join of no. ${join + 1} and ${join + 2}`;
}

/** What is seen on a marked frame, as a sentence. */
export function scarWords(scar: Scar, pieces: number): string {
  const of = joinNamed(scar.join, pieces);
  if (scar.kind === 'cement') return `Dark band of the lap, ${of}.`;
  if (scar.kind === 'weld') return `Line of the weld, ${of}.`;
  return scar.isEdge
    ? `Tape over this frame, its edge in sight, ${of}.`
    : `Tape over this frame, ${of}.`;
}

/** How many joins and marked frames there are, told once. */
export function stripWords(cut: Joined): { joins: number; marked: number } {
  const scars = scarsOf(cut);
  const joins = cut.pieces.filter((piece) => !piece.runs_on).length;
  return { joins: cut.pieces.length === 0 ? 0 : joins + 1, marked: scars.size };
}
