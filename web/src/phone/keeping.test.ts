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

const entry = (id: string) => ({
  ...{
    id,
    day: '2026-05-09',
    roll: 'R1',
    batch: '',
    camera: '',
    setup: '3A',
    mark: '',
    remark: '',
  },
  ...{ speed: '', lens: '', stop: '', filter: '', distance: '', take: 1, start: 0, end: 90 },
});
const ids = (kept: { entries: { id: string }[] }) => kept.entries.map((one) => one.id);

it('finds what an older page of the film has kept, once, and for one film only', () => {
  const old = { ...nothingYet(), entries: [entry('a'), entry('b')], loads: { R1: 3552 } };
  localStorage.setItem('boat', JSON.stringify(old));
  const one = keeper(localStorage, 'boat 1', 'boat');
  const { kept } = one.read();
  expect(one.takeOver(kept)).toBe(2);
  expect([ids(kept), kept.loads]).toEqual([['a', 'b'], { R1: 3552 }]);
  // Taken out here, it does not come back; what the older page writes later does come.
  kept.gone = kept.entries.splice(0, 1);
  one.keep(kept);
  localStorage.setItem('boat', JSON.stringify({ ...old, entries: [...old.entries, entry('c')] }));
  const again = one.read().kept;
  expect(one.takeOver(again)).toBe(1);
  expect(ids(again)).toEqual(['b', 'c']);
  // Another film of that title has its own, and nothing of this one.
  const other = keeper(localStorage, 'boat 2', 'boat');
  const { kept: others } = other.read();
  expect(other.takeOver(others)).toBe(0);
  expect(others).toEqual(nothingYet());
  expect(ids(JSON.parse(localStorage.getItem('boat') ?? '') as never)).toEqual(['a', 'b', 'c']);
});

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
