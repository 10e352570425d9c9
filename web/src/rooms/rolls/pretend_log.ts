// Logs for the tests of this room: small, and only what a test says differs.
import { NOT_INSPECTED } from '../../stories/not_inspected';
import type { Film, RollHead, RollLog, Sign, Take } from '$lib/api/wire';

export function takeOf(first: number, thrown: number, more: Partial<Take> = {}): Take {
  return {
    in: first,
    out: thrown,
    setup: null,
    take: null,
    rating: 'none',
    size: '',
    camera_move: '',
    direction: '',
    action: '',
    note: '',
    begins: 'camera_stop',
    flash_frames: 0,
    flash_stops: null,
    start_speed: null,
    pin: 1,
    looked: false,
    ...more,
  };
}

export function headOf(roll: string, frames: number, more: Partial<RollHead> = {}): RollHead {
  return {
    roll,
    frames,
    gauge: 'super8',
    footage: { feet: Math.floor(frames / 72), frames: frames % 72 },
    missing: 0,
    expected: null,
    difference: null,
    proved: false,
    base: 'triacetate',
    fit: 'project',
    takes: 0,
    paper: false,
    workprint: true,
    pictures: 'p1',
    scans: [],
    half: null,
    ...more,
  };
}

type Anomaly = NonNullable<RollLog['report']>['anomalies'][number];

type Report = NonNullable<RollLog['report']>;

interface More extends Partial<RollHead> {
  readonly transfer?: Report['transfer'];
  readonly breaks?: Report['breaks'];
  readonly gradual?: Sign[];
  readonly revision?: number;
  readonly anomalies?: Anomaly[];
  readonly signs?: Sign[];
}

export function logOf(takes: Take[], frames: number, more: More = {}): RollLog {
  const { revision = 1, anomalies = [], signs = [], transfer = null, ...rest } = more;
  const { breaks = [], gradual = [], ...head } = rest;
  return {
    revision,
    roll: headOf(head.roll ?? 'R1', frames, { takes: takes.length, ...head }),
    film_speed: '18',
    measured: null,
    shrinkage: null,
    wind: null,
    inspection: NOT_INSPECTED,
    takes,
    report: { anomalies, signs, warnings: [], transfer, breaks, gradual },
  };
}

export function filmOf(rolls: RollHead[], more: Partial<Film> = {}): Film {
  return {
    title: 'The Ten-Past Boat',
    dir: 'boat',
    revision: 1,
    speed: '18',
    gauge: {
      gauge: 'super8',
      name: 'Super 8',
      frames_per_foot: 72,
      pitch_mm: 4.234,
      width_mm: 7.976,
      picture: { w: 5.79, h: 4.01, left: 1.46 },
      shown: { w: 5.31, h: 4.01 },
      hole: { w: 0.914, h: 1.143, edge: 0.51, radius: 0.13 },
      place: 'beside_picture',
      load: 3600,
      load_words: '50 ft cartridge',
    },
    rolls,
    cuts: [],
    titles: [],
    notes: [],
    reels: [],
    sign_limits: [],
    notices: [],
    undo: null,
    redo: null,
    ...more,
  };
}
