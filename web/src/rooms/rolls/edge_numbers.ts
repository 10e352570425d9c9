// Numbers on the edge of the stock, as far as the page speaks of them.
import type { RollHead, RollLog } from '$lib/api/wire';

/** Film of 8 mm carries none. */
export function hasEdgeNumbers(roll: Pick<RollHead, 'gauge'>): boolean {
  return roll.gauge !== 'super8' && roll.gauge !== 'regular8';
}

/** `One every 20 frames; 7 more follow between those read.` */
export function edgeSentence(edge: RollLog['inspection']['edge']): string {
  if (edge.read.length === 0) return 'None is written down.';
  if (!edge.step) return 'Say the step with the next one, and those between follow.';
  const follow =
    edge.follow === 0
      ? 'none follows between those read'
      : `${edge.follow} more ${edge.follow === 1 ? 'follows' : 'follow'} between those read`;
  return `One every ${edge.step} frames; ${follow}.`;
}
