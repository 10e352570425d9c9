import { render, screen } from '@testing-library/svelte';
import { createRawSnippet } from 'svelte';
import { describe, expect, it } from 'vitest';
import Slip from './Slip.svelte';

const body = createRawSnippet(() => ({ render: () => '<p>R1·2939 is wanted twice.</p>' }));
const heading = 'With cement this join cannot be made.';

describe('a slip', () => {
  it.each([
    ['refused', 'Refused: '],
    ['asks', 'Question: '],
    ['proved', 'Proved: '],
    ['sign', 'Sign: '],
  ] as const)('%s says its kind in a word, not by colour alone', (kind, word) => {
    render(Slip, { kind, heading });
    expect(screen.getByRole('status', { name: `${word}${heading}` })).toBeTruthy();
  });

  it('is said politely, at once, or not again, as asked', () => {
    render(Slip, { kind: 'refused', heading, said: 'at once' });
    expect(screen.getByRole('alert')).toBeTruthy();
    render(Slip, { kind: 'proved', heading, said: 'not' });
    expect(screen.getByRole('group')).toBeTruthy();
    expect(screen.queryByRole('status')).toBeNull();
  });

  it('reads heading, numbers, stamp in this order', () => {
    const { container } = render(Slip, {
      kind: 'refused',
      heading,
      children: body,
      stamp: ['one frame', 'short'],
    });
    expect(container.textContent?.replace(/\s+/g, ' ').trim()).toBe(
      `Refused: ${heading} R1·2939 is wanted twice. one frame short`,
    );
  });
});
