import { render } from '@testing-library/svelte';
import { createRawSnippet } from 'svelte';
import { describe, expect, it } from 'vitest';
import Ring from './Ring.svelte';
import { linePath, ringPath } from './strokes';

const numbers = (path: string) => [...path.matchAll(/-?\d+\.\d/g)].map((found) => Number(found[0]));

describe('the strokes', () => {
  it('of a ring lie about the box and cross it nowhere near the middle', () => {
    const all = numbers(ringPath(100, 50, 80, 40));
    const xs = all.filter((_, at) => at % 2 === 0);
    const ys = all.filter((_, at) => at % 2 === 1);
    expect(Math.min(...xs)).toBeGreaterThan(90);
    expect(Math.max(...xs)).toBeLessThan(190);
    expect(Math.min(...ys)).toBeGreaterThan(40);
    expect(Math.max(...ys)).toBeLessThan(100);
  });
  it('of a level line bow, so that the filter has an area', () => {
    const ys = numbers(linePath(0, 20, 300, 20)).filter((_, at) => at % 2 === 1);
    expect(Math.max(...ys) - Math.min(...ys)).toBeGreaterThan(1);
  });
});

it('says its words after what is ringed, and draws nothing when it is not', () => {
  const children = createRawSnippet(() => ({ render: () => '<span>3-T2</span>' }));
  const drawn = render(Ring, { words: 'circled', children });
  expect(drawn.container.textContent?.replace(/\s+/g, '')).toBe('3-T2,circled');
  const bare = render(Ring, { words: 'circled', drawn: false, children });
  expect(bare.container.textContent?.trim()).toBe('3-T2');
  expect(bare.container.querySelector('svg')).toBeNull();
});
