// The ruler under the count: where the landmarks, the two cuts and the counts lie.
import type { FrameCard, LandmarkCount } from './bench_types';

export interface RulerMark {
  readonly words: string;
  /** Along the ruler, from 0 to 1. */
  readonly at: number;
  /** Words that would lie over their neighbour's stand a row higher. */
  readonly row: number;
}

export interface RulerPlan {
  readonly marks: readonly RulerMark[];
  /** The two cuts, from 0 to 1. */
  readonly head: number;
  readonly tail: number;
  /** Counts under the ruler: from one place to another. */
  readonly counts: readonly {
    readonly from: number;
    readonly to: number;
    readonly frames: number;
  }[];
  /** Rows of words over the film. */
  readonly rows: number;
}

/** A letter of a small word is about so wide. Unit: rem. */
const LETTER = 0.5;
/** Film that is shown beyond what is named. Unit: share of the whole. */
const BEYOND = 0.04;

function landmarks(card: FrameCard): LandmarkCount[] {
  const { head, tail } = card;
  const first = card.this_end === 'head' ? [head, tail] : [tail, head];
  return first.flatMap((place) => [
    ...place.chain.slice(-1),
    ...(place.nearer ? [place.nearer] : []),
  ]);
}

/** The head of the film at the left, or at the right.
 * @param width of the ruler. Unit: rem. */
export function rulerPlan(card: FrameCard, width: number, headLeft = true): RulerPlan {
  // The other end of the strip stands there as a cut already.
  const isOwn = (one: LandmarkCount) => one.at === card.head.at || one.at === card.tail.at;
  const all = landmarks(card).filter((one) => one.kind !== 'last_cut' || !isOwn(one));
  const once = all.filter((one, nth) => all.findIndex((other) => other.at === one.at) === nth);
  const [from, to] = [card.head.at, card.tail.at];
  const low = Math.min(from, to, ...once.map((one) => one.at));
  const high = Math.max(from, to, ...once.map((one) => one.at));
  const whole = Math.max(1, high - low);
  const share = (frame: number) => {
    const fromHead = BEYOND + ((frame - low) / whole) * (1 - 2 * BEYOND);
    return headLeft ? fromHead : 1 - fromHead;
  };
  const sorted = [...once].sort((a, b) => share(a.at) - share(b.at));
  const ends: number[] = [];
  const marks = sorted.map((one): RulerMark => {
    const half = (one.from.length * LETTER) / 2;
    const middle = Math.min(Math.max(share(one.at) * width, half), width - half);
    let row = ends.findIndex((end) => end + LETTER < middle - half);
    if (row < 0) row = ends.length;
    ends[row] = middle + half;
    return { words: one.from, at: share(one.at), row };
  });
  const here = card.this_end === 'head' ? card.head : card.tail;
  const main = here.chain.at(-1);
  const counts = [
    ...(main ? [{ from: share(main.at), to: share(here.at), frames: main.frames }] : []),
    { from: share(from), to: share(to), frames: Math.abs(to - from) },
  ];
  return {
    marks,
    head: share(from),
    tail: share(to),
    counts: counts.filter((one, nth) => nth === 0 || !laps(one, counts[0])),
    rows: Math.max(1, ends.length),
  };
}

function laps(
  one: { readonly from: number; readonly to: number },
  other: { readonly from: number; readonly to: number } | undefined,
): boolean {
  if (!other) return false;
  const [a, b] = [Math.min(one.from, one.to), Math.max(one.from, one.to)];
  const [c, d] = [Math.min(other.from, other.to), Math.max(other.from, other.to)];
  return a < d - 0.001 && c < b - 0.001;
}
