// What was done to an original, in words: its ledger and what that comes to.
import type { RollHead } from '$lib/api/wire';

export type Handled = NonNullable<RollHead['handled']>;
export type LedgerEntry = NonNullable<RollHead['ledger']>[number];

export const KINDS = [
  { value: 'run', words: 'run' },
  { value: 'cleaning', words: 'cleaned' },
  { value: 'cut', words: 'cut' },
  { value: 'opened', words: 'join opened' },
  { value: 'repair', words: 'mended' },
  { value: 'inspection', words: 'looked at' },
] as const;
export type HandlingKind = (typeof KINDS)[number]['value'];

/** `never`, `once`, `twice`, `3 times`. */
export function timesWords(times: number): string {
  return ['never', 'once', 'twice'][times] ?? `${times} times`;
}

/** `run 3 times (twice under a hot lamp, once scanned), cut 12 times`; what was never done is left out. */
export function handledWords(handled: Handled | undefined): string {
  if (!handled) return '';
  const how = [
    handled.by_projector > 0 ? `${timesWords(handled.by_projector)} under a hot lamp` : '',
    handled.by_viewer > 0 ? `${timesWords(handled.by_viewer)} in a viewer` : '',
    handled.scans > 0 ? `scanned ${timesWords(handled.scans)}` : '',
  ].filter(Boolean);
  const ran =
    handled.runs === 0
      ? 'never run'
      : `run ${timesWords(handled.runs)}${how.length > 0 ? ` (${how.join(', ')})` : ''}`;
  const more = (
    [
      [handled.wound, 'wound over the rewinds'],
      [handled.cleanings, 'cleaned'],
      [handled.cuts, 'cut'],
      [handled.joins_opened, 'a join opened'],
      [handled.repairs, 'mended'],
      [handled.inspections, 'looked at'],
    ] as const
  ).filter(([times]) => times > 0);
  return [ran, ...more.map(([times, what]) => `${what} ${timesWords(times)}`)].join(', ');
}

/** `through the viewer, by Ida`, `cut, 12 times, by Ida`. */
export function entryWords(
  entry: Pick<LedgerEntry, 'kind' | 'through' | 'by'> & { times?: number },
): string {
  const kind =
    entry.kind === 'wound'
      ? 'over the rewinds'
      : (KINDS.find((one) => one.value === entry.kind)?.words ?? entry.kind);
  const what = entry.kind === 'run' ? `through the ${entry.through}` : kind;
  const times = entry.times && entry.times > 1 ? [`${entry.times} times`] : [];
  return [what, ...times, ...(entry.by ? [`by ${entry.by}`] : [])].join(', ');
}
