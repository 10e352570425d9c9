// Who wants a frame of a roll: the piece that shows it, the join that eats it.
// The strand check is the server's; this only says what a frame on the light
// table is to be called.
import { isJoined, joinKindAt, joinName, joinRow, type Joined } from './joins';
import { isShot } from './pieces';

/** A want of one frame. Pieces and joins are counted from 0. */
export type Want =
  | { readonly what: 'shown'; readonly piece: number }
  /** A join eats it behind the piece before the join. */
  | { readonly what: 'tail'; readonly join: number }
  /** A join eats it before the piece behind the join. */
  | { readonly what: 'head'; readonly join: number };

interface Claim {
  readonly first: number;
  readonly thrown: number;
  readonly want: Want;
}

/** Where every frame of a cut lies. */
export class FramesLie {
  readonly #claims = new Map<string, Claim[]>();
  readonly #pieces: number;

  constructor(readonly cut: Joined) {
    const { pieces } = cut;
    this.#pieces = pieces.length;
    pieces.forEach((piece, at) => {
      if (!isShot(piece)) return;
      this.#put(piece.roll, piece.in, piece.out, { what: 'shown', piece: at });
      const { head, tail } = this.#bites(at);
      this.#put(piece.roll, piece.in - head, piece.in, { what: 'head', join: at - 1 });
      this.#put(piece.roll, piece.out, piece.out + tail, { what: 'tail', join: at });
    });
  }

  /** All that want this frame. */
  of(roll: string, frame: number): Want[] {
    const claims = this.#claims.get(roll) ?? [];
    return claims.filter((one) => one.first <= frame && frame < one.thrown).map((one) => one.want);
  }

  /** A want in words: `in shot 6`, `tongue of 6 | 7`. */
  words(want: Want): string {
    if (want.what === 'shown') return `in shot ${want.piece + 1}`;
    const name = joinName(want.join, this.#pieces);
    const kind = joinKindAt(this.cut, want.join);
    return kind === 'cement' ? `tongue of ${name}` : `eaten by ${name}`;
  }

  #bites(piece: number): { head: number; tail: number } {
    const { cut } = this;
    const row = (join: number) => joinRow(cut, joinKindAt(cut, join));
    const before = piece - 1;
    const head = isJoined(cut, before) ? row(before).in_head : 0;
    const tail = isJoined(cut, piece) ? row(piece).out_tail : 0;
    return { head, tail };
  }

  #put(roll: string, first: number, thrown: number, want: Want): void {
    if (first >= thrown) return;
    const list = this.#claims.get(roll);
    if (list) list.push({ first, thrown, want });
    else this.#claims.set(roll, [{ first, thrown, want }]);
  }
}
