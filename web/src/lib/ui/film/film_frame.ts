// A frame as it lies on the light table, and what is said of it.

/**
 * `missing` is a frame that no scan shows; `counted` is one that the transfer
 * hides: known to be there, never seen.
 */
export type FrameState = 'kept' | 'thrown' | 'eaten' | 'scar' | 'missing' | 'counted';

/** The part of a frame that a join eats. */
export interface Overlap {
  /** Which end of the frame lies under the neighbour. */
  readonly end: 'head' | 'tail';
  /** How far it lies under it. Unit: mm. */
  readonly mm: number;
  /** Whose it is: "tongue of 6 | 7". */
  readonly words: string;
}

export interface FilmFrame {
  /** `R2·606`. */
  readonly name: string;
  readonly picture?: string | undefined;
  /** Another picture laid half through this one. */
  readonly over?: string | undefined;
  readonly state: FrameState;
  /** Instead of the state's own word: "last kept", "in shot 6", "on trial". */
  readonly words?: string | undefined;
  readonly overlap?: Overlap | undefined;
  /** What the conflict is: "wanted twice". */
  readonly tag?: string | undefined;
  /** Whether the pencil has ringed it. */
  readonly ringed?: boolean | undefined;
}

/** A break between two frames of a roll. */
export interface FilmBreak {
  /** The frame below the break, as a place in the strip. */
  readonly before: number;
  /** "camera stop", "join", "flash" or "fog". */
  readonly words: string;
}

const STATE_WORDS: Record<FrameState, string> = {
  kept: '',
  thrown: 'thrown',
  eaten: 'eaten by the join',
  scar: 'scar',
  missing: 'missing',
  counted: 'counted, not seen',
};

/** The words beside the frame's name; empty where the picture says enough. */
export function frameWords(frame: FilmFrame): string {
  return frame.words ?? STATE_WORDS[frame.state];
}

/** All that the marks on a frame mean, for whoever does not see them. */
export function frameMeaning(frame: FilmFrame): string {
  const said = [STATE_WORDS[frame.state], frame.overlap?.words ?? '', frame.tag ?? ''];
  const shown = [frameWords(frame), frame.tag ?? ''];
  return said.filter((words) => words !== '' && !shown.includes(words)).join(', ');
}

/**
 * Whether a label stands at the head or the tail of its picture: never on what
 * is eaten, and close to the cut, where the eye is.
 */
export function labelEnd(frame: FilmFrame, belowTheCut: boolean): 'head' | 'tail' {
  if (frame.overlap) return frame.overlap.end === 'head' ? 'tail' : 'head';
  return belowTheCut ? 'head' : 'tail';
}

/** The outline of an overlap: as wide as the picture, its free corners cut off as by the splicer. */
export function overlapPath(
  picture: { x: number; y: number; w: number; h: number },
  end: Overlap['end'],
  deep: number,
): string {
  const cut = Math.min(deep * 0.2, picture.w * 0.06);
  const { x, w } = picture;
  const [edge, way] = end === 'head' ? [picture.y, 1] : [picture.y + picture.h, -1];
  const n = (value: number) => value.toFixed(1);
  return (
    `M${n(x)} ${n(edge)}h${n(w)}v${n(way * (deep - cut))}` +
    `l${n(-cut)} ${n(way * cut)}h${n(-(w - 2 * cut))}l${n(-cut)} ${n(-way * cut)}z`
  );
}
