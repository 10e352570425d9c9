// What runs, in order: shots, leader and cards, flattened so that any running
// frame says at once what is to be shown.

import type { Span } from '$lib/film/span';

/** A piece of what runs. */
export type Segment =
  | ({ readonly kind: 'shot' } & Span)
  | { readonly kind: 'leader'; readonly frames: number; readonly shade?: 'black' | 'white' }
  | {
      readonly kind: 'card';
      readonly frames: number;
      readonly title: string;
      /** The first frame of the title that runs; its very first where not said. */
      readonly first?: number;
    };

/** What one running frame shows. */
export type Showing =
  | { readonly kind: 'picture'; readonly roll: string; readonly frame: number }
  | { readonly kind: 'leader'; readonly shade: 'black' | 'white' }
  | { readonly kind: 'card'; readonly title: string; readonly frame: number };

/** How many frames a segment runs. */
export function segmentFrames(segment: Segment): number {
  return segment.kind === 'shot' ? segment.thrown - segment.first : segment.frames;
}

/** The segments of what runs, and where each begins. */
export class PlayPlan {
  readonly segments: readonly Segment[];
  /** Unit: frames. */
  readonly length: number;
  readonly #starts: readonly number[];

  constructor(segments: readonly Segment[]) {
    this.segments = segments.filter((segment) => segmentFrames(segment) > 0);
    const starts: number[] = [];
    let length = 0;
    for (const segment of this.segments) {
      starts.push(length);
      length += segmentFrames(segment);
    }
    this.#starts = starts;
    this.length = length;
  }

  /** The running frame at which a segment begins; that of the end for the one after the last. */
  startOf(segment: number): number {
    return this.#starts[segment] ?? this.length;
  }

  /** The segment that a running frame lies in. */
  segmentAt(running: number): number {
    if (!Number.isInteger(running) || running < 0 || running >= this.length) {
      throw new RangeError(`running frame ${running} of ${this.length}`);
    }
    let [low, high] = [0, this.#starts.length - 1];
    while (low < high) {
      const middle = Math.ceil((low + high) / 2);
      if (this.startOf(middle) <= running) low = middle;
      else high = middle - 1;
    }
    return low;
  }

  /** What a running frame shows. */
  showing(running: number): Showing {
    const at = this.segmentAt(running);
    const segment = this.segments[at];
    if (!segment) throw new RangeError(`running frame ${running} of ${this.length}`);
    switch (segment.kind) {
      case 'shot':
        return {
          kind: 'picture',
          roll: segment.roll,
          frame: segment.first + running - this.startOf(at),
        };
      case 'leader':
        return { kind: 'leader', shade: segment.shade ?? 'black' };
      case 'card':
        return {
          kind: 'card',
          title: segment.title,
          frame: (segment.first ?? 0) + running - this.startOf(at),
        };
    }
  }

  /** The first running frame that shows a frame of a roll, or null. */
  runningFrameOf(roll: string, frame: number): number | null {
    const at = this.segments.findIndex(
      (each) =>
        each.kind === 'shot' && each.roll === roll && each.first <= frame && frame < each.thrown,
    );
    const segment = this.segments[at];
    return segment?.kind === 'shot' ? this.startOf(at) + frame - segment.first : null;
  }

  /** Part of what runs, from a running frame up to, not including, another. */
  part(from: number, upTo: number): PlayPlan {
    const parts = this.segments.map((segment, at) => {
      const start = this.startOf(at);
      const head = Math.max(0, from - start);
      const tail = Math.min(segmentFrames(segment), upTo - start);
      return tail > head ? shortened(segment, head, tail) : null;
    });
    return new PlayPlan(parts.filter((segment) => segment !== null));
  }
}

/** A segment from its frame `head` up to its frame `tail`. */
function shortened(segment: Segment, head: number, tail: number): Segment {
  if (segment.kind === 'leader') return { ...segment, frames: tail - head };
  if (segment.kind === 'card') {
    return { ...segment, frames: tail - head, first: (segment.first ?? 0) + head };
  }
  return { ...segment, first: segment.first + head, thrown: segment.first + tail };
}

/** Film that is run round and round over a join. */
export interface AcrossJoin {
  readonly plan: PlayPlan;
  /** The running frame of the plan that follows the join. */
  readonly joinAt: number;
}

/**
 * The film about a join as it will run: so many frames on either side. Where a
 * piece is shorter than that, the film runs on into the piece beyond it.
 *
 * `join` is the number of the outgoing segment, counted from 0.
 */
export function acrossJoin(film: PlayPlan, join: number, reach: number): AcrossJoin {
  const at = film.startOf(join + 1);
  const from = Math.max(0, at - reach);
  return { plan: film.part(from, at + reach), joinAt: at - from };
}

/**
 * The two sides of a join with their handles: the outgoing runs on past its
 * cut, then the incoming comes from before its own. `rollFrames` says how long
 * a roll is; where the film ends the handle is shorter.
 */
export function acrossJoinWithHandles(
  outgoing: Segment,
  incoming: Segment,
  reach: number,
  handle: number,
  rollFrames: (roll: string) => number,
): AcrossJoin {
  const out = outgoingSide(outgoing, reach, handle, rollFrames);
  const plan = new PlayPlan([out, incomingSide(incoming, reach, handle)]);
  return { plan, joinAt: segmentFrames(out) };
}

function outgoingSide(
  side: Segment,
  reach: number,
  handle: number,
  rollFrames: (roll: string) => number,
): Segment {
  const frames = segmentFrames(side);
  const kept = Math.min(reach, frames);
  if (side.kind === 'leader') return { ...side, frames: kept };
  if (side.kind === 'card') return shortened(side, frames - kept, frames);
  const thrown = Math.min(side.thrown + handle, Math.max(rollFrames(side.roll), side.thrown));
  return { ...side, first: side.thrown - kept, thrown };
}

function incomingSide(side: Segment, reach: number, handle: number): Segment {
  const kept = Math.min(reach, segmentFrames(side));
  if (side.kind !== 'shot') return { ...side, frames: kept };
  return { ...side, first: Math.max(0, side.first - handle), thrown: side.first + kept };
}
