// @vitest-environment node
import { expect, it } from 'vitest';
import { check, counter, type Entry, footage, nextTake, standsAt } from './counters.js';

const say = (frames: number) => footage(frames, 72);

function entry(setup: string, take: number, start: number, end: number, roll = 'R1'): Entry {
  const words = { day: '', batch: '', camera: '', mark: '', remark: '', speed: '18', lens: '' };
  const id = `${setup}-T${take}`;
  return { ...words, stop: '', filter: '', distance: '', id, roll, setup, take, start, end };
}

// Super 8 has 72 frames to a foot: 37 ft 60 fr are 2,724 frames.
it.each([
  ['2724', 2724],
  ['37+60', 2724],
  [' 37 + 60 ', 2724],
  ['0+0', 0],
  ['37+72', null],
  ['37+', null],
  ['1+2+3', null],
  ['-4', null],
  ['12.5', null],
  ['', null],
  ['999999999', null],
])('reads the counter %j as %j', (text, frames) => expect(counter(text, 72)).toBe(frames));

it('writes a counter as it reads it', () => {
  for (let frames = 0; frames < 400; frames += 1) {
    expect(counter(footage(frames, 72), 72)).toBe(frames);
    expect(counter(footage(frames, 40), 40)).toBe(frames);
  }
});

it('numbers the next take of a setup, whatever the case, and goes on where a roll stands', () => {
  const there = [entry('3A', 1, 0, 100), entry('3a', 4, 100, 180), entry('2', 1, 0, 90, 'R2')];
  expect(nextTake(there, '3A')).toBe(5);
  expect(nextTake(there, '7')).toBe(1);
  expect(nextTake(there, '7', 2)).toBe(3);
  expect(standsAt(there, 'R1')).toBe(180);
  expect(standsAt(there, 'R3')).toBe(0);
});

// The first takes of the example's first roll.
const there = [entry('1', 1, 24, 390), entry('1', 2, 390, 762)];

it.each<[string, Entry, RegExp]>([
  ['backwards', entry('2', 1, 1050, 762), /runs backwards, from 14\+42 to 10\+42/],
  ['still', entry('2', 1, 762, 762), /stands still/],
  ['over another take', entry('2', 1, 700, 900), /lies over 1-T2, 5\+30 to 10\+42/],
  ['beyond the load', entry('2', 1, 762, 3600), /beyond the load of 49\+24/],
  ['a take twice', { ...entry('1', 2, 762, 900), id: 'new' }, /1-T2 stands already/],
  ['no setup', entry('', 1, 762, 900), /name of letters and figures/],
  ['a strange setup', entry('3/A', 1, 762, 900), /such as 3A/],
  ['a strange roll', entry('2', 1, 762, 900, 'R 1'), /such as R1/],
  ['no number', entry('2', 0, 762, 900), /numbered from 1/],
])('keeps a take from being written down: %s', (_, take, words) => {
  expect(check(take, there, 3552, say).wrong.join(' ')).toMatch(words);
});

it('asks about a gap and keeps nothing back for it', () => {
  const found = check(entry('2', 1, 800, 1050), there, 3552, say);
  expect(found.wrong).toEqual([]);
  expect(found.asked.join(' ')).toMatch(/38 frames have run since 10\+42/);
  expect(check(entry('2', 1, 762, 1050), there, 3552, say)).toEqual({ wrong: [], asked: [] });
  expect(check(entry('2', 1, 24, 90, 'R2'), there, null, say).asked).toHaveLength(1);
});

it('does not hold a take against itself when it is put right', () => {
  const again = { ...entry('1', 2, 390, 770), id: '1-T2' };
  expect(check(again, there, 3552, say).wrong).toEqual([]);
});
