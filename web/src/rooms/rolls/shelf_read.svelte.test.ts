// @vitest-environment node
import { expect, it } from 'vitest';
import type { ShelfRow, ShelfSummary } from '$lib/api/wire';
import { ShelfRead } from './shelf_read.svelte';

const row = (roll: string, came_of_it: string, more: Partial<ShelfRow> = {}): ShelfRow => ({
  file: `/scans/${roll}.mkv`,
  roll,
  came_of_it,
  frames: 0,
  footage: null,
  missing: 0,
  difference: null,
  proved: false,
  takes: 0,
  breaks: 0,
  signs: {},
  warnings: [],
  problem: null,
  ...more,
});
const summary = (rolls: ShelfRow[]): ShelfSummary => {
  const count = (word: string) => rolls.filter((one) => one.came_of_it === word).length;
  return {
    rolls,
    read: count('read'),
    read_before: count('read_before'),
    failed: count('failed'),
    stopped: count('stopped'),
    under_way: count('under_way'),
  };
};
const read = row('R1', 'read', {
  frames: 3600,
  takes: 10,
  breaks: 9,
  signs: { hair: 1, soft: 2 },
  missing: 2,
  warnings: ['the file is named .mp4; it is read as what it is'],
});

function shelfOf(answers: (ShelfSummary | null | Error)[]) {
  const asked: string[] = [];
  const shelf = new ShelfRead({
    ask: () => {
      asked.push('ask');
      const answer = answers.shift() ?? null;
      return answer instanceof Error ? Promise.reject(answer) : Promise.resolve(answer);
    },
    putAway: () => {
      asked.push('put away');
      return Promise.resolve();
    },
  });
  return { shelf, asked };
}

it('tells how far it is, and at the end what came of each scan, with breaks and signs', async () => {
  const problem = { code: 'x', message: 'it broke off', hint: '' };
  const { shelf } = shelfOf([
    summary([row('R1', 'under_way'), row('R2', 'under_way'), row('R3', 'failed', { problem })]),
    summary([read, row('R2', 'stopped'), row('R3', 'failed', { problem })]),
  ]);
  await shelf.load();
  expect([shelf.heading, shelf.isOver]).toEqual(['1 of 3 scans have been gone through.', false]);
  await shelf.load();
  expect([shelf.heading, shelf.isOver, shelf.isWhole]).toEqual([
    '1 of 3 rolls have been read.',
    true,
    false,
  ]);
  expect(shelf.rows.map((one) => [one.file, one.there, one.state, one.words.join(' ')])).toEqual([
    [
      'R1.mkv',
      true,
      'read',
      '3,600 frames, 50 ft 00 fr, 10 takes, 9 breaks. Signs: 2 soft, 1 hair. 2 frames were not seen. The file is named .mp4; it is read as what it is.',
    ],
    ['R2.mkv', false, 'stopped', 'Nothing of it was kept.'],
    ['R3.mkv', false, 'not read', 'It broke off.'],
  ]);
});

it('is there until it is put away, also where a question was lost', async () => {
  const whole = summary([{ ...read, signs: {}, missing: 0, warnings: [] }]);
  const { shelf, asked } = shelfOf([whole, new Error('the program is away')]);
  await shelf.load();
  await shelf.load();
  expect([shelf.heading, shelf.isWhole]).toEqual(['The roll has been read.', true]);
  expect(shelf.rows[0]?.words[1]).toBe('No sign was told.');
  await shelf.putAway();
  expect([shelf.summary, asked]).toEqual([null, ['ask', 'ask', 'put away']]);
});

it('a roll that was taken out since is told so', async () => {
  const { shelf } = shelfOf([summary([row('R1', 'taken_out'), read])]);
  await shelf.load();
  expect(shelf.rows.map((one) => one.state)).toEqual(['taken out', 'read']);
  expect(shelf.isWhole).toBe(true);
});
