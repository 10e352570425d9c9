// @vitest-environment node
import { expect, it } from 'vitest';
import { notKeptWords } from './not_kept';

it('says what was not kept, in words', () => {
  expect(notKeptWords(['signs'])).toBe('It did not keep what the signs are judged by.');
  expect(notKeptWords(['transfer', 'breaks', 'signs'])).toBe(
    'It did not keep how the file shows the film, nor what speaks for each break, nor what the signs are judged by.',
  );
});
