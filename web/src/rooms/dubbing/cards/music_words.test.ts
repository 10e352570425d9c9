// @vitest-environment node
import { expect, it } from 'vitest';
import type { MusicBeside } from '../dub_types';
import {
  besideSaid,
  endDone,
  endNowSaid,
  endSaid,
  joinSaid,
  liftDone,
  liftSaid,
  refusedSaid,
} from './music_words';

/** Story 8: shots 17 to 22 of the second version, 54 frames off wanted. */
const story = {
  from: 17,
  to: 22,
  frames: 882,
  beats: 80.07,
  frames_a_beat: 11.016,
  frames_a_beat_nominal: 10.8,
  wanted: 828,
  shortest: 618,
  longest: 1107,
  end_off: 0.72,
  end: { frames: 837, beats: 75.98, bar: 19, moved: -45, off: -0.22, off_seconds: -0.012 },
} as unknown as MusicBeside;

it('says story 8 as it is printed', () => {
  expect(besideSaid(story)).toBe(
    '882 frames are 80.07 beats: 11.016 frames a beat as the projector runs (10.80 at the film’s own speed).',
  );
  expect(endSaid(story)).toBe(
    '837 frames are 75.98 beats and end 0.2 frames (0.01 s) before bar 19 closes.',
  );
  expect(endDone(story)).toBe('Take 45 frames off piece 22');
  expect(endNowSaid(story)).toBe('Its end lies 0.7 frames behind the end of a bar.');
});

it('says what cannot be done, and what moves', () => {
  expect(endSaid({ ...story, end: null })).toContain('No bar ends between 618 and 1,107 frames');
  expect(joinSaid({ after: 17, by: 3, on_beat: true })).toBe('Join after 17: 3 frames later');
  expect(joinSaid({ after: 20, by: -5, on_beat: true })).toBe('Join after 20: 5 frames earlier');
  expect(joinSaid({ after: 18, by: 0, on_beat: true })).toBe('Join after 18: on its beat');
  expect(joinSaid({ after: 18, by: 0, on_beat: false })).toContain('no beat in its handles');
  expect(liftDone({ from: 13, bars: 1 })).toBe('Leave out bar 13');
  expect(liftDone({ from: 9, bars: 2 })).toBe('Leave out bars 9 to 10');
  expect(liftSaid({ bars: 1, of: 21, off: -0.72 })).toBe(
    'Or the music gives way: without one of its 21 bars it ends 0.7 frames before the picture.',
  );
  expect(refusedSaid([{ positions: [4, 6] }, { positions: [4] }])).toContain('pieces 4, 6');
});
