// The sound of "The Ten-Past Boat" in its second version, for tests: story 8 of the job, cut down.
import type { Cue, Dub } from './dub_types';
import { blankColumn, blankCue } from './new_parts';

const frame = (roll: string, at: number) => ({ to: 'frame' as const, roll, frame: at, offset: 0 });

function cue(id: number, column: number, name: string, at: number, more: Partial<Cue> = {}): Cue {
  const words = { ...blankCue(column, frame('R2', at), null), name };
  return {
    id,
    cue: words,
    at,
    frames: 18,
    state: 'held',
    was: at,
    proposals: [],
    echo: null,
    short_by: 0,
    holds: `frame R2·${String(at)}`,
    ...more,
  };
}
const stroke = (nth: number, at: number, proposed: number) =>
  cue(20 + nth, 1, `bell ${String(nth)}`, at, {
    state: 'orphan',
    proposals: [{ at: proposed, anchor: frame('R3', proposed + 500), why: 'bell stroke' }],
  });

export function boatDub(): Dub {
  return {
    revision: 7,
    cut: 'v2',
    frames: 2652,
    speed: '18',
    lead: 18,
    lead_source: 'the gauge table',
    pieces: [
      { position: 1, at: 0, frames: 180, roll: null, first: 0, says: 'main title' },
      { position: 2, at: 180, frames: 1446, roll: 'R2', first: 400, says: 'the landing' },
      { position: 3, at: 1626, frames: 1026, roll: 'R3', first: 1300, says: 'the ferry backs' },
    ],
    joins: [
      { at: 180, heard_at: 198 },
      { at: 1626, heard_at: 1644 },
    ],
    columns: [
      { id: 1, column: blankColumn('effects') },
      { id: 2, column: blankColumn('music') },
    ],
    cues: [
      stroke(1, 1392, 1349),
      stroke(2, 1410, 1368),
      stroke(3, 1429, 1387),
      cue(30, 2, 'march', 1728, { frames: 792 }),
    ],
    sounds: [],
    hands: {
      moves: [],
      most: 0,
      most_at: null,
      hands: 2,
      too_many: [],
      lay_together: [],
      most_then: 0,
    },
    mix: {
      speed: '',
      leader: 72,
      pop: 0,
      two_channels: false,
      ceiling: -10,
      gain: 0,
      hands: 2,
      optical: false,
    },
    passes: [],
    heard: 'a',
  };
}
