// The keys of a run: the space bar taps, nothing else is needed while the film runs.
import type { Binding } from '$lib/keys/binding';
import type { FollowRun } from './follow_run.svelte';

export interface RunWays {
  /** The run is over: its line in the log is asked for. */
  over(): void;
  leave(): void;
}

export function runKeys(run: FollowRun, ways: RunWays): Binding[] {
  return [
    { keys: ['Space'], words: 'tap as the cut comes', line: 'tap', act: () => void run.tap() },
    {
      keys: ['Enter'],
      words: 'the motor goes on, the start mark in the gate',
      line: 'motor on',
      act: () => {
        if (run.started !== null) return false;
        void run.motorOn();
        return true;
      },
    },
    {
      keys: ['ArrowLeft'],
      words: 'the cut before, behind is meant',
      line: 'another cut',
      act: () => run.chooseCut(-1),
    },
    {
      keys: ['ArrowRight'],
      words: 'the cut before, behind is meant',
      line: 'another cut',
      act: () => run.chooseCut(1),
    },
    {
      keys: ['Insert'],
      words: 'something went wrong here',
      line: 'fault',
      act: () => run.faultHere(),
    },
    { keys: ['End'], words: 'the pass is over', line: 'pass over', act: () => ways.over() },
    { keys: ['Escape', 'F9'], words: 'back to the chart', act: () => ways.leave() },
  ];
}
