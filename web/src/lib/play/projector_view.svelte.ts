// What a screen shows of a projector, as state that components can read.

import type { Direction, Round } from './course';
import type { Freed } from './frame_ring';
import type { Machine, Projector } from './projector';
import { type Counts, NOTHING_RUN } from './running_count';

/** The projector's figures. Give `refresh` to it as its `onChange`. */
export class ProjectorView {
  /** The running frame that belongs in the gate. */
  at = $state(0);
  /** The running frame truly on the screen. */
  onScreen = $state<number | null>(null);
  machine = $state<Machine>('stopped');
  direction = $state<Direction>(1);
  round = $state.raw<Round | null>(null);
  length = $state(0);
  counts = $state.raw<Counts>(NOTHING_RUN);

  /** Reads everything off the projector. */
  refresh<B extends Freed>(projector: Projector<B>): void {
    this.at = projector.at;
    this.onScreen = projector.onScreen;
    this.machine = projector.machine;
    this.direction = projector.direction;
    this.round = projector.round;
    this.length = projector.plan.length;
    this.counts = projector.counts;
  }

  /** `Threading.`, `Running.`, `Stopped.`: the machine in one word. */
  get word(): string {
    const words = { stopped: 'Stopped.', threading: 'Threading.', running: 'Running.' } as const;
    return words[this.machine];
  }
}

/** What the figures of a run say, in words; none dropped is said too. */
export function countsText(counts: Counts): string {
  const parts = [
    `${counts.shown} shown`,
    `${counts.dropped} dropped`,
    ...(counts.doubled > 0 ? [`${counts.doubled} held too long`] : []),
    ...(counts.halted > 0
      ? [`halted ${counts.halted === 1 ? 'once' : `${counts.halted} times`}`]
      : []),
  ];
  return parts.join(', ');
}
