// @vitest-environment node
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { meaningOf, terms } from './glossary';

// Words that the house never says; the table stands in docs/GLOSSARY.md.
const NEVER =
  /\b(clip|footage segment|edit point|media|timeline|playhead|bin of|project|render)\b/i;

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
