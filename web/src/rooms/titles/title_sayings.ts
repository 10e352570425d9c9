// What the Titles room says of a title, in words.
import { footage, paddedFrames } from '$lib/film/footage';
import { grouped } from '$lib/film/grouped';
import { runningTime, secondsText } from '$lib/film/running_time';
import type { Speed } from '$lib/film/speed';
import type { SumLine } from '$lib/film/sums';
import type { StandWords, TitleKept, TitleKind, TitleWords } from './title_types';

export const KINDS: readonly { readonly value: TitleKind; readonly words: string }[] = [
  { value: 'main', words: 'Main' },
  { value: 'intertitle', words: 'Between shots' },
  { value: 'credits', words: 'Credits' },
  { value: 'end', words: 'End' },
];

const KIND_WORDS: Readonly<Record<TitleKind, string>> = {
  main: 'main title',
  intertitle: 'between shots',
  credits: 'credits',
  end: 'the end',
};

export const kindWords = (kind: TitleKind): string => KIND_WORDS[kind];

/** The first words of a title on one line. */
export function firstWords(title: TitleWords): string {
  const line = title.words.split('\n').find((one) => one.trim() !== '');
  return line?.trim() ?? '';
}

export function secondsOf(frames: number, speed: Speed): string {
  return secondsText(runningTime(frames, speed), 1);
}

/** Parts of a plate: `1 ft 54 fr`. */
export function footParts(frames: number, perFoot: number) {
  const { feet, frames: rest } = footage(frames, perFoot);
  return [
    { count: grouped(feet) },
    { words: 'ft' },
    { count: paddedFrames(rest) },
    { words: 'fr' },
  ] as const;
}

/** The sum under the hold: by the rule, by its own number of frames, or with nothing to read. */
export function holdSum(
  words: number,
  hold: number,
  byRule: number,
  own: number | null,
  says: string,
  stand: StandWords,
  speed: Speed,
): SumLine[] {
  const rule =
    stand.rule === 'own'
      ? {
          sum: `the longer of ${stand.least} s and ${stand.first} + ${stand.per_word} × ${words}`,
          comes: `${secondsOf(byRule, speed)} s`,
        }
      : { sum: `${says}: ${words} words`, comes: `${secondsOf(byRule, speed)} s` };
  const frames = {
    sum: `× ${speed.num}${speed.den === 1 ? '' : `/${speed.den}`} f/s, up to a whole frame`,
    comes: `${grouped(byRule)} frames`,
  };
  const typed = own === null ? [] : [{ sum: 'as you have said', comes: `${grouped(hold)} frames` }];
  return [rule, frames, ...typed];
}

/** The sum under the whole of a card. */
export function wholeSum(title: TitleWords, hold: number): SumLine[] {
  const { before, after, takes } = title.shooting;
  const whole = before + hold + after;
  const lines = [
    { sum: `before ${before} + hold ${hold} + after ${after}`, comes: `${grouped(whole)} frames` },
  ];
  return takes === 1
    ? lines
    : [
        ...lines,
        { sum: `× ${takes} takes, of the roll`, comes: `${grouped(whole * takes)} frames` },
      ];
}

/** Where a title stands, short: for its row in the list. */
export function standsWords(title: TitleKept): string {
  if (title.photographed > 0)
    return title.photographed === 1 ? 'on film' : `on film, ${title.photographed} takes`;
  const last = title.stands.at(-1);
  return last ? `in ${last.cut}, no. ${last.position}` : 'in no version';
}

/** What a person hears of a title when it is chosen. */
export function titleSpoken(title: TitleKept): string {
  const words = title.words === 1 ? '1 word' : `${title.words} words`;
  return `${title.title.name}, ${firstWords(title.title) || 'nothing written'}: ${words}, stands ${title.hold} frames`;
}

/** With a capital at its head, as a button or a heading begins. */
export function capitalised(words: string): string {
  return words.slice(0, 1).toUpperCase() + words.slice(1);
}

/** The program's words as a sentence: a capital at its head, a full stop at its end. */
export function asSentence(words: string): string {
  const plain = words.trim();
  return /[.?!]$/.test(plain) ? capitalised(plain) : `${capitalised(plain)}.`;
}
