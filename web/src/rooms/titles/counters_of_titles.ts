// The counts that one steers by in the Titles room.
import type { Counter } from '$lib/desk/counters';
import { grouped } from '$lib/film/grouped';
import { runningTime, clockText } from '$lib/film/running_time';
import type { Speed } from '$lib/film/speed';
import { footageSum, lengthSum, timeSum } from '$lib/film/sums';
import { footParts } from './title_sayings';
import type { Titles } from './title_types';

export function countersOfTitles(titles: Titles, speed: Speed, perFoot: number): Counter[] {
  const parts = titles.titles.map((one) => ({ name: one.title.name, frames: one.whole }));
  return [
    {
      of: 'all titles on the screen',
      parts: [{ count: grouped(titles.whole) }, { words: 'frames' }],
      sum: lengthSum(parts, perFoot),
    },
    {
      of: 'running time of all titles',
      parts: [{ count: clockText(runningTime(titles.whole, speed)) }, { words: 'on the screen' }],
      sum: timeSum(titles.whole, speed),
    },
    {
      of: 'titles on the roll, all takes',
      parts: [...footParts(titles.of_roll, perFoot), { words: 'of roll' }],
      sum: footageSum(titles.of_roll, perFoot),
    },
  ];
}
