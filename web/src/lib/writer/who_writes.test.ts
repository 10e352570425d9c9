import { beforeEach, describe, expect, it } from 'vitest';
import { asName, LONGEST_NAME, WhoWrites } from './who_writes.svelte';

beforeEach(() => localStorage.clear());

describe('who writes', () => {
  it('is asked once and kept for the next time', () => {
    const first = new WhoWrites();
    expect([first.asked, first.name]).toEqual([false, '']);
    first.sign('  Ida \n Holm ');
    const next = new WhoWrites();
    expect([next.asked, next.name]).toEqual([true, 'Ida Holm']);
  });

  it('may be nobody, and then is not asked again', () => {
    new WhoWrites().sign('');
    const next = new WhoWrites();
    expect([next.asked, next.name]).toEqual([true, '']);
  });

  it('is no longer than the head of a column', () => {
    expect(asName('n'.repeat(99))).toHaveLength(LONGEST_NAME);
  });

  it('signs what is kept, and rewrites only that and what nobody signed', () => {
    const who = new WhoWrites();
    who.name = 'Ida';
    expect([who.asked, who.signed(), who.asked]).toEqual([false, 'Ida', true]);
    const own = ['Ida', 'Mara', ''].map((writer) => who.wrote({ writer }));
    expect(own).toEqual([true, false, true]);
  });
});
