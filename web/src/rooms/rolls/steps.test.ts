// @vitest-environment node
import { expect, it } from 'vitest';
import { speedFrom } from '$lib/film/speed';
import { lengthsOf } from './lengths';
import { takeOf } from './pretend_log';
import { lengthEnd, neighbourTake, stepFrames, stepped } from './steps';

const MEASURE = { frames: 3600, framesPerFoot: 72, speed: speedFrom('18') };
const LENGTHS = lengthsOf([takeOf(24, 390), takeOf(390, 762), takeOf(800, 900)], 3600);

it('a step is as long as its unit, on every gauge and at every speed', () => {
  expect(stepFrames('frame', MEASURE)).toBe(1);
  expect(stepFrames('ten', MEASURE)).toBe(10);
  expect(stepFrames('second', MEASURE)).toBe(18);
  expect(stepFrames('foot', MEASURE)).toBe(72);
  expect(stepFrames('second', { ...MEASURE, speed: speedFrom('50/3') })).toBe(17);
  expect(stepFrames('second', { ...MEASURE, speed: speedFrom('24000/1001') })).toBe(24);
  expect(stepFrames('second', { ...MEASURE, speed: speedFrom('1/4') })).toBe(1);
});

it('never leaves the roll', () => {
  expect(stepped(5, 'ten', -1, MEASURE)).toBe(0);
  expect(stepped(3590, 'foot', 1, MEASURE)).toBe(3599);
  expect(stepped(547, 'frame', 3, MEASURE)).toBe(550);
});

it('the ends are those of the take one is in, or of the film between takes', () => {
  expect([lengthEnd(LENGTHS, 400, 'first'), lengthEnd(LENGTHS, 400, 'last')]).toEqual([390, 761]);
  expect([lengthEnd(LENGTHS, 770, 'first'), lengthEnd(LENGTHS, 770, 'last')]).toEqual([762, 799]);
});

it('goes from take to take and leaves bare film out', () => {
  expect(neighbourTake(LENGTHS, 400, 'after')).toBe(800);
  expect(neighbourTake(LENGTHS, 850, 'before')).toBe(390);
  expect(neighbourTake(LENGTHS, 10, 'after')).toBe(24);
  expect(neighbourTake(LENGTHS, 1000, 'before')).toBe(800);
  // At the ends one stays where one is.
  expect(neighbourTake(LENGTHS, 30, 'before')).toBe(30);
  expect(neighbourTake(LENGTHS, 850, 'after')).toBe(850);
});
