// "The Ten-Past Boat" on the bench at cut 31 of 46, for stories and tests.
import type { FilmNote } from '$lib/api/wire';
import type {
  BenchAct,
  BenchDocument,
  BenchLine,
  BenchSetUp,
  BenchWait,
  CutPlace,
  FrameCard,
  LandmarkCount,
  OnTheBench,
  Pin,
} from './bench_types';

/** As the bench usually is. */
export const SET_UP: BenchSetUp = { pins: 12, up: 'base', head: 'left', longest_count: 144 };

const FOOT = 72;
const PITCH = 4.234;

/** A count as the server gives it. */
export function count(
  from: string,
  kind: string,
  at: number,
  frames: number,
  towards = 'tail',
): LandmarkCount {
  return {
    from,
    kind,
    at,
    frames,
    towards,
    feet: Math.floor(frames / FOOT),
    feet_frames: frames % FOOT,
    mm: (frames * PITCH).toFixed(1),
  };
}

const HEAD: CutPlace = {
  at: 547,
  blade: 'cuts',
  kept: 547,
  thrown: 546,
  thrown_in: null,
  eaten: 0,
  chain: [count('camera stop 3B-T2', 'camera_stop', 470, 77)],
  doubt: '± 1.3 mm, a third of a frame',
  from_other_cut: null,
  nearer: count('rope leaves bollard', 'mark', 531, 16),
};

const TAIL: CutPlace = {
  at: 607,
  blade: 'cuts',
  kept: 606,
  thrown: 607,
  thrown_in: null,
  eaten: 0,
  chain: [count('camera stop 3B-T2', 'camera_stop', 470, 137)],
  doubt: '± 1.6 mm, two fifths of a frame',
  from_other_cut: count('last cut', 'last_cut', 547, 60),
  nearer: count('splash', 'mark', 580, 27),
};

export const CARD: FrameCard = {
  this_end: 'head',
  frames: 60,
  goes: 'straight on the take-up reel',
  is_print: false,
  head: HEAD,
  tail: TAIL,
};

const PLAIN = {
  destroys: null,
  then: null,
  roll: null,
  frame: null,
  wind: 0,
  position: null,
  last_position: null,
  span: null,
  pin: null,
  join: null,
  outgoing: null,
  incoming: null,
  card: null,
};

/** An act with nothing but what is said. */
export function act(of: Partial<BenchAct> & Pick<BenchAct, 'act'>): BenchAct {
  return { ...PLAIN, number: 1, of: 1, title: '', what: '', tick: 'Done', ...of };
}

const SHOT_7 = { roll: 'R2', in: 547, out: 607 };

export const ACTS: Record<
  'cut' | 'tail' | 'join' | 'wind' | 'mount' | 'hang' | 'unmount',
  BenchAct
> = {
  cut: act({
    act: 'cut',
    number: 31,
    of: 46,
    title: 'Roll R2, take 3B-T2, for shot 7',
    what: 'Cut on the line before R2·547.',
    destroys:
      'The roll is parted between R2·546 and R2·547. It can be joined again, never made whole.',
    tick: 'Cut made',
    then: 'Next the tail of shot 7 is cut, 60 frames on.',
    roll: 'R2',
    frame: 547,
    wind: 77,
    position: 7,
    last_position: 7,
    span: SHOT_7,
    card: CARD,
  }),
  tail: act({
    act: 'cut',
    number: 32,
    of: 46,
    title: 'Roll R2, take 3B-T2, for shot 7',
    what: 'Cut on the line before R2·607.',
    destroys:
      'The roll is parted between R2·606 and R2·607. It can be joined again, never made whole.',
    tick: 'Cut made',
    then: 'Then join 6 | 7, and shots 8 and 9 come off pins 8 and 9.',
    roll: 'R2',
    frame: 607,
    wind: 60,
    position: 7,
    last_position: 7,
    span: SHOT_7,
    card: { ...CARD, this_end: 'tail' },
  }),
  join: act({
    act: 'join',
    number: 7,
    of: 24,
    title: 'Join 6 | 7 with tape',
    what: 'Lay R1·2938 and R2·547 on the splicer, holes on the pins, and put the tape on.',
    destroys: 'Nothing is eaten. Two frames on each side stay under tape.',
    tick: 'Join made',
    then: 'Then shot 8 comes off pin 8.',
    position: 7,
    last_position: 7,
    span: SHOT_7,
    join: 'tape',
    outgoing: { roll: 'R1', frame: 2938, position: 6, laid: 'right' },
    incoming: { roll: 'R2', frame: 547, position: 7, laid: 'right' },
  }),
  wind: act({
    act: 'wind',
    number: 4,
    of: 9,
    title: 'Roll R2',
    what: 'Wind on to R2·1244, where take 4-T2 begins.',
    tick: 'Wound there',
    roll: 'R2',
    frame: 1244,
    wind: 637,
  }),
  mount: act({
    act: 'mount',
    number: 3,
    of: 3,
    title: 'Roll R2 goes on',
    what: 'Put R2 on the rewinds, heads out, emulsion down.',
    tick: 'It is on',
    then: 'Seven strips are taken from it, beginning with shot 7.',
    roll: 'R2',
    frame: 0,
  }),
  hang: act({
    act: 'hang',
    number: 8,
    of: 12,
    title: 'Shot 8, take 3-T2',
    what: 'Hang it on pin 8, head up.',
    tick: 'It hangs',
    roll: 'R1',
    position: 8,
    last_position: 8,
    span: { roll: 'R1', in: 2996, out: 3122 },
    pin: 8,
  }),
  unmount: act({
    act: 'unmount',
    number: 2,
    of: 3,
    title: 'Roll R1 comes off',
    what: 'Take R1 off the rewinds and put what is left of it in its can.',
    tick: 'It is off',
    then: 'Then R2 goes on.',
    roll: 'R1',
  }),
};

const HUNG: readonly (readonly [number, string, string, number, number])[] = [
  [17, '5B-T2', 'R3', 57, 219],
  [18, '6-T2', 'R3', 930, 1110],
  [21, '6-T2', 'R3', 1218, 1362],
  [20, '6A-T1', 'R3', 1503, 1575],
  [19, '6B-T2', 'R3', 1830, 1884],
  [22, '7-T2', 'R3', 2505, 2775],
  [23, 'E-T1', 'R3', 3279, 3360],
  [8, '3-T2', 'R1', 2996, 3122],
  [9, '2B-T1', 'R1', 1822, 1867],
];

const PINS: Pin[] = Array.from({ length: 12 }, (_, nth) => {
  const hung = HUNG[nth];
  if (!hung) return { pin: nth + 1, hangs: null };
  const [position, take, roll, first, out] = hung;
  return {
    pin: nth + 1,
    hangs: {
      position,
      last_position: position,
      take,
      span: { roll, in: first, out },
      frames: out - first,
    },
  };
});

function line(number: number, words: string, of: Partial<BenchLine> = {}): BenchLine {
  return {
    number,
    at: `2026-11-26T09:${String(number % 60).padStart(2, '0')}:00Z`,
    by: '',
    kind: 'deed',
    words,
    struck_by: null,
    can_be_struck: false,
    ...of,
  };
}

export const ON_THE_BENCH: OnTheBench = {
  cut: 'v1',
  begun: '2026-11-26T09:05:00Z',
  join: 'tape',
  mends: false,
  wrong_joins: 0,
  opened: { done: 0, all: 0 },
  pins_owned: 12,
  winding: 'one_pass',
  planned_frames: 2724,
  frames: 2724,
  reel_frames: 756,
  done: false,
  roll: { roll: 'R2', is_made: false, stands: 470, frames: 3600, lies: 'heads out' },
  wound: { done: 6482, all: 9724 },
  cuts: { done: 30, all: 46 },
  joins: { done: 6, all: 24 },
  pins_taken: { done: 9, all: 12 },
  minutes_left: 68,
  times: { cut: 90, join: 120, mount: 60, foot: 2, learned_from: 36 },
  pins: PINS,
  acts: [ACTS.cut, ACTS.tail, ACTS.join, ACTS.wind],
  inner_joins: [],
  waits: null,
  done_lines: [
    line(47, 'Wound R2 to R2·470.', { can_be_struck: true, by: 'the blue tablet' }),
    line(46, 'R2 on the rewinds, heads out.', { can_be_struck: true }),
    line(45, 'R1 off the rewinds.', { struck_by: null }),
    line(44, 'Struck out line 43.', { kind: 'strike' }),
    line(43, 'Shot 9 hung on pin 10.', { struck_by: 44 }),
    line(42, 'Join 5 | 6 made with tape.'),
  ],
  rolls: [
    {
      roll: 'R1',
      frames: 3600,
      on_the_reel: 576,
      hanging: 171,
      made: 0,
      left: 2853,
      gone: 0,
      proved: true,
      gone_ahead: null,
    },
    {
      roll: 'R2',
      frames: 3600,
      on_the_reel: 0,
      hanging: 0,
      made: 0,
      left: 3600,
      gone: 0,
      proved: true,
      gone_ahead: null,
    },
    {
      roll: 'R3',
      frames: 3600,
      on_the_reel: 180,
      hanging: 963,
      made: 0,
      left: 2457,
      gone: 0,
      proved: true,
      gone_ahead: null,
    },
  ],
  passed: [],
};

/** Shot 7's tail where cement joins: a frame more is left on it for the tongue. */
export const CEMENT_TAIL = act({
  ...ACTS.tail,
  what: 'Cut on the line before R2·608: one frame more than is seen, for the tongue of 7 | 8.',
  frame: 608,
  card: {
    ...CARD,
    this_end: 'tail',
    tail: {
      ...TAIL,
      at: 608,
      thrown: 608,
      eaten: 1,
      chain: [count('camera stop 3B-T2', 'camera_stop', 470, 138)],
    },
  },
});

export const CEMENT_JOIN = act({
  ...ACTS.join,
  title: 'Join 6 | 7 with cement',
  what: 'Scrape R1·2939, lay R2·547 over it, and press for ten seconds.',
  destroys: 'R1·2939 is the tongue: it is scraped and never seen again.',
  join: 'cement',
});

export const WAITS: BenchWait = {
  roll: 'R2',
  why: '3,598 frames were found and 3,600 expected',
  hint: 'look in Rolls whether two frames were left out, or measure the roll again',
};

/** The user's words on a frame of shot 7. */
export const NOTE: FilmNote = {
  id: 1,
  roll: 'R2',
  frame: 580,
  words: 'the splash is easiest to see',
  writer: '',
  made: '2026-11-25T15:58:45Z',
};

/** The bench with a version on it. */
export function boatBench(of: Partial<OnTheBench> = {}): BenchDocument {
  return {
    revision: 61,
    lines: 47,
    on_the_bench: { ...ON_THE_BENCH, ...of },
    versions: [],
    assumptions: ['Super 8, 4.234 mm a frame, shrinkage not measured.', 'Tape eats no frame.'],
    set_up: SET_UP,
  };
}

/** Nothing begun: one version can be, one cannot. */
export function nothingBegun(): BenchDocument {
  return {
    revision: 12,
    lines: 0,
    on_the_bench: null,
    versions: [
      { name: 'v1', frames: 2724, pieces: 23, join: 'tape', why_not: null, not_proved: [] },
      {
        name: 'look back',
        frames: 2754,
        pieces: 24,
        join: 'tape',
        why_not: '30 frames are wanted twice, in 6 and 24',
        not_proved: ['R2'],
      },
    ],
    assumptions: [],
    set_up: SET_UP,
  };
}
