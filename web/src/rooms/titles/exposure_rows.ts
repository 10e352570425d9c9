// The exposure sheet as a form that runs down: what lies under the camera, frame after frame.
import type { Shooting } from './title_types';

/** One stage of the card in the order of the film. */
export interface ExposureRow {
  readonly id: 'before' | 'letters_in' | 'hold' | 'letters_out' | 'after';
  /** What lies under the camera. */
  readonly words: string;
  /** Frames of it. */
  readonly frames: number;
  /** The first of them, from 0; null where there are none. */
  readonly from: number | null;
  /** How much of the lettering is to be seen. */
  readonly lettered: 'none' | 'comes' | 'all' | 'goes';
}

/**
 * The stages with their frames. Lettering that comes slowly does so over the last frames of
 * what stands before, and goes over the first of what stands after.
 */
export function exposureRows(shooting: Shooting, hold: number): ExposureRow[] {
  const { before, after, blank_cel, exposed_twice } = shooting;
  const comes = Math.min(shooting.letters_in, before);
  const goes = Math.min(shooting.letters_out, after);
  const alone = exposed_twice ? 'ground alone' : blank_cel ? 'ground, blank cel' : 'ground, no cel';
  const all = exposed_twice ? 'ground; letters a second time' : 'ground, lettered cel';
  const stages: readonly Omit<ExposureRow, 'from'>[] = [
    { id: 'before', words: alone, frames: before - comes, lettered: 'none' },
    { id: 'letters_in', words: 'lettering comes slowly', frames: comes, lettered: 'comes' },
    { id: 'hold', words: all, frames: hold, lettered: 'all' },
    { id: 'letters_out', words: 'lettering goes slowly', frames: goes, lettered: 'goes' },
    { id: 'after', words: alone, frames: after - goes, lettered: 'none' },
  ];
  let from = 0;
  return stages.map((stage) => {
    const row = { ...stage, from: stage.frames > 0 ? from : null };
    from += stage.frames;
    return row;
  });
}
