// @vitest-environment node
import { expect, it } from 'vitest';
import { problemLines } from './problem_lines';

const problem = (details: unknown) => ({ code: 'a', message: 'b', hint: 'c', details });

it('reads what an import and what a plan lists, and nothing out of anything else', () => {
  const listed = [
    { line: 3, column: 'seconds', message: 'no seconds' },
    { line: null, place: 'setup 2', message: 'shows no action' },
    'nonsense',
  ];
  expect(problemLines(problem({ problems: listed }))).toEqual([
    { line: 3, place: 'seconds', message: 'no seconds' },
    { line: null, place: 'setup 2', message: 'shows no action' },
    { line: null, place: '', message: '' },
  ]);
  for (const none of [null, problem(null), problem({ problems: 4 }), problem([])]) {
    expect(problemLines(none)).toEqual([]);
  }
});
