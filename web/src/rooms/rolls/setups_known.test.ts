// @vitest-environment node
import { expect, it } from 'vitest';
import { pinAsked } from './pin_asked';
import { logOf, takeOf } from './pretend_log';
import { setupsKnown } from './setups_known';

it('offers each setup once, in the order of the numbers', () => {
  const named = (first: number, setup: string) => takeOf(first, first + 10, { setup, take: 1 });
  const one = logOf([named(0, '10'), named(10, '2A'), takeOf(20, 30)], 40);
  const two = logOf([named(0, '2'), named(10, '10')], 40);
  expect(setupsKnown([one, two])).toEqual(['2', '2A', '10']);
  expect(setupsKnown([one], ['3', '2A'])).toEqual(['2A', '3', '10']);
});

it('reads the pin that is asked for; empty means the next free one', () => {
  expect(['', ' ', '12', '0', '1a', '10000'].map(pinAsked)).toEqual([
    null,
    null,
    12,
    undefined,
    undefined,
    undefined,
  ]);
});
