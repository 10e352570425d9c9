// @vitest-environment node
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { meaningOf, terms } from './glossary';

// Words that the house never says, read from its own table.
const house = readFileSync(new URL('../../../../docs/GLOSSARY.md', import.meta.url), 'utf8');
const never = [...house.matchAll(/^\|[^|]+\|([^|]+)\|$/gm)]
  .flatMap((row) => (row[1] ?? '').split(','))
  .map((word) => word.trim())
  .filter((word) => /^[a-z]/.test(word) && word !== 'not');

describe('the glossary of the page', () => {
  it('holds at least forty words', () => expect(terms.length).toBeGreaterThanOrEqual(40));

  it('knows which words are never said', () => expect(never).toContain('clip'));

  it.each(terms)('explains "%s" in a sentence or two', (term) => {
    const meaning = meaningOf(term);
    expect(meaning).toMatch(/^[A-Z].*\.$/);
    expect(meaning.length).toBeLessThan(140);
    for (const word of never) expect(meaning).not.toMatch(new RegExp(`\\b${word}\\b`, 'i'));
  });
});
