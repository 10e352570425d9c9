// @vitest-environment node
import { expect, it } from 'vitest';
import type { FilmChange } from '$lib/api/wire';
import { filmOf } from './pretend_log';
import { nextReelName, type Reel, ReelForm, woundFrom, woundText } from './reel_form.svelte';

const can = (reel: string, more: Partial<Reel> = {}): Reel => ({
  reel,
  kind: 'can',
  feet: 400,
  across_mm: null,
  hub_mm: null,
  lies: 'tails',
  kept_in: 'the cellar',
  accession: '',
  note: '',
  wound: [{ roll: 'R1' }, { roll: 'R2', in: 0, out: 1800 }],
  frames: 5400,
  footage: { feet: 75, frames: 0 },
  too_much: false,
  ...more,
});

it('what is wound is written as one says it, and read back', () => {
  const text = woundText(can('Can 1').wound ?? []);
  expect(text).toBe('R1, R2 0–1799');
  expect(woundFrom(text)).toEqual({ wound: [{ roll: 'R1' }, { roll: 'R2', in: 0, out: 1800 }] });
  expect(woundFrom('R1; R2 5 to 9\n')).toEqual({
    wound: [{ roll: 'R1' }, { roll: 'R2', in: 5, out: 10 }],
  });
  expect(woundFrom('R1, R2 9-5')).toEqual({ wrong: 'R2 9-5' });
  expect(woundFrom('R1 from here')).toEqual({ wrong: 'R1 from here' });
});

it('is kept whole; what cannot be read is said and nothing is sent', async () => {
  const sent: FilmChange[] = [];
  const desk = {
    film: filmOf([], { reels: [can('Can 1')], revision: 7 }),
    change: (change: FilmChange) => {
      sent.push(change);
      return Promise.resolve({ revision: 8, already: false, words: '' });
    },
  };
  const fresh = new ReelForm(desk, null);
  expect(fresh.name).toBe('Can 2');
  fresh.wound = 'R3 x';
  expect(await fresh.keep()).toBe(false);
  expect([fresh.problem?.includes('R3 x'), sent.length]).toEqual([true, 0]);
  const form = new ReelForm(desk, can('Can 1'));
  form.keptIn = 'the attic';
  expect(await form.keep()).toBe(true);
  expect(await form.takeAway()).toBe(true);
  expect(sent).toEqual([
    {
      film_change: 'put_reel',
      reel: 'Can 1',
      words: {
        kind: 'can',
        lies: 'tails',
        feet: 400,
        across_mm: null,
        hub_mm: null,
        kept_in: 'the attic',
        accession: '',
        note: '',
        wound: [{ roll: 'R1' }, { roll: 'R2', in: 0, out: 1800 }],
      },
    },
    { film_change: 'remove_reel', reel: 'Can 1' },
  ]);
});

it('names go on in their order, each kind by itself', () => {
  const reels = [can('Can 2'), can('Can 10'), can('Reel 3', { kind: 'reel' })];
  expect(nextReelName(reels, 'can')).toBe('Can 11');
  expect(nextReelName(reels, 'reel')).toBe('Reel 4');
  expect(nextReelName(reels, 'core')).toBe('Core 1');
});
