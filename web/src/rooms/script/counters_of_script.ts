// The counts that one steers by in the Script room, with their sums.
import type { Counter } from '$lib/desk/counters';
import type { View } from './lined';
import type { Coverage } from './script_types';

export function countersOfScript(coverage: Coverage, view: View): Counter[] {
  const words = view === 'shot' ? 'covered' : 'planned';
  const listed = (all: readonly string[]) => all.map((one) => ({ sum: one, comes: '' }));
  const uncovered = coverage.uncovered.map((one) => ({ sum: one, comes: 'nothing shows it' }));
  return [
    {
      of: 'actions that something shows',
      parts: [
        { count: String(coverage.covered) },
        { words: 'of' },
        { count: String(coverage.actions) },
        { words },
      ],
      sum: [
        ...uncovered,
        {
          sum: `${coverage.actions} actions − ${coverage.uncovered.length}`,
          comes: String(coverage.covered),
        },
      ],
    },
    {
      of: 'actions that hang on one setup',
      parts: [{ count: String(coverage.single_setup.length) }, { words: 'by one setup' }],
      sum: listed(coverage.single_setup),
    },
    {
      of: 'actions that hang on one take',
      parts: [{ count: String(coverage.single_take.length) }, { words: 'by one take' }],
      sum: listed(coverage.single_take),
    },
  ];
}
