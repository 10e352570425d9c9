// Two versions beside each other: what each row says, and the change list in words.
import type { Beside, ChangeLine, Compared, Piece } from '$lib/api/wire';
import { footageText } from '$lib/film/footage';
import { frameName } from '$lib/film/frame_name';
import { grouped, signed } from '$lib/film/grouped';

/** One row of both versions. */
export interface BesideRow {
  readonly old: { readonly no: number; readonly piece: Piece } | null;
  readonly new: { readonly no: number; readonly piece: Piece } | null;
  readonly state: string;
  /** `trimmed by 18`, `moved, no. 19 there`, `lifted`. */
  readonly words: string;
}

const count = (frames: number) => `${grouped(frames)} ${frames === 1 ? 'frame' : 'frames'}`;

/** The rows of two versions, with what became of each piece. */
export function rowsBeside(compared: Compared): BesideRow[] {
  const side = (no: number | null | undefined, pieces: readonly Piece[]) => {
    const piece = no == null ? undefined : pieces[no - 1];
    return no != null && piece ? { no, piece } : null;
  };
  return compared.beside.map((row) => {
    const old = side(row.old, compared.from_pieces);
    const now = side(row.new, compared.to_pieces);
    return {
      old,
      new: now,
      state: row.state,
      words: became(row, old?.piece ?? null, now?.piece ?? null),
    };
  });
}

const frames = (piece: Piece | null) => piece?.frames ?? 0;

function became(row: Beside, old: Piece | null, now: Piece | null): string {
  const paper = row.paper_differs ? 'join or note' : '';
  switch (row.state) {
    case 'trimmed': {
      const by = frames(now) - frames(old);
      // The piece may be divided, with its other part on another row.
      if (!old || !now) return 'part of it';
      return by === 0 ? 'other ends' : by < 0 ? `${grouped(-by)} shorter` : `${grouped(by)} longer`;
    }
    case 'moved':
      return row.elsewhere == null ? 'moved' : `moved: no. ${row.elsewhere}`;
    case 'only_old':
      return 'lifted';
    case 'only_new':
      return 'laid in';
    default:
      return paper;
  }
}

/** What the difference comes to, in a sentence. */
export function sumOf(compared: Compared, perFoot: number): string {
  const { held, moved, out, new_frames: come } = compared;
  const parts = [
    `${count(held)} ${held === 1 ? 'stays as it lies' : 'stay as they lie'}`,
    moved > 0 ? `${grouped(moved)} move` : '',
    out > 0 ? `${grouped(out)} go out` : '',
    come > 0 ? `${grouped(come)} come in` : '',
  ].filter((part) => part !== '');
  const was = footageText(compared.from_frames, perFoot);
  const is = footageText(compared.to_frames, perFoot);
  const length = was === is ? `Both are ${is}.` : `${was} becomes ${is}.`;
  return `${parts.join(', ')}. ${length}`;
}

/** The film of a line: `R2·2432 to 2485`; of leader and cards what they are. */
export function filmOfLine(line: ChangeLine): string {
  const { roll, in: first, out, kind, title } = line.film;
  if (kind === 'shot' && roll && first != null && out != null) {
    const slate = line.film.slate ? `${line.film.slate}, ` : '';
    return `${slate}${frameName(roll, first)} to ${out - 1}`;
  }
  return kind === 'card' ? `card ${title ?? ''}`.trim() : 'leader';
}

/** Where frames come to lie, and what follows: `2,103`, `−45`. */
export function placesOfLine(line: ChangeLine, perFoot: number) {
  return {
    at: footageText(line.at, perFoot),
    to: line.to == null ? '' : footageText(line.to, perFoot),
    offset: signed(line.offset_after),
  };
}
