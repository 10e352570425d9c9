// Several pieces held at once: lifted, moved and joined together. The chosen
// piece is always one of them.
import type { CutChange, Piece, PieceForm } from '$lib/api/wire';
import { formOf } from './pieces';

/** What holding needs of the room. */
interface Chosen {
  readonly chosen: number;
  readonly shown: { readonly pieces: readonly Piece[] } | null;
  choosePiece(at: number): void;
}

export class HeldPieces {
  private more = $state.raw<ReadonlySet<number>>(new Set());
  /** How many pieces there were when they were taken up. */
  private of = 0;
  /** Where the stretch began that Shift makes longer. */
  private from: number | null = null;

  constructor(private readonly room: Chosen) {}

  /** The places that are held, in order; only the chosen one where none were taken up. */
  readonly places = $derived.by((): readonly number[] => {
    const pieces = this.room.shown?.pieces.length ?? 0;
    const { chosen } = this.room;
    if (chosen < 0 || chosen >= pieces) return [];
    // A version that has gained or lost pieces has others in these places.
    if (this.more.size === 0 || pieces !== this.of || !this.more.has(chosen)) return [chosen];
    return [...this.more].sort((one, other) => one - other);
  });

  /** Whether more than the chosen piece is held. */
  readonly several = $derived.by(() => this.places.length > 1);

  has(place: number): boolean {
    return this.several && this.places.includes(place);
  }

  /** From where it began to here, as with Shift. */
  upTo(place: number): void {
    const last = (this.room.shown?.pieces.length ?? 0) - 1;
    if (place < 0 || place > last) return;
    const from = this.several && this.from !== null ? this.from : this.room.chosen;
    const [least, most] = [Math.min(from, place), Math.max(from, place)];
    const stretch = Array.from({ length: most - least + 1 }, (_, nth) => least + nth);
    this.room.choosePiece(place);
    this.take(stretch, from);
  }

  /** One more, or one less, as with Ctrl. */
  alsoOrNot(place: number): void {
    const all = new Set(this.places);
    if (all.has(place) && all.size > 1) all.delete(place);
    else all.add(place);
    const next = all.has(place) ? place : Math.min(...all);
    this.room.choosePiece(next);
    this.take([...all], next);
  }

  /** Only the chosen piece from now on; true when there were more. */
  letGo(): boolean {
    const { several } = this;
    this.more = new Set();
    this.from = null;
    return several;
  }

  /** The same pieces where they came to stand. */
  follow(places: readonly number[]): void {
    if (places.length < 2) return void this.letGo();
    this.take(places, places[0] ?? 0);
  }

  private take(places: readonly number[], from: number): void {
    this.more = new Set(places);
    this.of = this.room.shown?.pieces.length ?? 0;
    this.from = from;
  }
}

/** The changes that lift these pieces. */
export function lifted(places: readonly number[]): CutChange[] {
  return [...places].sort((one, other) => other - one).map((at) => ({ change: 'remove', at }));
}

/** Where pieces come to stand that are put down at a line, one behind the other. */
export function placesAtLine(places: readonly number[], line: number): number[] {
  const above = places.filter((place) => place < line).length;
  return places.map((_, nth) => line - above + nth);
}

/**
 * The changes that bring pieces to a line between two others, in their order.
 *
 * @param line 0 is before the first piece, as many as there are behind the last.
 */
export function movedToLine(places: readonly number[], line: number): CutChange[] {
  const above = places.filter((place) => place < line).sort((one, other) => other - one);
  const below = places.filter((place) => place >= line).sort((one, other) => one - other);
  const moves = [
    // Each leaves its place and stands above those that were moved before it.
    ...above.map((from, nth) => ({ from, to: line - 1 - nth })),
    ...below.map((from, nth) => ({ from, to: line + nth })),
  ];
  return moves
    .filter(({ from, to }) => from !== to)
    .map(({ from, to }): CutChange => ({ change: 'move', from, to }));
}

/** The changes that give each of these pieces another join after it; null for the usual one. */
export function joinedBy(
  pieces: readonly Piece[],
  places: readonly number[],
  join: string | null,
): CutChange[] {
  return places.flatMap((at): CutChange[] => {
    const piece = pieces[at];
    if (!piece || (piece.join ?? null) === join) return [];
    const form: PieceForm = { ...formOf(piece), join };
    return [{ change: 'replace', at, piece: form }];
  });
}
