// Which two pictures say most about a sign, side by side.
import type { Take } from '$lib/api/wire';
import type { Length } from './lengths';
import type { SignOfTake } from './signs_of_take';
import { slateOf } from './words_of_roll';

/** A frame and what it is, in a word or two. */
export interface Shown {
  readonly frame: number;
  readonly words: string;
}

/** How far behind a flash the exposure is settled. Unit: frames. */
const SETTLED = 12;

/**
 * The frame that shows a sign, and one without it: those that were measured, for a flash the same take a
 * little later, else the same place of another take of the setup, else a frame
 * of the take that the sign does not lie on; null where there is none.
 */
export function comparePair(
  sign: SignOfTake,
  length: Length,
  takes: readonly Take[],
): readonly [Shown, Shown] | null {
  // There is no picture of what no scan shows.
  if (sign.kind === 'not seen') return null;
  // What was measured goes before what is guessed at.
  if (sign.most !== null && sign.least !== null && sign.most !== sign.least) {
    return [
      { frame: sign.most, words: 'most of it' },
      { frame: sign.least, words: 'least of it' },
    ];
  }
  const middle = Math.floor((sign.first + sign.thrown - 1) / 2);
  if (sign.kind === 'flash') {
    const later = Math.min(sign.thrown - 1 + SETTLED, length.thrown - 1);
    if (later <= sign.first) return null;
    return [
      { frame: sign.first, words: 'flash' },
      { frame: later, words: 'settled' },
    ];
  }
  const here = { frame: middle, words: 'this take' };
  const twin = takes.find(
    (take) => take.in !== length.first && take.setup !== null && take.setup === length.take?.setup,
  );
  if (twin) {
    const frame = Math.min(twin.in + (middle - length.first), twin.out - 1);
    return [here, { frame, words: slateOf(twin) ?? 'other take' }];
  }
  const after = sign.thrown < length.thrown ? sign.thrown : null;
  const before = sign.first > length.first ? sign.first - 1 : null;
  const without = after ?? before;
  return without === null ? null : [here, { frame: without, words: 'without' }];
}
