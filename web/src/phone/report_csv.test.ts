// @vitest-environment node
import { expect, it } from 'vitest';
import type { Entry } from './counters.js';
import { reportCsv } from './report_csv.js';

function entry(more: Partial<Entry>): Entry {
  const words = { day: '', batch: '', camera: '', mark: '', remark: '', speed: '', lens: '' };
  const rest = { stop: '', filter: '', distance: '', id: 'x', roll: 'R1', setup: '1', take: 1 };
  return { ...words, ...rest, start: 0, end: 9, ...more };
}

it('has the columns that a log reads, and of the others those that say something', () => {
  expect(reportCsv([])).toBe('roll,slate,take,start,end,mark,remark\r\n');
  const csv = reportCsv([entry({ lens: '10 mm', mark: 'good' })]);
  expect(csv).toBe('roll,slate,take,start,end,mark,remark,lens\r\nR1,1,1,0,9,good,,10 mm\r\n');
});

it('goes roll by roll as they were begun, each by its counter', () => {
  const csv = reportCsv([
    entry({ roll: 'R2', take: 3, start: 5 }),
    entry({ take: 2, start: 9, end: 20 }),
    entry({ take: 1 }),
    entry({ roll: 'R2', take: 4, start: 0, end: 5 }),
  ]);
  const rows = csv.trim().split('\r\n').slice(1);
  expect(rows.map((row) => row.slice(0, 6))).toEqual(['R2,1,4', 'R2,1,3', 'R1,1,1', 'R1,1,2']);
});

it.each([
  ['a, b', '"a, b"'],
  ['say "go"', '"say ""go"""'],
  ['one\ntwo', '"one\ntwo"'],
  ['=1+1', '" =1+1"'],
  ['+44 7', '" +44 7"'],
  ['-2 stops', '" -2 stops"'],
  ['@sum', '" @sum"'],
  ['a;b', '"a;b"'],
])('writes %j so that no table is led astray', (remark, cell) => {
  expect(reportCsv([entry({ remark })])).toContain(`,,${cell}\r\n`);
});
