// Feet and frames: the working measure of film.

/** Feet, and the frames beyond them. */
export interface Footage {
  readonly feet: number;
  readonly frames: number;
}

function wholeFrames(frames: number): number {
  if (!Number.isSafeInteger(frames) || frames < 0) {
    throw new RangeError(`not a number of frames: ${frames}`);
  }
  return frames;
}

/** A count of frames as feet and frames. */
export function footage(frames: number, framesPerFoot: number): Footage {
  if (!Number.isSafeInteger(framesPerFoot) || framesPerFoot < 1) {
    throw new RangeError(`not a number of frames a foot: ${framesPerFoot}`);
  }
  const all = wholeFrames(frames);
  return { feet: Math.floor(all / framesPerFoot), frames: all % framesPerFoot };
}

/** The frames part as it stands on a plate and in a column: at least two digits. */
export function paddedFrames(frames: number): string {
  return String(wholeFrames(frames)).padStart(2, '0');
}

/** `37 ft 60 fr`, `3 ft 00 fr`. */
export function footageText(frames: number, framesPerFoot: number): string {
  const { feet, frames: rest } = footage(frames, framesPerFoot);
  return `${feet} ft ${paddedFrames(rest)} fr`;
}

/** `3 ft 00`: for a column whose head says that the rest is frames. */
export function footageCell(frames: number, framesPerFoot: number): string {
  const { feet, frames: rest } = footage(frames, framesPerFoot);
  return `${feet} ft ${paddedFrames(rest)}`;
}

/** What a screen reader says: `37 feet 60 frames`, `1 foot`, `0 frames`. */
export function footageSpoken(frames: number, framesPerFoot: number): string {
  const { feet, frames: rest } = footage(frames, framesPerFoot);
  const said = [
    feet === 0 ? '' : feet === 1 ? '1 foot' : `${feet} feet`,
    rest === 0 ? '' : rest === 1 ? '1 frame' : `${rest} frames`,
  ].filter((part) => part !== '');
  return said.length === 0 ? '0 frames' : said.join(' ');
}

/** The frames in so many feet and frames. */
export function framesFromFootage(at: Footage, framesPerFoot: number): number {
  return wholeFrames(at.feet) * framesPerFoot + wholeFrames(at.frames);
}

/** Reads `50ft`, `37ft60`, `37 ft 60 fr`, `12+34`; null for all else. */
export function parseFootage(text: string): Footage | null {
  const match = /^([\d,]+)\s*(?:ft\s*(?:([\d,]+)\s*(?:fr)?)?|\+\s*([\d,]+)\s*(?:fr)?)$/.exec(
    text.trim(),
  );
  if (!match) return null;
  const number = (part: string | undefined) => Number((part ?? '0').replaceAll(',', '') || NaN);
  const at = { feet: number(match[1]), frames: number(match[2] ?? match[3]) };
  return Number.isSafeInteger(at.feet) && Number.isSafeInteger(at.frames) ? at : null;
}
