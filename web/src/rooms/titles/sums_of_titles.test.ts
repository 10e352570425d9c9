// @vitest-environment node
// Expectations named O and story 10 are those of the job; the rest is reckoned by hand.
import { expect, it } from 'vitest';
import { boatStand, boatTitles } from './boat_titles';
import { exposureRows } from './exposure_rows';
import { framesTyped } from './frames_typed';
import { highEnough, remedied } from './remedies';
import { figureTyped, widthAt } from './stand_both_ways';
import { sampled, standPlan, stopsWords } from './stand_drawing';
import { standPlates } from './stand_plates';
import { firstWords, holdSum, standsWords, wholeSum } from './title_sayings';
import { countWords } from './word_count';

const EIGHTEEN = { num: 18, den: 1 };
const main = () => {
  const title = boatTitles().titles[0];
  if (!title) throw new Error('the main title is there');
  return title;
};

it('counts words as a reader does, as the program counts them', () => {
  // The examples of `count_words` in the title crate.
  expect(countWords('The ten-past boat — don’t be late')).toBe(7);
  expect(countWords(' — ')).toBe(0);
  expect(countWords('10 past\n\nnaïve café')).toBe(4);
  expect(countWords(main().title.words)).toBe(12);
});

it('reads lengths as they are typed', () => {
  const read = (typed: string) => framesTyped(typed, EIGHTEEN, 72);
  expect(['36', '1ft12', '2 s', '2,5s', '36 fr', '0', '1,000'].map(read)).toEqual([
    36, 84, 36, 45, 36, 0, 1000,
  ]);
  // A third of a second more is a frame more; 7.0 s are 126 frames and not 127.
  expect([read('7.0 s'), read('7.01 s')]).toEqual([126, 127]);
  expect(['', 'soon', '-3', '1.5', '9999999'].map(read)).toEqual([null, null, null, null, null]);
});

it('opens the sum of the hold and of the whole', () => {
  const { title } = main();
  const { stand } = boatTitles();
  expect(holdSum(12, 126, 126, null, '', stand, EIGHTEEN)).toEqual([
    { sum: 'the longer of 2.5 s and 1 + 0.5 × 12', comes: '7.0 s' },
    { sum: '× 18 f/s, up to a whole frame', comes: '126 frames' },
  ]);
  expect(wholeSum(title, 126)).toEqual([
    { sum: 'before 36 + hold 126 + after 18', comes: '180 frames' },
    { sum: '× 2 takes, of the roll', comes: '360 frames' },
  ]);
});

it('lays the exposure sheet out stage by stage', () => {
  const shooting = { ...main().title.shooting, letters_in: 12, letters_out: 40 };
  const rows = exposureRows(shooting, 126).map((row) => [row.id, row.from, row.frames]);
  // Letters that go for longer than there is film after go over all of it.
  expect(rows).toEqual([
    ['before', 0, 24],
    ['letters_in', 24, 12],
    ['hold', 36, 126],
    ['letters_out', 162, 18],
    ['after', null, 0],
  ]);
});

it('finds the width of the field at a distance', () => {
  // Story 10: 1,079.5 mm with 25 mm and a gate of 5.69 mm is a field of 240 mm.
  expect(widthAt(1079.5, 25, 5.69)).toBeCloseTo(240, 1);
  expect([widthAt(40, 25, 5.69), widthAt(0, 25, 5.69), widthAt(1000, 0, 5.69)]).toEqual([
    null,
    null,
    null,
  ]);
  expect(['1079,5', '.5', 'far', ''].map(figureTyped)).toEqual([1079.5, 0.5, null, null]);
});

it('draws the stand to scale', () => {
  const plan = standPlan(boatStand());
  // Two lamps at 45° and 800 mm hang as far aside as over the board.
  expect(plan.lamp.aside).toBeCloseTo(565.7, 1);
  expect(plan.lamp.over).toBeCloseTo(565.7, 1);
  expect([plan.lens, plan.half]).toEqual([1079.5, [120, 89]]);
  const [left, top, width, height] = plan.box;
  expect(top).toBeLessThan(-1079.5);
  expect(left + width).toBeGreaterThan(565.7);
  expect(top + height).toBeGreaterThan(0);
  expect(plan.sharp?.[0]).toBeCloseTo(115.5, 1);
});

it('says stops with their sign, and shows a map by its corners and middle', () => {
  expect([stopsWords(0.07), stopsWords(-0.125), stopsWords(0.001)]).toEqual([
    '+ 0.07',
    '− 0.13',
    '0',
  ]);
  const map = Array.from({ length: 9 }, (_, y) => Array.from({ length: 9 }, (_, x) => 10 * y + x));
  expect(sampled(map, 3)).toEqual([
    [0, 4, 8],
    [40, 44, 48],
    [80, 84, 88],
  ]);
});

it('opens the sums of the stand on its plates', () => {
  const plates = standPlates(boatStand());
  const distance = plates.find((plate) => plate.label === 'Lens to artwork');
  expect(distance?.parts).toEqual([{ count: '1,079.5' }, { words: 'mm' }]);
  expect(distance?.sum?.at(-1)?.comes).toBe('1,079.5 mm');
  expect(plates.map((plate) => plate.label)).toContain('Sharp');
  expect(standPlates({ ...boatStand(), sharp: null }).length).toBe(plates.length - 1);
});

it('changes a title by each remedy, and nothing else of it', () => {
  const { title } = main();
  expect(remedied(title, { do: 'move', down: 'low' }).lettering).toEqual({
    ...title.lettering,
    down: 'low',
  });
  expect(remedied(title, { do: 'darken', tenths: 12 }).ground?.darker).toBe(12);
  expect(remedied(title, { do: 'plate' }).lettering?.plate).toBe(true);
  expect(remedied(title, { do: 'other_ink' }).lettering?.dark).toBe(true);
});

it('says how high letters must be for the last row', () => {
  const letters = {
    lines: [],
    words: 1,
    capitals: 40,
    small: 28,
    on_art_mm: '4.7',
    on_screen_mm: '25.2',
    needed_on_screen_mm: '29.1',
    needed_on_art_mm: '5.4',
    last_row_reads: false,
  };
  // 40 × 5.4 ÷ 4.7 is 45.96.
  expect(highEnough(letters)).toBe(46);
  expect(highEnough({ ...letters, on_art_mm: '' })).toBeNull();
});

it('says a title in a line', () => {
  const [first, second, last] = boatTitles().titles;
  if (!first || !second || !last) throw new Error('three titles are there');
  expect(firstWords(first.title)).toBe('The Ten-Past Boat');
  expect([first, second, last].map(standsWords)).toEqual([
    'in v1, no. 1',
    'in no version',
    'in v1, no. 23',
  ]);
  expect(standsWords({ ...first, photographed: 2 })).toBe('on film, 2 takes');
});
