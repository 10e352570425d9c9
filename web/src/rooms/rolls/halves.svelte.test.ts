// @vitest-environment node
import { beforeEach, expect, it } from 'vitest';
import { Refused } from '$lib/api/server';
import type { FilmChange, RollHead } from '$lib/api/wire';
import {
  Halves,
  halfSentence,
  halfShort,
  lieWords,
  mayBeHalf,
  othersFor,
  stripName,
  uncuttable,
} from './halves.svelte';
import { headOf, logOf } from './pretend_log';

let sent: FilmChange[];
let refuse: Refused | null;
const half = (side: string, slit: boolean, other: string | null = 'R4a') => ({
  strip: 'R4',
  side,
  slit,
  other,
  words: '',
});
const eight = (roll: string, more: Partial<RollHead> = {}) =>
  headOf(roll, 2000, { gauge: 'regular8', ...more });
const heads = [
  eight('R3'),
  eight('R4a'),
  eight('R4b'),
  headOf('R5', 3600),
  eight('R6', { half: half('A', true, null) }),
];

function formOf(roll: string, of: Partial<RollHead> = {}): Halves {
  const log = logOf([], 2000, { roll, gauge: 'regular8', revision: 7, ...of });
  const desk = {
    change: (change: FilmChange, seen: number) => {
      expect(seen).toBe(7);
      sent.push(change);
      return refuse
        ? Promise.reject(refuse)
        : Promise.resolve({ revision: 8, already: false, words: '' });
    },
  };
  return new Halves(
    desk,
    () => log,
    () => heads,
  );
}

beforeEach(() => {
  [sent, refuse] = [[], null];
});

it('only regular 8 that is of no strip yet may be the other half', () => {
  expect(othersFor('R4b', heads)).toEqual(['R3', 'R4a']);
  expect([mayBeHalf(eight('R3')), mayBeHalf(headOf('R5', 10))]).toEqual([true, false]);
});

it('the likeliest other half is the one with the nearest name, and the earlier was run first', async () => {
  const form = formOf('R4b');
  expect([form.other, form.run, form.strip]).toEqual(['R4a', 'B', 'R4']);
  expect(await form.pair()).toBe(true);
  expect(sent).toEqual([
    { film_change: 'pair_halves', strip: 'R4', a: 'R4a', b: 'R4b', slit: false },
  ]);
  form.run = 'A';
  form.slit = 'yes';
  form.strip = ' the pier ';
  await form.pair();
  expect(sent[1]).toEqual({
    film_change: 'pair_halves',
    strip: 'the pier',
    a: 'R4b',
    b: 'R4a',
    slit: true,
  });
});

it('a strip is named by what the names have in common, if that names anything', () => {
  expect(stripName('R4a', 'R4b')).toBe('R4');
  expect(stripName('R3', 'R4')).toBe('R3-R4');
  expect(stripName('harbour1', 'regatta2')).toHaveLength(16);
});

it('unslit halves say why nothing can be cut, and how they lie', async () => {
  const unslit = half('B', false);
  expect(halfShort(unslit)).toBe('half B, not slit');
  expect(halfSentence('R4b', unslit)).toBe(
    'R4b is side B of strip R4, run second; the other half is R4a.',
  );
  expect(uncuttable(unslit)).toContain('goes through the other too');
  expect(lieWords('R4b', unslit)).toContain('R4a runs down it; R4b lies beside, runs up');
  expect(uncuttable(half('B', true))).toBeNull();
  const form = formOf('R4b', { half: unslit });
  await form.slitNow(true);
  await form.part();
  expect(sent).toEqual([
    { film_change: 'slit_strip', strip: 'R4', slit: true },
    { film_change: 'part_halves', strip: 'R4' },
  ]);
});

it('what is refused is told', async () => {
  const problem = { code: 'x', message: 'R4a is a half already', hint: '', details: null };
  refuse = new Refused(problem, 409);
  const form = formOf('R4b');
  expect(await form.pair()).toBe(false);
  expect(form.problem).toContain('R4a is a half already');
  form.other = '';
  await form.pair();
  expect([form.problem, sent.length]).toEqual(['Say which roll is the other half.', 1]);
});
