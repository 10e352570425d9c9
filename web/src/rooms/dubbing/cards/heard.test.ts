import { describe, expect, it } from 'vitest';
import { beatLines } from './beat_lines';
import { fitSaid, seamSaid, speedSaid } from './heard_words';

const facts = { rate: 48_000, samples: 48_000 * 48 } as never;

describe('beats on the chart', () => {
  // Story 8: 100 beats a minute at 18.36 frames a second are 11.016 frames a beat.
  const beats = {
    at: Array.from({ length: 80 }, (_, nth) => nth * 28_800),
    in_a_bar: 4,
    first_bar: 0,
    tempo: 100_000,
  };
  const speed = { num: 459, den: 25 };
  const cue = (more: object) => ({
    at: 1734,
    frames: 882,
    cue: { from: 0, to: null, looped: false, ...more } as never,
  });

  it('are 11.016 frames apart, a bar each fourth', () => {
    const lines = beatLines(cue({}), { beats, play: 1_000_000, facts }, speed);
    expect(lines[1]?.at).toBeCloseTo(1734 + 11.016, 6);
    expect(lines.filter((one) => one.bar !== null).map((one) => one.bar)).toEqual(
      Array.from({ length: 20 }, (_, nth) => nth + 1),
    );
    // Bar 20 begins 19 bars on, which is the close of bar 19.
    expect(lines.find((one) => one.bar === 20)?.at).toBeCloseTo(1734 + 837.216, 6);
  });

  it('go with the speed the sound is played at, and begin where it does', () => {
    const faster = beatLines(cue({}), { beats, play: 2_000_000, facts }, speed);
    expect(faster[1]?.at).toBeCloseTo(1734 + 5.508, 6);
    const later = beatLines(cue({ from: 28_801 }), { beats, play: 1_000_000, facts }, speed);
    expect(later[0]?.nth).toBe(2);
    expect(beatLines(cue({ looped: true }), { beats, play: 1_000_000, facts }, speed)).toEqual([]);
  });
});

describe('what was heard, in words', () => {
  it('says the fork of story 11 as a film maker would', () => {
    const fork = { true_hertz: 440, heard_hertz: 433.4, play: 1.015228 } as never;
    expect(speedSaid(fork)).toBe(
      '433.40 Hz is heard where 440 Hz is true: it runs 1.52 % slow. Play it × 1.0152.',
    );
  });

  it('says how strokes fit, and what of a loop is heard', () => {
    const fit = { strokes: [3, 4, 5], worst_ms: 13.5, holds: true, times_louder: null } as never;
    expect(fitSaid(fit, 27.2)).toBe(
      'Strokes 3, 4, 5: at worst 13.5 ms off, half a frame is 27.2 ms: they fit.',
    );
    expect(seamSaid({ heard: false } as never)).toBe('nobody should hear it come round');
    expect(seamSaid({ heard: true, stands_out_db: 14.4, times_usual: 1 } as never)).toContain(
      '14 dB',
    );
  });
});
