import { expect, it } from 'vitest';
import { secondsTyped, timingsForm } from './timings';

const row = (count: string, seconds: string) => ({ count, seconds });

it('reads minutes and seconds as they are written beside a machine', () => {
  expect(['3:45', '225', '225,5', ' 0:07.5 '].map(secondsTyped)).toEqual([225, 225, 225.5, 7.5]);
  expect(['', 'x', '1:75', '-3', '1:2:3'].map(secondsTyped)).toEqual([
    null,
    null,
    null,
    null,
    null,
  ]);
});

it('makes the form of three timings and says what is still to do', () => {
  const rows = [row('100', '7:25.59'), row('200', '17:08.4'), row('300', '29:08.41')];
  expect(timingsForm(rows).text).toBe('count,seconds\n100,445.59\n200,1028.4\n300,1748.41\n');
  expect(timingsForm(rows.slice(0, 2)).text).toBeNull();
  expect(timingsForm([row('100', '')]).says).toContain('with its time');
  expect(timingsForm([row('200', '60'), row('100', '90')]).says).toContain('later');
});
