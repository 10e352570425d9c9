// The two frames on either side of a join, in the way their film lies.
import { frameName } from '$lib/film/frame_name';
import type { FilmFrame } from '$lib/ui/film/film_frame';
import type { FrameRef } from './bench_types';

const LAID: Record<string, string> = {
  turned_over: 'turned over',
  end_for_end: 'end for end',
  end_over_end: 'end over end',
};

/** How film is seen that lies so, from the side one looks from. */
export interface Seen {
  /** Whether its pictures are seen mirrored from side to side. */
  readonly mirrored: boolean;
  /** Whether they are seen with their heads down. */
  readonly upended: boolean;
  /** Whether the holes stand along the other edge. */
  readonly otherEdge: boolean;
}

export function seenAs(laid: string): Seen {
  const over = laid === 'turned_over' || laid === 'end_over_end';
  const ends = laid === 'end_for_end' || laid === 'end_over_end';
  // Turned end for end a picture is turned by half: its sides change places too.
  return { mirrored: over !== ends, upended: ends, otherEdge: over !== ends };
}

/** "The outgoing film lies end for end."; nothing where it lies rightly. */
export function liesWrongly(ref: FrameRef | null | undefined): string {
  const words = ref ? LAID[ref.laid] : undefined;
  return words ? `The outgoing film lies ${words}.` : '';
}

type Picture = (roll: string, frame: number) => string | undefined;

/**
 * The frame at the join and its neighbour, from the head down.
 * @param side of the join: the outgoing film, or the incoming.
 * @param other what stands there where it is no film of a roll.
 */
export function besideJoin(
  ref: FrameRef | null | undefined,
  side: 'out' | 'into',
  other: string,
  picture: Picture,
): FilmFrame[] {
  const words = side === 'out' ? 'last of the outgoing' : 'first of the incoming';
  const away = side === 'out' ? [-1, 0] : [0, 1];
  // Where the tail comes first, the frame numbers run the other way.
  const way = ref && seenAs(ref.laid).upended ? -1 : 1;
  return away.map((by): FilmFrame => {
    if (!ref) {
      const name = other === 'leader' ? 'leader' : `card ${other}`;
      return { name: by === 0 ? name : '', state: 'kept', words: '' };
    }
    const frame = ref.frame + by * way;
    const lies = LAID[ref.laid];
    return {
      name: frameName(ref.roll, frame),
      picture: picture(ref.roll, frame),
      state: 'kept',
      words: by === 0 ? (lies ? `${words}, ${lies}` : words) : '',
    };
  });
}
