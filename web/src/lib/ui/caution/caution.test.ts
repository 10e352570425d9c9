import { render, screen } from '@testing-library/svelte';
import { tick } from 'svelte';
import { describe, expect, it, vi } from 'vitest';
import Caution from './Caution.svelte';
import { CAUTION_KEYS, CAUTIONS, FIRST } from './cautions';
import { ToldOnce } from './told_once.svelte';

function memory() {
  const kept = new Map<string, string>();
  return {
    getItem: (name: string) => kept.get(name) ?? null,
    setItem: (name: string, value: string) => void kept.set(name, value),
  };
}

describe('a caution', () => {
  it('is shown once in a session, and not after it was put away', async () => {
    const session = memory();
    const told = new ToldOnce(session);
    const onaway = vi.fn();
    const first = render(Caution, { which: 'blades', told, onaway });
    expect(screen.getByRole('group', { name: 'Take care: blades' }).textContent).toContain(FIRST);
    screen.getByRole('button', { name: 'I have read it' }).click();
    await tick();
    expect(screen.queryByRole('group')).toBeNull();
    expect(onaway).toHaveBeenCalledOnce();
    first.unmount();
    // The same session, another page: it has been told.
    render(Caution, { which: 'blades', told: new ToldOnce(session) });
    expect(screen.queryByRole('group')).toBeNull();
  });

  it('of several only tells those that were not told', () => {
    const told = new ToldOnce(null);
    told.tell(['blades']);
    render(Caution, { which: ['blades', 'solvent'], told });
    expect(screen.getByRole('group', { name: 'Take care: solvent' }).textContent).not.toContain(
      CAUTIONS.blades.words,
    );
  });

  it('that only flashed by is told again, one that stood is not', () => {
    const told = new ToldOnce(null);
    told.leave(['mains'], 0, 7999);
    expect(told.has('mains')).toBe(false);
    told.leave(['mains'], 0, 8000);
    expect(told.has('mains')).toBe(true);
  });

  it('says what, where and what to do, in few words', () => {
    expect(CAUTION_KEYS.length).toBeGreaterThanOrEqual(13);
    for (const key of CAUTION_KEYS) {
      const { about, at, words } = CAUTIONS[key];
      expect(about.length, key).toBeGreaterThan(3);
      expect(at.length, key).toBeGreaterThan(10);
      expect(words, key).toMatch(/^[A-Z].{60,320}\.$/);
    }
  });
});
