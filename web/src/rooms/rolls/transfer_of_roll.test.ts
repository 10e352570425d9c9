// @vitest-environment node
import { describe, expect, it } from 'vitest';
import { isMissing, lengthsOf } from './lengths';
import { logOf, takeOf } from './pretend_log';
import { scanMarksOf, scanMarkShort, scanMarkWords, standingOf } from './scan_marks';
import {
  differenceExplained,
  type Transfer,
  transferPlates,
  transferSentence,
} from './transfer_of_roll';

const scan = (frames: number, rate = '25') => ({
  path: '/scans/R1-25.mp4',
  frames,
  rate,
  width: 640,
  height: 480,
  coding: 'h264',
});
const transfer = (more: Partial<Transfer> = {}): Transfer => ({
  file_frames: 5000,
  clean: 3600,
  blended: 0,
  counted: 0,
  repeats: 1400,
  cadence: [1, 1, 2, 1, 2, 1, 1, 2, 1, 1, 2, 1, 2, 1, 1, 2, 1, 2],
  speed: '18',
  stretches: [],
  ...more,
});
const skip = (at: number, most: number) => ({
  at,
  kind: 'skip',
  frames: 1,
  frames_low: 0,
  frames_high: most,
});
const read = (plates: ReturnType<typeof transferPlates>) =>
  plates.map((plate) =>
    plate.parts.map((part) => ('count' in part ? part.count : part.words)).join(' '),
  );

describe('the plates of a transfer', () => {
  it('tell repeats and their cadence, each with its sum', () => {
    const log = logOf([], 3600, { scans: [scan(5000)], transfer: transfer() });
    const plates = transferPlates(log);
    expect(read(plates)).toEqual(['5,000 file frames', '1,400 repeats', 'film ran at 18 f/s']);
    expect(plates[1]?.sum).toEqual([
      { sum: '5,000 file frames − 3,600 film frames seen', comes: '1,400' },
    ]);
    expect(plates[2]?.sum).toEqual([
      {
        sum: '18 film frames: 1 + 1 + 2 + 1 + 2 + 1 + 1 + 2 + 1 + 1 + 2 + 1 + 2 + 1 + 1 + 2 + 1 + 2',
        comes: '25 file frames',
      },
      { sum: '25 f/s × 18 ÷ 25', comes: '18 f/s' },
    ]);
    expect(transferSentence(log)).toContain('each is counted once');
  });

  it('say nothing of a cadence where each frame stands once', () => {
    const plain = transfer({ file_frames: 3600, repeats: 0, cadence: [1], speed: null });
    const log = logOf([], 3600, { scans: [scan(3600, '18')], transfer: plain });
    expect(read(transferPlates(log))).toEqual(['3,600 file frames']);
    expect(transferSentence(log)).toBe('Each frame of the file shows one film frame.');
  });

  it('tell what is blended and counted, and take it from the whole', () => {
    const blends = transfer({
      file_frames: 6116,
      clean: 2505,
      blended: 1083,
      counted: 12,
      speed: '441/25',
      stretches: [
        { kind: 'blended', in: 7, out: 8 },
        { kind: 'counted', in: 40, out: 52 },
      ],
    });
    const log = logOf([], 3600, { scans: [scan(6116, '29.97')], transfer: blends });
    const plates = transferPlates(log);
    expect(read(plates)).toEqual([
      '6,116 file frames',
      '1,400 repeats',
      'film ran at 17.64 f/s',
      '2,505 clean',
      '1,083 blended',
      '12 counted',
    ]);
    expect(plates[3]?.sum).toEqual([{ sum: '3,600 − 1,083 blended − 12 counted', comes: '2,505' }]);
    expect(plates[4]?.sum?.[0]).toEqual({ sum: 'in 1 place, the first at', comes: '7' });
  });

  it('tell doublings as taken out and skips as guesses', () => {
    const anomalies = [
      { at: 120, kind: 'doubled', frames: 2, frames_low: 2, frames_high: 2 },
      skip(900, 3),
    ];
    const log = logOf([], 3600, { scans: [scan(3602)], anomalies });
    const plates = transferPlates(log);
    expect(read(plates)).toEqual(['3,602 file frames', '2 doubled', '1 skip?']);
    expect(plates[1]?.sum).toEqual([
      { sum: 'R1 120 stands too long in the file', comes: 'by 2 frames' },
      { sum: 'left out of the count', comes: '2 frames' },
    ]);
    expect(plates[2]?.sum?.at(-1)?.comes).toBe('0 to 3');
  });

  it('tell what no file shows, with its places', () => {
    const gap = { at: 380, kind: 'skip', frames: 5, frames_low: 5, frames_high: 5 };
    const log = logOf([], 3600, { scans: [scan(3595)], missing: 5, anomalies: [gap] });
    const [, plate] = transferPlates(log);
    expect(read([plate!])).toEqual(['5 counted, not seen']);
    expect(plate?.sum?.[0]).toEqual({ sum: 'from R1 380 to 384', comes: '5 frames' });
  });

  it('are none for a roll on paper', () => {
    expect(transferPlates(logOf([], 3600, { paper: true }))).toEqual([]);
  });
});

describe('the difference from the ruler', () => {
  const short = (anomalies: ReturnType<typeof skip>[]) =>
    logOf([], 3597, { expected: 3600, difference: -3, anomalies });

  it('is explained by skips where they are enough for it', () => {
    expect(differenceExplained(short([skip(900, 3)]))[0]).toContain(
      'before 900: up to 3 frames, which can be all that is short',
    );
    expect(differenceExplained(short([skip(900, 1)]))[0]).toContain(
      'That leaves 2 frames without a reason.',
    );
    expect(differenceExplained(short([]))[0]).toContain('No place was found');
  });

  it('is explained by shrinkage where more film was found than measured', () => {
    const long = { expected: 3571, difference: 29 };
    expect(differenceExplained(logOf([], 3600, long))[0]).toContain('shrinkage of 0.81 %');
    const log = { ...logOf([], 3600, long), shrinkage: '0.4' };
    expect(differenceExplained(log)[0]).toContain('with 0.4 % of shrinkage reckoned in');
  });

  it('says nothing where there is none, or nobody has measured', () => {
    expect(differenceExplained(logOf([], 3600, { expected: 3600, difference: 0 }))).toEqual([]);
    expect(differenceExplained(logOf([], 3600))).toEqual([]);
  });
});

describe('marks of the scan', () => {
  const stretches = [
    { kind: 'blended', in: 10, out: 11 },
    { kind: 'blended', in: 13, out: 15 },
    { kind: 'counted', in: 60, out: 70 },
    { kind: 'blended', in: 130, out: 131 },
  ];
  const log = logOf([takeOf(0, 100), takeOf(100, 200)], 200, {
    transfer: transfer({ stretches }),
    anomalies: [
      { at: 110, kind: 'doubled', frames: 1, frames_low: 1, frames_high: 1 },
      skip(150, 4),
    ],
    missing: 1,
  });
  const [one, two] = lengthsOf(log.takes, 200);

  it('lie on the length they belong to; blends close together are one', () => {
    const told = scanMarksOf(log, one!).map((m) => [m.kind, m.first, m.thrown, m.frames]);
    expect(told).toEqual([
      ['blended', 10, 15, 3],
      ['counted', 60, 70, 10],
    ]);
    expect(scanMarksOf(log, two!).map(scanMarkShort)).toEqual(['doubled', '1 blended', 'skip?']);
    expect(scanMarkWords(scanMarksOf(log, two!)[2]!)).toContain('No number is left free');
  });

  it('say of each frame how it stands in the file', () => {
    const at = [9, 10, 11, 13, 14, 15, 60, 69, 70, 130].map((frame) => standingOf(log, frame));
    const [b, c] = ['blended', 'counted'];
    expect(at).toEqual([null, b, null, b, b, null, c, c, null, b]);
  });

  it('take no guessed skip for film without a picture', () => {
    expect(isMissing(log, 150)).toBe(false);
  });
});
