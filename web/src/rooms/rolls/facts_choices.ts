// The words among which base, fit and wind are chosen.

export const BASES = [
  { value: 'triacetate', words: 'triacetate' },
  { value: 'polyester', words: 'polyester' },
  { value: 'not-known', words: 'not known' },
] as const;

export const FITS = [
  { value: 'project', words: 'to project' },
  { value: 'scan-only', words: 'to scan only' },
  { value: 'never-cut', words: 'never to cut' },
] as const;

export const WINDS = [
  { value: 'A', words: 'A' },
  { value: 'B', words: 'B' },
  { value: '', words: 'not known' },
] as const;

export type BaseWord = (typeof BASES)[number]['value'];
export type FitWord = (typeof FITS)[number]['value'];
export type WindWord = (typeof WINDS)[number]['value'];

type Choice<Value extends string> = { readonly value: Value; readonly words: string };

/** The choice that a word of the server means; the last where it means none of them. */
export function choiceOf<Value extends string>(
  choices: readonly Choice<Value>[],
  word: string | null | undefined,
): Value {
  const found = choices.find((each) => each.value === word) ?? choices.at(-1);
  if (!found) throw new RangeError('nothing to choose from');
  return found.value;
}

/** `Triacetate, to project, wind B.`; what is not known is not said. */
export function factsWords(base: string, fit: string, wind: string | null | undefined): string {
  const words = [
    base === 'not-known' ? '' : base,
    FITS.find((each) => each.value === fit)?.words ?? fit,
    wind ? `wind ${wind}` : '',
  ].filter(Boolean);
  const all = words.join(', ');
  return `${all.charAt(0).toUpperCase()}${all.slice(1)}.`;
}
