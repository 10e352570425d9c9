// The three plates in the head: feet and frames, frames, running time.
import type { Cut, Piece } from '$lib/api/wire';
import type { Counter } from '$lib/desk/counters';
import { footage, paddedFrames } from '$lib/film/footage';
import { grouped } from '$lib/film/grouped';
import { clockOf } from '$lib/film/running_time';
import { type Speed, speedWords } from '$lib/film/speed';
import { footageSum, lengthSum, type SumPart, timeSum } from '$lib/film/sums';
import { pieceFrames } from './pieces';
import { slateOf } from './piece_words';

/** More lines than this nobody adds up. */
const LINES = 40;

/** The pieces of a length; of a long cut what each roll gives to it. */
function partsOf(pieces: readonly Piece[]): SumPart[] {
  if (pieces.length <= LINES) {
    return pieces.map((piece, at) => ({
      name: `${at + 1} ${slateOf(piece)}`.trim(),
      frames: pieceFrames(piece),
    }));
  }
  const of = new Map<string, { pieces: number; frames: number }>();
  for (const piece of pieces) {
    const from = piece.roll ?? piece.kind;
    const sum = of.get(from) ?? { pieces: 0, frames: 0 };
    of.set(from, { pieces: sum.pieces + 1, frames: sum.frames + pieceFrames(piece) });
  }
  return [...of].map(([from, sum]) => ({
    name: `${sum.pieces} ${sum.pieces === 1 ? 'piece' : 'pieces'} of ${from}`,
    frames: sum.frames,
  }));
}

export function countersOfCut(cut: Cut, framesPerFoot: number, speed: Speed): Counter[] {
  const { feet, frames } = footage(cut.frames, framesPerFoot);
  return [
    {
      of: `length of ${cut.cut}`,
      parts: [
        { count: grouped(feet) },
        { words: 'ft' },
        { count: paddedFrames(frames) },
        { words: 'fr' },
      ],
      sum: footageSum(cut.frames, framesPerFoot),
    },
    {
      of: `frames of ${cut.cut}`,
      parts: [{ count: grouped(cut.frames) }, { words: cut.frames === 1 ? 'frame' : 'frames' }],
      sum: lengthSum(partsOf(cut.pieces), framesPerFoot),
    },
    {
      of: `running time of ${cut.cut}`,
      parts: [{ count: clockOf(cut.frames, speed) }, { words: `at ${speedWords(speed)} f/s` }],
      sum: timeSum(cut.frames, speed),
    },
  ];
}
