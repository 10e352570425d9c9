// The cautions, each keyed by the step where it matters. The words stand in one
// file, which the printed sheets are made from too.
import words from './cautions.json';

export type CautionKey = Exclude<keyof typeof words, 'first'>;

export interface CautionWords {
  readonly about: string;
  /** The step where it matters: "cutting and joining". */
  readonly at: string;
  readonly words: string;
}

/** Who has the last word, whatever stands here. */
export const FIRST: string = words.first.words;

const { first: _first, ...steps } = words;
export const CAUTIONS: Readonly<Record<CautionKey, CautionWords>> = steps;

/** All of them, in the order of the work. */
export const CAUTION_KEYS = Object.keys(steps) as readonly CautionKey[];
