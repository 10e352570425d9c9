import { beforeEach, expect, it } from 'vitest';
import { keeper, nothingYet, readKept } from './keeping.js';

beforeEach(() => localStorage.clear());

it('keeps and reads back', () => {
  const place = keeper(localStorage, 'k');
  expect(place.read()).toEqual({ kept: nothingYet(), aside: false });
  const kept = { ...nothingYet(), opened: 3, loads: { R1: 3552 } };
  expect(place.keep(kept)).toBe(true);
  expect(place.read().kept).toEqual(kept);
});

it.each(['{', '7', 'null', '{"entries":3}', '{"entries":[{"id":1}]}'])(
  'puts %s aside and throws nothing away',
  (text) => {
    localStorage.setItem('k', text);
    expect(keeper(localStorage, 'k').read()).toEqual({ kept: nothingYet(), aside: true });
    const aside = Object.keys(localStorage).find((key) => key.startsWith('k.aside.'));
    expect(localStorage.getItem(aside ?? '')).toBe(text);
    expect(readKept(text)).toBe(null);
  },
);

it('says so where nothing is kept', () => {
  expect(keeper(null, 'k').keep(nothingYet())).toBe(false);
  const full = {
    ...localStorage,
    getItem: () => null,
    setItem: () => {
      throw new Error('full');
    },
  };
  expect(keeper(full as unknown as Storage, 'k').keep(nothingYet())).toBe(false);
  const deaf = { getItem: () => null, setItem: () => undefined };
  expect(keeper(deaf as unknown as Storage, 'k').keep(nothingYet())).toBe(false);
});
