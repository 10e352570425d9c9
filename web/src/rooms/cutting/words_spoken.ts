// What is said to whoever listens: where one stands, and what is refused there.
import type { Cut, RollHead } from '$lib/api/wire';
import { frameSpoken } from '$lib/film/frame_name';
import type { CuttingRoom } from './cutting.svelte';
import { joinSpoken } from './joins';
import { isShot } from './pieces';
import { EDGE_WORDS } from './strip_frames';
import { edgeFrame } from './trial';
import { whatSlipSays } from './what_slip_says';
import { wordsOfConflict } from './words_of_check';

/** `R1 2939, first kept, on trial`; of leader and cards what they are. */
export function edgeSpoken(room: CuttingRoom): string {
  const piece = room.now?.pieces[room.chosen];
  const frame = piece ? edgeFrame(piece, room.side) : null;
  if (!isShot(piece) || frame === null) return piece?.kind ?? 'leader';
  const trial = room.isOnTrial(room.chosen) ? ', on trial' : '';
  return `${frameSpoken(piece.roll, frame)}, ${EDGE_WORDS[room.side]}${trial}`;
}

/** `Join 7 and 8. R1 2939, first kept`. */
export function joinAndEdgeSpoken(room: CuttingRoom): string {
  const pieces = room.now?.pieces.length ?? 0;
  return `Join ${joinSpoken(room.join, pieces)}. ${edgeSpoken(room)}`;
}

/** What the strand check refuses at the chosen join; empty where it does not. */
export function refusalSpoken(cut: Cut, join: number, rolls: readonly RollHead[]): string {
  const { subject } = whatSlipSays(cut, join);
  if (subject.what !== 'conflict' || !subject.here || subject.conflict.severity !== 'refused') {
    return '';
  }
  return `Refused. ${wordsOfConflict(subject.conflict, cut, rolls).heading}`;
}
