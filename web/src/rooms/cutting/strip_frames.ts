// The film about a join as it lies on the light table: which frames, in which
// state, with which words.
import type { Cut, Piece } from '$lib/api/wire';
import { frameName } from '$lib/film/frame_name';
import type { FilmBreak, FilmFrame, Overlap } from '$lib/ui/film/film_frame';
import { joinKindAt, joinName, joinRow, tongueMm } from './joins';
import { isShot, type Shot } from './pieces';
import { pieceOfSide, type Side } from './trial';
import type { FramesLie, Want } from './where_frames_lie';

/** What must be known of a film to lay its frames on the table. */
export interface Table {
  readonly cut: Cut;
  readonly lies: FramesLie;
  /** The gauge's word. */
  readonly gauge: string;
  /** Where a picture is; nothing where there is none to ask for. */
  readonly picture: (roll: string, frame: number) => string | undefined;
  /** Where a frame of a card's title is; nothing where no such title is written. */
  readonly title?: (named: string | null | undefined, frame: number) => string | undefined;
  /** Whether the scan shows no picture of a frame. */
  readonly isMissing: (roll: string, frame: number) => boolean;
  readonly rollFrames: (roll: string) => number;
  readonly isOnTrial: (piece: number) => boolean;
}

/** Frames in their order, and the one below the line. */
export interface Strip {
  readonly frames: readonly FilmFrame[];
  readonly cut: number;
  /** Other joins in sight. */
  readonly breaks?: readonly FilmBreak[];
}

/** What the edge at a side is called. */
export const EDGE_WORDS: Record<Side, string> = { out: 'last kept', in: 'first kept' };

/** One side of a join: so many frames on either side of the line, kept and thrown. */
export function sideStrip(table: Table, join: number, side: Side, reach: number): Strip {
  const at = pieceOfSide(join, side);
  const piece = table.cut.pieces[at];
  if (!isShot(piece)) return plainStrip(table, piece, side, reach);
  const offsets = span(-reach, reach).filter((off) =>
    isFilm(table, piece, edge(piece, side) + off),
  );
  const frames = offsets.map((off) => sideFrame(table, join, side, at, piece, off));
  const cut = offsets.filter((off) => off < 0).length;
  return { frames: ringNearest(frames, cut), cut };
}

/** The join as it will run: last kept above, first kept below. */
export function joinedStrip(table: Table, join: number, reach: number): Strip {
  const { pieces } = table.cut;
  const above = walkBack(pieces, join, reach).reverse();
  const below = walkOn(pieces, join + 1, reach);
  const lap = lapOf(table, join);
  const { length } = pieces;
  const frames = [
    ...(join < 0 ? leader(reach) : []),
    ...above.map((one, row) => joinedFrame(table, one, join, row === above.length - 1)),
    ...below.map((one, row) => {
      const frame = joinedFrame(table, one, join, row === 0);
      return row === 0 && lap ? { ...frame, overlap: lap } : frame;
    }),
    ...(join >= length - 1 ? leader(reach) : []),
  ];
  const cut = join < 0 ? reach : above.length;
  return { frames: ringNearest(frames, cut), cut, breaks: otherJoins(table, above, below) };
}

/** Film without a picture, at the head and the tail of the whole. */
function leader(frames: number): FilmFrame[] {
  return Array.from({ length: frames }, () => ({ name: 'leader', state: 'kept' }));
}

/** Where short pieces let one see the next join, or the one before. */
function otherJoins(
  table: Table,
  above: readonly Running[],
  below: readonly Running[],
): FilmBreak[] {
  const all = [...above, ...below];
  return all.flatMap((one, row) => {
    const before = all[row - 1];
    if (!before || row === above.length || before.piece === one.piece) return [];
    return table.cut.pieces[before.piece]?.runs_on ? [] : [{ before: row, words: 'join' }];
  });
}

/** Both sides over each other: what is kept, and half through it what lies beyond the other cut. */
export function laidOverStrip(table: Table, join: number, reach: number): Strip {
  const { pieces } = table.cut;
  const [out, into] = [pieces[join], pieces[join + 1]];
  const both = span(-reach, reach).map((off): FilmFrame | null => {
    const [upper, lower] = [spot(table, out, 'out', off), spot(table, into, 'in', off)];
    const [kept, beyond] = off < 0 ? [upper, lower] : [lower, upper];
    const shown = kept ?? beyond;
    if (!shown) return null;
    const over = kept && beyond ? beyond : null;
    return {
      name: shown.name,
      state: kept ? 'kept' : 'thrown',
      picture: shown.picture,
      over: over?.picture,
      words: over ? `over it ${over.name}` : kept ? 'nothing over it' : 'beyond the cut',
    };
  });
  const frames = both.filter((frame) => frame !== null);
  return { frames, cut: both.slice(0, reach).filter((frame) => frame !== null).length };
}

function span(from: number, upTo: number): number[] {
  return Array.from({ length: upTo - from }, (_, at) => from + at);
}

function edge(piece: Shot, side: Side): number {
  return side === 'out' ? piece.out : piece.in;
}

/** Whether there is film at a frame; what a piece wrongly asks for is drawn as missing. */
function isFilm(table: Table, piece: Shot, frame: number): boolean {
  if (frame < 0) return false;
  return frame < table.rollFrames(piece.roll) || (piece.in <= frame && frame < piece.out);
}

function sideFrame(
  table: Table,
  join: number,
  side: Side,
  at: number,
  piece: Shot,
  off: number,
): FilmFrame {
  const frame = edge(piece, side) + off;
  const isKept = piece.in <= frame && frame < piece.out;
  const wants = table.lies.of(piece.roll, frame);
  const bite = wants.find((want) => want.what !== 'shown');
  const isEdge = off === (side === 'out' ? -1 : 0);
  const words = isEdge
    ? edgeWords(table, at, side)
    : isKept
      ? undefined
      : beyondWords(table, wants, at);
  const drawn = drawnFrame(table, piece, frame, words);
  if (!isKept) {
    const overlap = bite && overlapOf(table, bite);
    return bite && !overlap
      ? { ...drawn, state: 'eaten' }
      : { ...withState(drawn, 'thrown'), overlap };
  }
  const scar = isScar(table, join, side, off);
  const kept = scar ? withState(drawn, 'scar') : drawn;
  return wants.length > 1 ? wantedTwice(table, kept, wants) : kept;
}

function withState(frame: FilmFrame, state: FilmFrame['state']): FilmFrame {
  return frame.state === 'missing' ? frame : { ...frame, state };
}

function drawnFrame(
  table: Table,
  piece: Shot,
  frame: number,
  words: string | undefined,
): FilmFrame {
  const name = frameName(piece.roll, frame);
  if (frame >= table.rollFrames(piece.roll)) {
    return { name, state: 'missing', words: 'not on the roll', tag: 'not there', ringed: true };
  }
  const missing = table.isMissing(piece.roll, frame);
  return {
    name,
    words,
    state: missing ? 'missing' : 'kept',
    picture: missing ? undefined : table.picture(piece.roll, frame),
  };
}

function edgeWords(table: Table, piece: number, side: Side): string {
  return table.isOnTrial(piece) ? 'on trial' : EDGE_WORDS[side];
}

/** What a frame beyond the cut is called: another's, or thrown. */
function beyondWords(table: Table, wants: readonly Want[], own: number): string | undefined {
  const others = wants.filter((want) => want.what !== 'shown' || want.piece !== own);
  const shown = others.find((want) => want.what === 'shown') ?? others[0];
  return shown && table.lies.words(shown);
}

function isScar(table: Table, join: number, side: Side, off: number): boolean {
  const row = joinRow(table.cut, joinKindAt(table.cut, join));
  if (table.cut.pieces[join]?.runs_on) return false;
  return side === 'out' ? off >= -row.scar_out && off < 0 : off >= 0 && off < row.scar_in;
}

function wantedTwice(table: Table, frame: FilmFrame, wants: readonly Want[]): FilmFrame {
  const bite = wants.find((want) => want.what !== 'shown');
  const overlap = bite && overlapOf(table, bite);
  return {
    ...frame,
    ...(bite && !overlap ? { state: 'eaten' as const } : {}),
    overlap,
    tag: 'wanted twice',
    ringed: true,
  };
}

/** The tongue of a join on a frame: at the head of what follows a piece, at the tail of what leads to one. */
function overlapOf(table: Table, bite: Want): Overlap | undefined {
  if (bite.what === 'shown') return undefined;
  const mm = tongueMm(table.gauge, joinKindAt(table.cut, bite.join));
  if (mm === null) return undefined;
  return { end: bite.what === 'tail' ? 'head' : 'tail', mm, words: table.lies.words(bite) };
}

/** The tongue of the outgoing piece where it lies on the incoming one. */
function lapOf(table: Table, join: number): Overlap | null {
  const { cut } = table;
  const kind = joinKindAt(cut, join);
  const mm = tongueMm(table.gauge, kind);
  const row = joinRow(cut, kind);
  if (mm === null || row.out_tail === 0 || cut.pieces[join]?.runs_on) return null;
  if (!isShot(cut.pieces[join]) || !isShot(cut.pieces[join + 1])) return null;
  return { end: 'head', mm, words: `tongue of ${joinName(join, cut.pieces.length)}` };
}

/** One running frame: which piece, and which of its frames. */
interface Running {
  readonly piece: number;
  readonly off: number;
}

function framesIn(piece: Piece): number {
  return isShot(piece) ? piece.out - piece.in : (piece.frames ?? 0);
}

function walkBack(pieces: readonly Piece[], from: number, most: number): Running[] {
  const found: Running[] = [];
  for (let at = from; at >= 0 && found.length < most; at -= 1) {
    const piece = pieces[at];
    if (!piece) break;
    for (let off = framesIn(piece) - 1; off >= 0 && found.length < most; off -= 1) {
      found.push({ piece: at, off });
    }
  }
  return found;
}

function walkOn(pieces: readonly Piece[], from: number, most: number): Running[] {
  const found: Running[] = [];
  for (let at = from; found.length < most; at += 1) {
    const piece = pieces[at];
    if (!piece) break;
    for (let off = 0; off < framesIn(piece) && found.length < most; off += 1) {
      found.push({ piece: at, off });
    }
  }
  return found;
}

function joinedFrame(table: Table, one: Running, join: number, isEdge: boolean): FilmFrame {
  const piece = table.cut.pieces[one.piece];
  const side: Side = one.piece <= join ? 'out' : 'in';
  const words = isEdge ? edgeWords(table, one.piece, side) : undefined;
  if (!isShot(piece)) return plainFrame(table, piece, one.off, words);
  const frame = piece.in + one.off;
  const drawn = drawnFrame(table, piece, frame, words);
  const toEdge = side === 'out' ? frame - piece.out : one.off;
  const own = one.piece === pieceOfSide(join, side);
  const scarred = own && isScar(table, join, side, toEdge) ? withState(drawn, 'scar') : drawn;
  return table.lies.of(piece.roll, frame).length > 1
    ? { ...scarred, tag: 'wanted twice', ringed: true }
    : scarred;
}

function spot(
  table: Table,
  piece: Piece | undefined,
  side: Side,
  off: number,
): { name: string; picture: string | undefined } | null {
  if (!isShot(piece)) return null;
  const frame = edge(piece, side) + off;
  if (frame < 0 || frame >= table.rollFrames(piece.roll)) return null;
  return { name: frameName(piece.roll, frame), picture: table.picture(piece.roll, frame) };
}

function plainName(piece: Piece | undefined): string {
  return piece?.kind === 'card' ? `card ${piece.title ?? ''}`.trim() : 'leader';
}

/** A frame of leader, or of a card as its title shows it. */
function plainFrame(
  table: Table,
  piece: Piece | undefined,
  off: number,
  words: string | undefined,
): FilmFrame {
  const picture = piece?.kind === 'card' ? table.title?.(piece.title, off) : undefined;
  return { name: plainName(piece), state: 'kept', words, ...(picture ? { picture } : {}) };
}

/** Leader and cards have no frames beyond their ends. */
function plainStrip(table: Table, piece: Piece | undefined, side: Side, reach: number): Strip {
  const all = piece ? framesIn(piece) : reach;
  const rows = Math.min(reach, all);
  const first = side === 'out' ? all - rows : 0;
  const frames = span(0, rows).map((row): FilmFrame => {
    const isEdge = row === (side === 'out' ? rows - 1 : 0);
    return plainFrame(table, piece, first + row, isEdge ? EDGE_WORDS[side] : undefined);
  });
  return { frames, cut: side === 'out' ? rows : 0 };
}

/** One ring is enough for the eye: about the frame nearest to the line. */
function ringNearest(frames: readonly FilmFrame[], cut: number): FilmFrame[] {
  const far = (row: number) => Math.abs(row + 0.5 - cut);
  let nearest = -1;
  frames.forEach((frame, row) => {
    if (frame.ringed && (nearest < 0 || far(row) < far(nearest))) nearest = row;
  });
  return frames.map((frame, row) =>
    frame.ringed && row !== nearest ? { ...frame, ringed: false, tag: undefined } : frame,
  );
}
