import { expect, test } from 'vitest';
import { boatScript } from './boat_script';
import { filmOfTake, thousandths } from './film_of_take';

test('a take needs what the program says of every setup of the boat', () => {
  const script = boatScript();
  for (const { setup, is_title, take_frames } of script.setups) {
    const runUp = is_title ? 0 : script.stock.run_up;
    expect(filmOfTake(setup.seconds, { num: 18, den: 1 }, runUp)).toBe(take_frames);
  }
});

test('a begun frame is a frame, at whole and at broken speeds', () => {
  expect(filmOfTake('10', { num: 18, den: 1 }, 0)).toBe(180);
  expect(filmOfTake('11.33', { num: 18, den: 1 }, 0)).toBe(204);
  expect(filmOfTake('1', { num: 50, den: 3 }, 24)).toBe(41);
  expect(filmOfTake('', { num: 18, den: 1 }, 24)).toBeNull();
  expect(thousandths('7,5')).toBeNull();
  expect(thousandths('7.05')).toBe(7050);
  expect(filmOfTake('5.833333333333333', { num: 18, den: 1 }, 0)).toBe(105);
});
