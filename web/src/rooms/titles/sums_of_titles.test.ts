// @vitest-environment node
// Expectations named O and story 10 are those of the job; the rest is reckoned by hand.
import { expect, it } from 'vitest';
import { boatLines, boatStand, boatTitles } from './boat_titles';
import { framesTyped } from './frames_typed';
import { highEnough, remedied } from './remedies';
import { sheetStages } from './sheet_stages';
import { figureTyped } from './stand_reckoned';
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

it('takes the lines of a fade together, pass by pass', () => {
  const [first, , last] = boatLines(main().title.shooting, 126);
  if (!first || !last) throw new Error('three lines are there');
  const fade = [-1.25, -2.5, -3.75, -5].map((stops, nth) => ({
    ...last,
    from: 176 + nth,
    to: 177 + nth,
    stops,
    exposing: 'single',
  }));
  const capped = { ...first, from: 36, to: 176, stops: null, note: 'run on with the lens capped' };
  const again = { ...first, pass: 2, from: 36, to: 162, cel_1: 'lettered' };
  const stages = sheetStages([first, capped, ...fade, again]);
  expect(stages.map(({ pass, from, to, words }) => [pass, from, to, words])).toEqual([
    [1, 0, 36, 'ground, blank cel'],
    [1, 36, 176, 'lens capped'],
    [1, 176, 180, 'ground, blank cel'],
    [2, 36, 162, 'ground, lettered cel'],
  ]);
  expect(stages.map(({ light, lettered }) => [light, lettered])).toEqual([
    ['full', false],
    ['none', false],
    ['fades', false],
    ['full', true],
  ]);
  expect(stages[2]?.how).toBe('− 1.3 to − 5.0 stops; frame by frame');
});

it('reads figures as they are typed', () => {
  expect(['1079,5', '.5', 'far', ''].map(figureTyped)).toEqual([1079.5, 0.5, null, null]);
});

const reckoned = () => {
  const { field, light } = boatStand();
  if (!field || !light) throw new Error('the stand is reckoned');
  return { field, light };
};

it('draws the stand to scale', () => {
  const { field, light } = reckoned();
  const plan = standPlan(field, light);
  // Two lamps at 45° and 800 mm hang as far aside as over the board.
  expect(plan.lamps).toEqual([
    { aside: -565.7, over: 565.7 },
    { aside: 565.7, over: 565.7 },
  ]);
  expect([plan.lens, plan.half]).toEqual([1079.48, [120, 89]]);
  const [left, top, width, height] = plan.box;
  expect(top).toBeLessThan(-1079.5);
  expect(left + width).toBeGreaterThan(565.7);
  expect(top + height).toBeGreaterThan(0);
  // Sharp from 964 mm on is 116 mm over the board; to infinity it goes off the drawing.
  expect(plan.sharp?.[0]).toBeCloseTo(115.7, 1);
  expect(standPlan({ ...field, far_mm: null }, light).sharp?.[1]).toBe(-120);
  expect(standPlan({ ...field, near_mm: null }, null)).toMatchObject({ sharp: null, lamps: [] });
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
  // Seven rows have a middle and ends, and nothing that lies evenly between.
  const seven = map.slice(0, 7).map((row) => row.slice(0, 7));
  expect(sampled(seven, 5).map((row) => row[1])).toEqual([3, 33, 63]);
  expect(sampled([[0.1]], 5)).toEqual([[0.1]]);
});

it('opens the sums of the stand on its plates', () => {
  const plates = standPlates(reckoned().field);
  expect(plates[0]?.label).toBe('Lens to artwork');
  expect(plates[0]?.parts).toEqual([{ count: '1079.5' }, { words: 'mm' }]);
  expect(plates[0]?.sum?.map((line) => line.comes)).toContain('1079.5 mm');
  expect(plates[1]?.parts).toEqual([{ count: '240.0 × 178.0 mm' }]);
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
