// @vitest-environment node
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { contrast } from './contrast';

const sheet = readFileSync(new URL('./tokens.css', import.meta.url), 'utf8').replace(
  /\/\*[\s\S]*?\*\//g,
  '',
);

type Palette = Record<string, string>;

/** The tokens of the first block that stands under exactly this selector. */
function tokensOf(selector: string): Palette {
  const start = sheet.indexOf(`${selector} {`);
  if (start < 0) throw new Error(`tokens.css has no block ${selector}`);
  const open = sheet.indexOf('{', start) + 1;
  const block = sheet.slice(open, sheet.indexOf('}', open));
  return Object.fromEntries(
    [...block.matchAll(/--([a-z0-9-]+):\s*([^;]+);/g)].map(([, name, value]) => [
      name ?? '',
      (value ?? '').replace(/\s+/g, ' ').trim(),
    ]),
  );
}

const light = tokensOf(":root,\n[data-bench='light']");
const dark = tokensOf("\n[data-bench='dark']");
const asked = tokensOf(':root:not([data-bench])');
const glass = tokensOf("[data-on='glass']");
const measures = tokensOf('}\n\n:root');

function pick(palette: Palette, name: string): string {
  const value = palette[name];
  if (value === undefined) throw new Error(`no token --${name}`);
  return value;
}

const BENCH = ['bench', 'foot', 'tab'];
const PAPER = ['paper', 'card', 'chosen', 'no', 'ask', 'ok', 'flag', 'plate', 'face'];

// Which ink may stand on which ground: look.md, section 2.
const WORDS: Record<string, { light: string[]; dark: string[] }> = {
  ink: { light: [...BENCH, 'bench2', ...PAPER], dark: [...BENCH, 'bench2', ...PAPER] },
  ink2: { light: [...BENCH, ...PAPER], dark: [...BENCH, 'bench2', ...PAPER] },
  form: { light: [...BENCH, ...PAPER], dark: [...BENCH, 'bench2', ...PAPER] },
  red: { light: PAPER, dark: [...BENCH, 'bench2', ...PAPER] },
  blue: { light: [...BENCH, 'bench2', ...PAPER], dark: [...BENCH, 'bench2', ...PAPER] },
  ochre: { light: [...BENCH, ...PAPER], dark: [...BENCH, 'bench2', ...PAPER] },
  hand: { light: PAPER, dark: PAPER },
};
const ON_FILLED = [
  ['on-form', 'form'],
  ['on-ink', 'ink'],
] as const;
const ON_GLASS = ['ink', 'form', 'blue', 'ochre', 'ink2'];

// Lines that carry a meaning or mark what can be used: at least 3.
const STROKES: [string, string[]][] = [
  ['pencil', [...PAPER, 'bench', 'foot']],
  ['outline', [...BENCH, 'bench2', ...PAPER]],
  ['plate-line', ['bench', 'bench2', 'paper', 'plate']],
  ['form', [...BENCH, ...PAPER]],
  ['key-line', ['foot']],
  ['wave1', ['paper']],
  ['wave2', ['paper']],
  ['wave3', ['paper']],
];

describe.each([
  ['light', light],
  ['dark', dark],
] as const)('the %s bench', (bench, palette) => {
  const words = Object.entries(WORDS).flatMap(([ink, grounds]) =>
    grounds[bench].map((ground) => [ink, ground] as const),
  );
  it.each([...words, ...ON_FILLED])('words in %s are legible on %s', (ink, ground) => {
    expect(contrast(pick(palette, ink), pick(palette, ground))).toBeGreaterThanOrEqual(4.5);
  });

  const strokes = STROKES.flatMap(([ink, grounds]) =>
    grounds.map((ground) => [ink, ground] as const),
  );
  it.each(strokes)('lines in %s are seen on %s', (ink, ground) => {
    expect(contrast(pick(palette, ink), pick(palette, ground))).toBeGreaterThanOrEqual(3);
  });

  it.each(ON_GLASS)('words in %s are legible on the glass and on tags', (ink) => {
    for (const ground of ['glass', 'through', 'tag']) {
      expect(contrast(pick(glass, ink), pick(palette, ground))).toBeGreaterThanOrEqual(4.5);
    }
  });

  it.each([...ON_GLASS, 'red', 'hand'])('words in %s are legible on paper on the glass', (ink) => {
    for (const ground of ['paper', 'card', 'no', 'ask', 'ok', 'flag']) {
      const lit = pick(palette, `glass-${ground}`);
      expect(contrast(pick(glass, ink), lit)).toBeGreaterThanOrEqual(4.5);
    }
  });

  it('red words on the light table stand on a tag, never on the glass itself', () => {
    expect(contrast(pick(glass, 'red'), pick(palette, 'tag'))).toBeGreaterThanOrEqual(4.5);
  });

  it('the pencil is seen on glass, on the film edge and on the tag', () => {
    for (const ground of ['glass', 'through', 'film', 'tag']) {
      expect(contrast(pick(glass, 'pencil'), pick(palette, ground))).toBeGreaterThanOrEqual(3);
    }
  });

  it('a chosen row of a sheet is another ground than its neighbours', () => {
    expect(pick(palette, 'chosen')).not.toBe(pick(palette, 'paper'));
  });
});

describe('the sheet of tokens', () => {
  it('gives the dark bench the same whether chosen or asked for by the system', () => {
    expect(asked).toEqual(dark);
  });

  it('names the same tokens in both palettes', () => {
    expect(Object.keys(dark).sort()).toEqual(Object.keys(light).sort());
  });

  it('puts the light inks on the glass', () => {
    const inks = Object.entries(glass).filter(([, value]) => value.startsWith('#'));
    expect(inks.map(([name]) => name)).toEqual(expect.arrayContaining([...ON_GLASS, 'red']));
    for (const [name, value] of inks) expect(value).toBe(pick(light, name));
  });

  // The figures that look.md itself gives, so that a slip of the formula shows.
  it.each([
    ['ink', 'paper', 16.3],
    ['ink', 'bench2', 9.1],
    ['ink2', 'foot', 4.7],
    ['form', 'foot', 4.8],
    ['red', 'no', 5.3],
    ['blue', 'bench2', 4.9],
    ['ochre', 'foot', 4.9],
    ['pencil', 'film', 3.2],
    ['on-form', 'form', 8.2],
  ])('agrees with the table of the look: %s on %s is %d', (ink, ground, ratio) => {
    expect(contrast(pick(light, ink), pick(light, ground))).toBeCloseTo(ratio, 0.7);
  });

  it('has no words under 15 px and no steering count under 22 px', () => {
    const px = (name: string) => Number.parseFloat(pick(measures, name)) * 16;
    for (const name of ['small', 'text', 'lead', 'title', 'head', 'frame-name-small']) {
      expect(pick(measures, name)).toMatch(/rem$/);
      expect(px(name)).toBeGreaterThanOrEqual(15);
    }
    for (const name of ['count', 'count-plate', 'count-next', 'count-live', 'count-bench']) {
      expect(px(name)).toBeGreaterThanOrEqual(22);
    }
    expect(px('own-words')).toBeGreaterThanOrEqual(19);
    expect(px('target')).toBeGreaterThanOrEqual(44);
  });
});
