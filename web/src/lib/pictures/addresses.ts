// Where pictures are asked for. With the name of a roll's pictures in the
// address the browser keeps them: another workprint, another name.

/** Which pictures of which roll. */
export interface PicturesOf {
  readonly film: string;
  readonly roll: string;
  /** From the roll's log; null where there is no workprint. */
  readonly pictures: string | null;
}

function address(of: PicturesOf, what: string, more: Record<string, string> = {}): string {
  const query = new URLSearchParams(more);
  if (of.pictures) query.set('pictures', of.pictures);
  const asked = query.toString();
  const path = `/api/films/${encodeURIComponent(of.film)}/rolls/${encodeURIComponent(of.roll)}`;
  return `${path}/${what}${asked ? `?${asked}` : ''}`;
}

/** One whole picture. */
export function pictureAddress(of: PicturesOf, frame: number): string {
  return address(of, `pictures/${frame}`);
}

/** One small picture, at least so high. Unit: px. */
export function smallAddress(of: PicturesOf, frame: number, height: number): string {
  return address(of, `small/${frame}`, { height: String(height) });
}

/** The rolls of a film, with what is known of their pictures. */
export interface RollsWithPictures {
  readonly rolls: readonly { readonly roll: string; readonly pictures?: string | null }[];
}

/** One small picture of any roll of a film, at least so high. Unit: px. */
export function smallOfFilm(
  [film, known]: readonly [string, RollsWithPictures | null],
  roll: string,
  frame: number,
  height: number,
): string {
  const pictures = known?.rolls.find((one) => one.roll === roll)?.pictures ?? null;
  return smallAddress({ film, roll, pictures }, frame, height);
}

/** A run of whole pictures, in the form that run_format.ts reads. */
export function runAddress(of: PicturesOf, first: number, count: number): string {
  return address(of, 'run', { first: String(first), count: String(count) });
}

/**
 * Small pictures of many frames as one JPEG, in columns, from the top down; the
 * answer's header `x-onestrand-cells` says "picture-width picture-height cell-width
 * cell-height rows": picture n begins at (⌊n / rows⌋ · cell-width, n mod rows · cell-height).
 * At most 480 frames are asked for at a time.
 */
export function stripAddress(of: PicturesOf, frames: readonly number[], height: number): string {
  return address(of, 'strip', { frames: frames.join(','), height: String(height) });
}

/** Which title. */
export interface TitleOf {
  readonly film: string;
  readonly id: number;
  /** The name of its pictures: another title, another name. */
  readonly drawn: string;
}

/** Pictures of titles are as wide as this: about as a workprint has them. Unit: px. */
const TITLE_WIDTH = 960;

function titleAddress(of: TitleOf, what: string, more: Record<string, string>): string {
  const query = new URLSearchParams({ ...more, drawn: of.drawn }).toString();
  return `/api/films/${encodeURIComponent(of.film)}/titles/${of.id}/${what}?${query}`;
}

/** A run of frames of a title, in the form that run_format.ts reads. */
export function titleRunAddress(of: TitleOf, first: number, count: number): string {
  const asked = { first: String(first), count: String(count), width: String(TITLE_WIDTH) };
  return titleAddress(of, 'run', asked);
}

/** One frame of a title. `width` in px. */
export function titleFrameAddress(of: TitleOf, frame: number, width: number): string {
  return titleAddress(of, `frames/${frame}`, { width: String(width) });
}
