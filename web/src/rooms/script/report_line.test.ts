import { expect, test } from 'vitest';
import { boatScript } from './boat_script';
import { lastEnd, nextTake, reportTable } from './report_line';

const { takes } = boatScript();

test('the next take and the counter follow from what is known', () => {
  expect([nextTake(takes, '5'), nextTake(takes, ' 3a '), nextTake(takes, '9')]).toEqual([2, 3, 1]);
  expect([lastEnd(takes, 'R3'), lastEnd(takes, 'R9')]).toEqual([3375, 0]);
});

test('quotes, commas and lines in a remark stay in it', () => {
  const line = {
    roll: 'R1',
    slate: '5',
    take: '2',
    start: '0',
    end: '9',
    mark: '',
    remark: ' "no", he\nsaid ',
  };
  const text = reportTable(line);
  expect(text.split('\n').slice(1).join('\n')).toBe('"R1","5","2","0","9","","""no"", he\nsaid"\n');
});
