// What the server says of a problem, as sentences on a slip.
import type { Problem } from '$lib/api/wire';

function sentence(words: string): string {
  const plain = words.trim().replace(/\.$/, '');
  return plain === '' ? '' : `${plain.charAt(0).toUpperCase()}${plain.slice(1)}.`;
}

/** What was asked and found, and the next step. */
export function problemSaid(problem: Problem): string {
  return [sentence(problem.message), sentence(problem.hint)].filter((one) => one !== '').join(' ');
}
