// What a film on the shelf is at, in a few small plates: script, rolls, takes, version.
import type { Shelved } from '$lib/api/wire';
import { grouped } from '$lib/film/grouped';

export interface FilmMark {
  readonly of: 'script' | 'rolls' | 'proof' | 'takes' | 'versions';
  readonly count: string;
  readonly words: string;
  /** There is none of it yet. */
  readonly none: boolean;
  readonly proved: boolean;
}

const many = (count: number, one: string, several: string) => (count === 1 ? one : several);

export function filmMarks(film: Shelved): FilmMark[] {
  const usual = { none: false, proved: false };
  const none = (of: FilmMark['of'], words: string): FilmMark => ({
    of,
    count: '',
    words,
    none: true,
    proved: false,
  });
  const counted = (of: FilmMark['of'], count: number, one: string, several: string): FilmMark => ({
    ...usual,
    of,
    count: grouped(count),
    words: many(count, one, several),
  });
  const marks: FilmMark[] = [];
  if (film.setups > 0)
    marks.push(counted('script', film.setups, 'setup planned', 'setups planned'));
  else if (film.scenes > 0) marks.push(counted('script', film.scenes, 'scene', 'scenes'));
  else marks.push(none('script', 'no script'));
  if (film.rolls === 0) marks.push(none('rolls', 'no roll'));
  else {
    marks.push(counted('rolls', film.rolls, 'roll', 'rolls'));
    marks.push(proof(film));
  }
  if (film.takes > 0) marks.push(counted('takes', film.takes, 'take', 'takes'));
  if (film.cuts === 0) marks.push(none('versions', 'no version'));
  else {
    const newest = film.newest_cut ?? '';
    const words = film.cuts === 1 ? `version, ${newest}` : `versions, ${newest} the newest`;
    const count = grouped(film.cuts);
    marks.push({ ...usual, of: 'versions', count, words });
  }
  return marks;
}

function proof(film: Shelved): FilmMark {
  const all = film.proved === film.rolls;
  if (film.proved === 0) {
    return { of: 'proof', count: '', words: 'not proved', none: true, proved: false };
  }
  const words = all ? 'proved' : `of ${grouped(film.rolls)} proved`;
  return { of: 'proof', count: all ? '' : grouped(film.proved), words, none: false, proved: all };
}
