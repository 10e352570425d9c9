// What an older program did not keep when it read a roll, in words.

const WHAT: Record<string, string> = {
  transfer: 'how the file shows the film',
  breaks: 'what speaks for each break',
  signs: 'what the signs are judged by',
};

/** `It did not keep what speaks for each break, nor what the signs are judged by.` */
export function notKeptWords(lacks: readonly string[]): string {
  const parts = lacks.map((one) => WHAT[one] ?? one);
  return `It did not keep ${parts.join(', nor ')}.`;
}
