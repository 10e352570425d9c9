// @vitest-environment node
// Colours stand in tokens.css and nowhere else, and every token that is asked
// for is there.
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';

const root = fileURLToPath(new URL('..', import.meta.url));
const files = readdirSync(root, { recursive: true, encoding: 'utf8' })
  .filter((path) => /\.(svelte|css)$/.test(path) && !path.endsWith('tokens.css'))
  .map((path) => ({ path, text: readFileSync(`${root}/${path}`, 'utf8') }));
const tokens = readFileSync(`${root}/look/tokens.css`, 'utf8');

/** The style of a component, or a whole sheet. */
function styleOf(text: string): string {
  const style = /<style[^>]*>([\s\S]*?)<\/style>/.exec(text);
  return (style ? (style[1] ?? '') : text).replace(/\/\*[\s\S]*?\*\//g, '');
}

it('finds the sheets and components', () => expect(files.length).toBeGreaterThan(40));

it.each(files)('$path writes down no colour of its own', ({ path, text }) => {
  const style = path.endsWith('.css') || text.includes('<style') ? styleOf(text) : '';
  const drawn = text.matchAll(/\b(?:fill|stroke|stop-color)="(#[^"]+|rgba?\([^"]+)"/g);
  const written = style.matchAll(/#[0-9a-f]{3,8}\b(?![^{}]*\{)|\b(?:rgba?|hsla?|oklch)\(/gi);
  expect([...drawn, ...written].map((one) => one[0])).toEqual([]);
});

it.each(files)('$path asks for no token that is not there', ({ text }) => {
  const own = [...text.matchAll(/(?:style:)?(--[a-z0-9-]+)\s*[:=]/g)].map((one) => one[1]);
  const asked = [...text.matchAll(/var\((--[a-z0-9-]+)/g)].map((one) => one[1] ?? '');
  const missing = asked.filter((name) => !own.includes(name) && !tokens.includes(`${name}:`));
  // What a control sets for what lies in it: the ground of its sheet.
  expect(missing.filter((name) => name !== '--ground')).toEqual([]);
});
