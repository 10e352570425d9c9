// What each row of the sheet is known by while pieces are trimmed, lifted and
// laid in, so that rows that only move are not drawn anew.
import type { Piece } from '$lib/api/wire';
import { sameForm } from './pieces';

export class RowKeys {
  private pieces: readonly Piece[] = [];
  private keys: readonly number[] = [];
  private given = 0;

  /** The keys of a sheet that follows the one before: what did not change keeps its own. */
  of(pieces: readonly Piece[]): readonly number[] {
    if (pieces === this.pieces) return this.keys;
    const { pieces: was, keys } = this;
    const most = Math.min(was.length, pieces.length);
    const same = (at: number, before: number) => {
      const [now, then] = [pieces[at], was[before]];
      return now !== undefined && then !== undefined && (now === then || sameForm(now, then));
    };
    let head = 0;
    while (head < most && same(head, head)) head += 1;
    let tail = 0;
    while (tail < most - head && same(pieces.length - 1 - tail, was.length - 1 - tail)) tail += 1;
    const inner = pieces.length - head - tail;
    // As many as before: they were trimmed or changed places, and stay who they were.
    const kept = inner === was.length - head - tail;
    const middle = kept
      ? keys.slice(head, head + inner)
      : Array.from({ length: inner }, () => (this.given += 1));
    this.keys = [...keys.slice(0, head), ...middle, ...keys.slice(keys.length - tail)];
    this.pieces = pieces;
    return this.keys;
  }
}
