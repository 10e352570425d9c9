// A cut on the action as changes of the sheet, and as pieces to be run before it is made.
import type { CutChange, Piece, PieceForm } from '$lib/api/wire';
import { formOf, isShot, type Shot } from '../pieces';

/** A take by its place, with what is said of it. */
export interface TakeOnRoll {
  readonly roll: string;
  readonly in: number;
  readonly out: number;
  /** `3B-T2`, or empty where nobody named it. */
  readonly slate: string;
  readonly action: string;
}

/** A place to cut: the first frame thrown away here, the first kept there. */
export interface Crossing {
  readonly leave: number;
  readonly enter: number;
}

/** The join is put elsewhere, or a take is laid into the piece that is left. */
export type Made = 'join' | 'lay_in';

/** What is to become of the sheet. */
export interface ActionCut {
  readonly made: Made;
  /** The piece that is left; the first is 0. */
  readonly at: number;
  /** The take that is laid in; with `join` it is on the sheet already. */
  readonly to: TakeOnRoll;
  readonly there: Crossing;
  /** Back to the piece that was left; without it the take runs to its end. */
  readonly back: Crossing | null;
}

/** The pieces that stand at `at` and after it, in the place of so many. */
interface Put {
  readonly forms: readonly PieceForm[];
  /** How many pieces of the sheet these stand for. */
  readonly instead: number;
}

function put(pieces: readonly Piece[], cut: ActionCut): Put | null {
  const [left, next] = [pieces[cut.at], pieces[cut.at + 1]];
  if (!isShot(left)) return null;
  const head: PieceForm = { ...formOf(left), out: cut.there.leave };
  if (cut.made === 'join') {
    if (!isShot(next)) return null;
    return { forms: [head, { ...formOf(next), in: cut.there.enter }], instead: 2 };
  }
  const laid: PieceForm = {
    kind: 'shot',
    roll: cut.to.roll,
    in: cut.there.enter,
    out: cut.back?.leave ?? cut.to.out,
    slate: cut.to.slate || null,
    join: null,
    effect: null,
    note: '',
  };
  // The join after the piece stays with what then stands last.
  if (!cut.back)
    return {
      forms: [
        { ...head, join: null },
        { ...laid, join: left.join ?? null },
      ],
      instead: 1,
    };
  const rest: PieceForm = { ...formOf(left), in: cut.back.enter, note: '' };
  return { forms: [{ ...head, join: null }, laid, rest], instead: 1 };
}

/** The changes that make it; null where the sheet has no place for it. */
export function changesOf(pieces: readonly Piece[], cut: ActionCut): CutChange[] | null {
  const made = put(pieces, cut);
  if (!made || made.forms.some((form) => (form.out ?? 0) <= (form.in ?? 0))) return null;
  return made.forms.map((piece, row) => {
    const at = cut.at + row;
    return row < made.instead
      ? { change: 'replace' as const, at, piece }
      : { change: 'insert' as const, at, piece };
  });
}

/** The pieces as they would stand, for the projector; their places are not worked out. */
export function piecesWith(pieces: readonly Piece[], cut: ActionCut): readonly Piece[] {
  const made = put(pieces, cut);
  const left = pieces[cut.at];
  if (!made || !left) return pieces;
  const drawn = made.forms.map((form): Piece => ({ ...left, take: null, ...form }));
  return [...pieces.slice(0, cut.at), ...drawn, ...pieces.slice(cut.at + made.instead)];
}

/** The take that a piece shows, as the log has it; null for leader, cards and film without a take. */
export function takeOfPiece(piece: Piece | undefined): TakeOnRoll | null {
  if (!isShot(piece) || !piece.take) return null;
  const { roll, take, action } = piece;
  return { roll, in: take.in, out: take.out, slate: piece.logged ?? piece.slate ?? '', action };
}

export function sameTake(
  one: { readonly roll: string; readonly in: number },
  other: { readonly roll: string; readonly in: number },
): boolean {
  return one.roll === other.roll && one.in === other.in;
}

/** Three seconds of film at 18 frames a second: where a join is put first. Unit: frames. */
const NEAR = 54;

/** Where a join is sought first: near to where it lies. */
export function nearJoin(piece: Shot, take: TakeOnRoll): [number, number] {
  return [
    Math.max(piece.in + 1, take.in + 1, piece.out - NEAR),
    Math.min(take.out, piece.out + NEAR) + 1,
  ];
}
