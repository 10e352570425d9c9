// What else may have happened at an act: the likeliest first.
import type { BenchAct, OnTheBench } from './bench_types';

export type Way =
  | 'cut'
  | 'torn'
  | 'pin'
  | 'roll'
  | 'wound'
  | 'turned_over'
  | 'end_for_end'
  | 'other_join'
  | 'opened'
  | 'unjoined'
  | 'let_go'
  | 'made_up'
  | 'remark';

export const WAY_WORDS: Record<Way, string> = {
  cut: 'The blade went elsewhere',
  torn: 'Frames are torn',
  pin: 'Hung on another pin',
  roll: 'Another roll is on',
  wound: 'Wound elsewhere',
  turned_over: 'Joined turned over',
  end_for_end: 'Joined end for end',
  other_join: 'Another join was used',
  opened: 'A join was opened',
  unjoined: 'A join inside a hanging length came open',
  let_go: 'Let these frames go',
  made_up: 'Wound on a reel of outs',
  remark: 'A remark',
};

const FIRST: Record<string, readonly Way[]> = {
  cut: ['cut', 'torn', 'roll'],
  hang: ['pin', 'torn', 'made_up'],
  join: ['turned_over', 'end_for_end', 'other_join', 'torn'],
  mount: ['roll'],
  unmount: ['roll'],
  wind: ['wound', 'roll', 'torn'],
};

const ALWAYS: readonly Way[] = [
  'torn',
  'opened',
  'unjoined',
  'let_go',
  'made_up',
  'roll',
  'remark',
];

/** What can be told at this act, on this bench. */
export function waysAt(act: BenchAct | null, bench: OnTheBench): readonly Way[] {
  const all = [...(FIRST[act?.act ?? ''] ?? []), ...ALWAYS];
  const can = all.filter(
    (way) =>
      (way !== 'opened' || bench.joins.done > 0) &&
      (way !== 'unjoined' || bench.inner_joins.length > 0),
  );
  return [...new Set(can)];
}
