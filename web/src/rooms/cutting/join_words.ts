// What a join does to the film, in short sentences.
import type { Cut } from '$lib/api/wire';
import { frameName } from '$lib/film/frame_name';
import { isJoined, joinKindAt, joinRow } from './joins';
import { isShot } from './pieces';

function named(roll: string, first: number, count: number): string {
  const name = frameName(roll, first);
  return count > 1 ? `${name} to ${first + count - 1}` : name;
}

/** What it eats on either side, what it marks; that there is none where the film runs on. */
export function wordsOfJoin(cut: Cut, join: number): string[] {
  if (!isJoined(cut, join)) return ['The film runs on here: no join is made.'];
  const row = joinRow(cut, joinKindAt(cut, join));
  const [out, into] = [cut.pieces[join], cut.pieces[join + 1]];
  const words: string[] = [];
  if (isShot(out) && row.out_tail > 0) {
    words.push(`It eats ${named(out.roll, out.out, row.out_tail)}.`);
  }
  if (isShot(into) && row.in_head > 0) {
    words.push(`It eats ${named(into.roll, into.in - row.in_head, row.in_head)}.`);
  }
  if (words.length === 0) words.push('It eats no frame.');
  const marked = (isShot(out) ? row.scar_out : 0) + (isShot(into) ? row.scar_in : 0);
  if (marked > 0) words.push(`It marks ${marked} ${marked === 1 ? 'frame' : 'frames'}.`);
  return words;
}
