// An answer as the card shows it: plates, the sum opened, and the line for the script.
import type { CameraPlate, CameraSum } from '$lib/api/wire';
import { footageSum, timeSum, type SumLine } from '$lib/film/sums';
import { grouped } from '$lib/film/grouped';
import { speedFrom } from '$lib/film/speed';
import type { CameraAnswer } from './camera_desk';

export interface OpenedAnswer {
  readonly plates: readonly CameraPlate[];
  readonly sums: readonly CameraSum[];
  readonly taken: readonly string[];
  readonly text: string;
}

/** The other answers come with their sum; a length is opened as everywhere on the page. */
export function openedAnswer(
  answer: CameraAnswer,
  film: { readonly framesPerFoot: number; readonly speed: string },
): OpenedAnswer {
  if (answer.name !== 'length') return answer.found;
  const { frames, feet, rest, clock, metres, assumptions } = answer.found;
  const footage = `${grouped(feet)} ft ${rest}`;
  const line = (what: string, source: string) => (one: SumLine) => ({
    what,
    formula: '',
    figures: one.sum,
    comes: one.comes,
    source,
  });
  return {
    plates: [
      { label: 'frames', count: grouped(frames), words: 'frames' },
      { label: 'feet and frames', count: footage, words: 'fr' },
      { label: 'running time', count: clock, words: `at ${film.speed} f/s` },
      { label: 'metres', count: metres, words: 'm' },
    ],
    sums: [
      ...footageSum(frames, film.framesPerFoot).map(line('feet and frames', 'frames a foot')),
      ...timeSum(frames, speedFrom(film.speed)).map(line('running time', 'frames ÷ speed')),
    ],
    taken: assumptions,
    text: `${grouped(frames)} frames = ${footage} fr, ${clock} at ${film.speed} f/s`,
  };
}
