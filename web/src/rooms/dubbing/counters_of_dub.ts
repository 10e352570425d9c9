// The counts that one steers by in the Dubbing room.
import type { Counter } from '$lib/desk/counters';
import { grouped } from '$lib/film/grouped';
import { clockText, runningTime } from '$lib/film/running_time';
import { type Speed, speedWords } from '$lib/film/speed';
import { footageSum, timeSum } from '$lib/film/sums';
import { footParts } from '../titles/title_sayings';
import type { Dub } from './dub_types';

export function countersOfDub(dub: Dub, speed: Speed, perFoot: number): Counter[] {
  return [
    {
      of: `length of ${dub.cut}`,
      parts: [...footParts(dub.frames, perFoot)],
      sum: footageSum(dub.frames, perFoot),
    },
    { of: `frames of ${dub.cut}`, parts: [{ count: grouped(dub.frames) }, { words: 'frames' }] },
    {
      of: `running time of ${dub.cut}`,
      parts: [
        { count: clockText(runningTime(dub.frames, speed)) },
        { words: `at ${speedWords(speed)}` },
      ],
      sum: timeSum(dub.frames, speed),
    },
  ];
}
