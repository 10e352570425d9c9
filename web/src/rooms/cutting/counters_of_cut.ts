// The three plates in the head: feet and frames, frames, running time.
import type { Cut } from '$lib/api/wire';
import type { Counter } from '$lib/desk/counters';
import { footage, paddedFrames } from '$lib/film/footage';
import { grouped } from '$lib/film/grouped';
import { clockOf } from '$lib/film/running_time';
import { type Speed, speedWords } from '$lib/film/speed';
import { footageSum, lengthSum, timeSum } from '$lib/film/sums';
import { pieceFrames } from './pieces';
import { slateOf } from './piece_words';

export function countersOfCut(cut: Cut, framesPerFoot: number, speed: Speed): Counter[] {
  const { feet, frames } = footage(cut.frames, framesPerFoot);
  const parts = cut.pieces.map((piece, at) => ({
    name: `${at + 1} ${slateOf(piece)}`.trim(),
    frames: pieceFrames(piece),
  }));
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
      sum: lengthSum(parts, framesPerFoot),
    },
    {
      of: `running time of ${cut.cut}`,
      parts: [{ count: clockOf(cut.frames, speed) }, { words: `at ${speedWords(speed)} f/s` }],
      sum: timeSum(cut.frames, speed),
    },
  ];
}
