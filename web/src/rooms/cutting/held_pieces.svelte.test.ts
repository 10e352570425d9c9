// Several pieces at once: every move is made on a list of letters and looked at.
import { describe, expect, it } from 'vitest';
import type { CutChange, Piece } from '$lib/api/wire';
import { HeldPieces, joinedBy, lifted, movedToLine, placesAtLine } from './held_pieces.svelte';

/** What the server does with these changes, on a list. */
function made(list: readonly string[], changes: readonly CutChange[]): string {
  const now = [...list];
  for (const change of changes) {
    if (change.change === 'remove') now.splice(change.at, 1);
    if (change.change === 'move') now.splice(change.to, 0, ...now.splice(change.from, 1));
  }
  return now.join('');
}

const LETTERS = ['a', 'b', 'c', 'd', 'e', 'f'];

function subsets(of: number): number[][] {
  return Array.from({ length: 2 ** of }, (_, bits) =>
    Array.from({ length: of }, (_, at) => at).filter((at) => bits & (1 << at)),
  );
}

describe('pieces put down at a line', () => {
  it('stand there in their order, and all others in theirs: every choice and every line', () => {
    let tried = 0;
    for (const places of subsets(LETTERS.length)) {
      for (let line = 0; line <= LETTERS.length; line += 1) {
        const held = places.map((at) => LETTERS[at]);
        const rest = (from: number, to: number) =>
          LETTERS.slice(from, to).filter((letter) => !held.includes(letter));
        const wanted = [...rest(0, line), ...held, ...rest(line, LETTERS.length)].join('');
        const moved = made(LETTERS, movedToLine(places, line));
        expect(moved, `${places.join()} at ${line}`).toBe(wanted);
        const stand = placesAtLine(places, line).map((at) => wanted[at]);
        expect(stand).toEqual(held);
        tried += 1;
      }
    }
    expect(tried).toBe(64 * 7);
  });
  it('make no change where they stand already', () => {
    expect(movedToLine([2, 3], 2)).toEqual([]);
    expect(movedToLine([2, 3], 4)).toEqual([]);
  });
});

describe('pieces lifted together', () => {
  it('leave the others as they were, whatever was chosen', () => {
    for (const places of subsets(LETTERS.length)) {
      const left = LETTERS.filter((_, at) => !places.includes(at)).join('');
      expect(made(LETTERS, lifted(places))).toBe(left);
    }
  });
});

class Table {
  chosen = $state(0);
  readonly shown: { readonly pieces: readonly Piece[] };

  constructor(pieces: number, chosen: number) {
    this.shown = { pieces: Array.from({ length: pieces }, () => ({}) as Piece) };
    this.chosen = chosen;
  }
  choosePiece(at: number) {
    this.chosen = at;
  }
}

describe('holding', () => {
  it('goes from the piece it began at, longer and shorter, on either side', () => {
    const room = new Table(8, 3);
    const held = new HeldPieces(room);
    expect(held.places).toEqual([3]);
    held.upTo(5);
    expect([room.chosen, held.places]).toEqual([5, [3, 4, 5]]);
    held.upTo(4);
    expect(held.places).toEqual([3, 4]);
    held.upTo(1);
    expect([room.chosen, held.places]).toEqual([1, [1, 2, 3]]);
    held.upTo(8);
    expect(held.places).toEqual([1, 2, 3]);
  });
  it('takes one more here and there, and lets one go', () => {
    const room = new Table(8, 3);
    const held = new HeldPieces(room);
    held.alsoOrNot(6);
    held.alsoOrNot(1);
    expect(held.places).toEqual([1, 3, 6]);
    held.alsoOrNot(1);
    expect([room.chosen, held.places]).toEqual([3, [3, 6]]);
    expect(held.letGo()).toBe(true);
    expect(held.letGo()).toBe(false);
    expect(held.places).toEqual([3]);
  });
  it('is over once another piece is chosen', () => {
    const room = new Table(8, 3);
    const held = new HeldPieces(room);
    held.upTo(5);
    room.chosen = 0;
    expect(held.places).toEqual([0]);
    expect(held.several).toBe(false);
  });
});

describe('joins of several', () => {
  it('change only where another one stands', () => {
    const piece = (join: string | null): Piece =>
      ({ kind: 'shot', roll: 'R1', in: 0, out: 10, join }) as Piece;
    const pieces = [piece(null), piece('cement'), piece('tape')];
    const changes = joinedBy(pieces, [0, 1, 2], 'cement');
    expect(changes.map((one) => 'at' in one && one.at)).toEqual([0, 2]);
    expect(joinedBy(pieces, [0], null)).toEqual([]);
  });
});
