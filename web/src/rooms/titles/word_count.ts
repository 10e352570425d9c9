// Words as a reader meets them. The twin of `count_words` in the title crate: by the word
// boundaries of the Unicode standard (UAX #29); a piece without a letter or a figure is none.

const SEGMENTS = new Intl.Segmenter('en', { granularity: 'word' });

export function countWords(text: string): number {
  let words = 0;
  for (const { segment } of SEGMENTS.segment(text)) {
    if (/[\p{Alphabetic}\p{N}]/u.test(segment)) words += 1;
  }
  return words;
}
