// @vitest-environment node
import { describe, expect, it } from 'vitest';
import {
  type BreakSeen,
  changesOf,
  type FilmChanged,
  framesAbout,
  largeFrames,
  leftToLook,
  nextToLook,
} from './changes_of_roll';
import { logOf, takeOf } from './pretend_log';
import { changePlates, changeSaid, reasonsOf } from './reasons_of_change';

const seen = (at: number, more: Partial<BreakSeen> = {}): BreakSeen => ({
  at,
  begins: 'camera_stop',
  strength: 4.56,
  changed: 0.62,
  stands_out: 7.36,
  in_one_place: false,
  stays: 0.1,
  flash_frames: 0,
  flash_stops: 0,
  exposure_step: 0,
  rack: 0,
  edge: 0,
  ...more,
});
const span = (kind: string, from: number, to: number, measure = to - from) => ({
  kind,
  in: from,
  out: to,
  measure,
  unit: kind === 'leader' ? 'of clear film' : 'frames',
});

const log = logOf(
  [
    takeOf(24, 390, { begins: 'fog', looked: true }),
    takeOf(390, 762, { flash_frames: 1, flash_stops: 1.2, start_speed: 7.8 }),
    takeOf(762, 900, { begins: 'fade' }),
    takeOf(900, 1000, { begins: 'cut', looked: true }),
  ],
  1000,
  {
    breaks: [
      seen(390, { flash_frames: 1, flash_stops: 1.2 }),
      seen(762, { strength: null }),
      seen(820),
    ],
    gradual: [span('dissolve', 750, 774)],
    signs: [
      span('fog', 0, 24),
      { ...span('fog', 610, 640, 4), unit: '% of full light' },
      span('flash', 390, 391),
      span('flash', 500, 502, 0.8),
    ],
  },
);
const changes = changesOf(log);
const at = (frame: number): FilmChanged => changes.find((one) => one.at === frame)!;

describe('where the film of a roll changes', () => {
  it('is what takes say and what was seen, and a flash at a start once', () => {
    expect(changes.map((one) => [one.at, one.words, one.state])).toEqual([
      [0, 'fog', 'told'],
      [24, 'end of the fog', 'stands'],
      [390, 'camera stop', 'to look at'],
      [500, 'flash in the take', 'told'],
      [762, 'dissolve', 'to look at'],
      [820, 'camera stop', 'taken back'],
      [900, 'break', 'stands'],
    ]);
  });

  it('is walked through where nobody has looked, round the end of the roll', () => {
    expect(leftToLook(changes)).toBe(2);
    expect(nextToLook(changes, 0)?.at).toBe(390);
    expect(nextToLook(changes, 390)?.at).toBe(762);
    expect(nextToLook(changes, 762)?.at).toBe(390);
    expect(nextToLook([at(900)], 0)).toBeNull();
  });

  it('shows frames on both sides, moved along with the step, never past the roll', () => {
    expect(framesAbout(at(390), 390, 1000)).toEqual([386, 387, 388, 389, 390, 391, 392, 393]);
    expect(framesAbout(at(390), 384, 1000)[0]).toBe(383);
    expect(framesAbout(at(390), 397, 1000)).toContain(397);
    expect(framesAbout(at(900), 999, 1000).at(-1)).toBe(999);
    expect(framesAbout(at(390), 2, 5)).toEqual([0, 1, 2, 3, 4]);
    const dissolve = framesAbout(at(762), 762, 1000);
    expect([dissolve[0], dissolve.at(-1), dissolve.length]).toEqual([749, 774, 8]);
  });

  it('lays the frames that say most beside each other', () => {
    expect(largeFrames(at(390), 1000)).toEqual([
      { frame: 389, words: 'last before' },
      { frame: 390, words: 'first after' },
      { frame: 402, words: 'settled' },
    ]);
    expect(largeFrames(at(762), 1000).map((one) => one.frame)).toEqual([749, 762, 774]);
    expect(largeFrames(at(0), 1000).map((one) => one.frame)).toEqual([11, 24]);
  });
});

describe('what speaks for a change', () => {
  it('is said in sentences with its measures', () => {
    expect(reasonsOf(at(390), log)).toEqual([
      'The first frame is over, by + 1.2 stop: the camera was starting.',
      '62 % of the picture changes, 7.4 times as much as at the frames about it.',
    ]);
    expect(reasonsOf(at(762), log)[0]).toContain('turns into another from 750 to 773');
    expect(reasonsOf(at(900), log)).toEqual(['The reading saw no break here. Somebody set it.']);
    expect(reasonsOf(at(24), log)).toEqual(['Here the fog of the first turns ends.']);
  });

  it('tells a join by its frame line and its edge', () => {
    const joined = logOf([takeOf(0, 50), takeOf(50, 90, { begins: 'join' })], 90, {
      breaks: [seen(50, { begins: 'join', rack: 52, edge: 14, exposure_step: -0.4 })],
    });
    const said = reasonsOf(changesOf(joined)[0]!, joined).join(' ');
    expect(said).toContain('5.2 % of its height out of its place');
    expect(said).toContain('edge of a tape');
    expect(said).toContain('0.4 stop less light');
  });

  it('counts strength and the speed at the start, each with its sum', () => {
    const plates = changePlates(at(390), log);
    expect(plates.map((plate) => plate.label)).toEqual([
      'strength of the break',
      'flash at the start',
      'speed of the camera at its start',
    ]);
    expect(plates[0]?.sum?.at(-1)).toEqual({ sum: 'a break is told from', comes: '0.4' });
    expect(plates[2]?.sum?.at(-1)).toEqual({ sum: '18 f/s ÷ 2.30', comes: '7.8 f/s' });
    expect(changePlates(at(762), log)).toEqual([]);
  });

  it('is said aloud with how it stands', () => {
    expect(changeSaid('R1', at(390))).toBe('Camera stop at R1 390, not looked at yet');
    expect(changeSaid('R1', at(820))).toBe('Camera stop at R1 820, no take begins there');
    expect(changeSaid('R1', at(0))).toBe('Fog at R1 0');
  });
});
