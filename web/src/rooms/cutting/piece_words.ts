// What a piece is called, on the sheet and for whoever listens.
import type { Piece } from '$lib/api/wire';
import { grouped } from '$lib/film/grouped';
import { spanText } from '$lib/film/span';
import { isShot, pieceFrames } from './pieces';

const count = (frames: number) => `${grouped(frames)} ${frames === 1 ? 'frame' : 'frames'}`;

/** `3B-T2`; for film without a slate what it is. */
export function slateOf(piece: Piece): string {
  if (piece.kind === 'leader') return 'leader';
  if (piece.kind === 'card') return 'card';
  return piece.slate ?? piece.logged ?? '';
}

/** What happens in it: the user's own words, else the log's. */
export function saidOf(piece: Piece): string {
  if (piece.note) return piece.note;
  if (piece.kind === 'card') return piece.title ?? '';
  return piece.kind === 'leader' ? '' : piece.action;
}

/** The same as a sheet writes it, with a capital. */
export function saidOnSheet(piece: Piece): string {
  const said = saidOf(piece);
  return said.charAt(0).toUpperCase() + said.slice(1);
}

/** `R1·1068 to 1175`; of leader and cards their length. */
export function filmOf(piece: Piece): string {
  if (isShot(piece) && piece.out > piece.in) {
    return spanText({ roll: piece.roll, first: piece.in, thrown: piece.out });
  }
  return piece.kind === 'card' ? 'to be shot' : 'without a picture';
}

/** `shot 7, 3B-T2, the rope comes off`. */
export function pieceSpoken(piece: Piece, at: number): string {
  const words = [`piece ${at + 1}`, slateOf(piece), saidOf(piece), count(pieceFrames(piece))];
  return words.filter((word) => word !== '').join(', ');
}

/** What a join joins: `the rope comes off, then the ferry leaves`. */
export function joinSays(out: Piece | undefined, into: Piece | undefined): string {
  const said = (piece: Piece) => lowered(saidOf(piece)) || slateOf(piece) || filmOf(piece);
  if (out && into) return `${said(out)}, then ${said(into)}`;
  if (into) return `the film begins: ${said(into)}`;
  return out ? `${said(out)}, then the film ends` : '';
}

/** A capital that only begins a sentence is taken off; names keep theirs, as they are not alone. */
function lowered(words: string): string {
  return /^(The|A|An|Her|His)\b/.test(words)
    ? words.charAt(0).toLowerCase() + words.slice(1)
    : words;
}
