// What is said of a roll that has just been read.
import type { RollLog } from '$lib/api/wire';
import { footageText } from '$lib/film/footage';
import { grouped } from '$lib/film/grouped';
import { countWords, framesWords } from './words_of_roll';

/** `3,600 frames, 10 takes, 10 flash frames. A ruler would give 50 ft 00 fr.` */
export function arrivedWords(log: RollLog, framesPerFoot: number): string {
  const { frames, missing } = log.roll;
  const flash = log.takes.reduce((sum, take) => sum + take.flash_frames, 0);
  const found = [
    `${missing > 0 ? 'At least ' : ''}${framesWords(frames)}`,
    countWords(log.takes.length, 'take'),
    countWords(flash, 'flash frame'),
  ];
  const unseen = missing > 0 ? ` ${grouped(missing)} of the frames are counted, not seen.` : '';
  return `${found.join(', ')}. A ruler would give ${footageText(frames, framesPerFoot)}.${unseen}`;
}
