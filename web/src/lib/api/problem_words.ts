// A problem of the server as whole sentences on a slip.
import type { Problem } from './wire';

/** Words as a whole sentence: a capital, and a full stop. */
export function sentence(words: string): string {
  const text = words.trim();
  if (text === '') return '';
  const end = /[.!?]$/.test(text) ? '' : '.';
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}${end}`;
}

/** `A take begins at R1·1568 already. Step to another frame.` */
export function problemWords(
  problem: Pick<Problem, 'message' | 'hint'> | null | undefined,
): string {
  if (!problem) return '';
  return [sentence(problem.message), sentence(problem.hint)].filter(Boolean).join(' ');
}
