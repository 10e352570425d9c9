// @vitest-environment node
import { expect, it } from 'vitest';
import { placeOfArea } from './sign_area';

it('a hair is ringed with a little air, inside the picture', () => {
  const ring = placeOfArea({ left: 807, top: 840, right: 995, bottom: 958 });
  expect(ring.left).toBeCloseTo(79.2);
  expect(ring.left + ring.width).toBe(100);
  expect([ring.top, ring.height].map(Math.round)).toEqual([83, 15]);
});

it('a line is ringed from top to bottom, narrow and yet to be seen', () => {
  const ring = placeOfArea({ left: 310, top: 0, right: 310, bottom: 1000 });
  expect([ring.left, ring.width, ring.top, ring.height]).toEqual([29.5, 3, 0, 100]);
});
