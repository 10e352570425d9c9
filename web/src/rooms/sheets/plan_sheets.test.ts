import { expect, it } from 'vitest';
import type { Server } from '$lib/api/server';
import { cameraPage, ofPlan } from './plan_sheets';

const nobody = {} as Server;

it('names the film, the paper and what was said', () => {
  const said = { place: 'the landing ', day: '', scenes: '2,3' };
  expect(ofPlan(nobody, 'a b', said).address('shot-list', 'pdf', 'letter', 7, {})).toBe(
    '/api/films/a%20b/script/sheets/shot-list/pdf?paper=letter&place=the%20landing&scenes=2%2C3&of=7',
  );
  expect(cameraPage('boat', said)).toBe(
    '/api/films/boat/script/camera-page?place=the%20landing&scenes=2%2C3',
  );
  const nothing = { place: '', day: ' ', scenes: '' };
  expect(cameraPage('boat', nothing)).toBe('/api/films/boat/script/camera-page');
});

it('has no tables and each sheet once', () => {
  const plan = ofPlan(nobody, 'boat', { place: '', day: '', scenes: '' });
  const words = plan.sheets.map((one) => one.value);
  expect(new Set(words).size).toBe(11);
  expect(words.map((one) => plan.table(one, 1, {}))).toEqual(words.map(() => null));
});
