// The first cut of "The Ten-Past Boat" as the server gives it, for the tests.
import type { Conflict, Cut, CutChange, Film, Piece, PieceForm, RollHead } from '$lib/api/wire';
import { pieceFrames, runsOn } from './pieces';

// slate, roll, in, out, what happens
const V1: readonly (readonly [string, string, number, number, string])[] = [
  ['M-T1', 'R3', 3075, 3255, 'main title'],
  ['1-T2', 'R1', 402, 546, 'the landing'],
  ['2-T2', 'R1', 1068, 1176, 'Ida runs with a loaf'],
  ['3-T2', 'R1', 2623, 2749, 'Bram waits'],
  ['2A-T2', 'R1', 1590, 1662, 'Ida runs, nearer'],
  ['3-T2', 'R1', 2813, 2939, 'Bram lifts the rope'],
  ['3B-T2', 'R2', 547, 607, 'the rope comes off'],
  ['3-T2', 'R1', 2996, 3122, 'the ferry leaves'],
  ['2B-T1', 'R1', 1822, 1867, 'her feet'],
  ['4-T2', 'R2', 1280, 1496, 'too late'],
  ['4A-T2', 'R2', 2075, 2147, 'she sees it go'],
  ['4-T2', 'R2', 1532, 1640, 'she goes to the bell'],
];

/** What joins cost on Super 8, as the server's table says. */
export const JOINS: Cut['joins'] = [
  { join: 'tape', out_tail: 0, in_head: 0, scar_out: 2, scar_in: 2, shortest: 6 },
  { join: 'cement', out_tail: 1, in_head: 0, scar_out: 1, scar_in: 0, shortest: 8 },
  { join: 'weld', out_tail: 1, in_head: 1, scar_out: 1, scar_in: 1, shortest: 8 },
];

const TAKES: Record<string, readonly [number, number]> = {
  '3-T2': [2611, 3313],
  '3B-T2': [470, 668],
  '2B-T1': [1801, 1945],
};

export function shot(
  slate: string,
  roll: string,
  first: number,
  out: number,
  note = '',
): PieceForm {
  return { kind: 'shot', slate, roll, in: first, out, note, join: null, effect: null };
}

/** Pieces in their order as they stand on the sheet. */
export function standing(forms: readonly PieceForm[]): Piece[] {
  let starts = 0;
  return forms.map((form, at) => {
    const frames = pieceFrames(form);
    const [first, out] = TAKES[form.slate ?? ''] ?? [];
    const piece: Piece = {
      ...form,
      frames,
      action: form.note ?? '',
      logged: form.slate ?? null,
      starts_at: starts,
      runs_on: runsOn(form, forms[at + 1]),
      take: first !== undefined && out !== undefined ? { in: first, out } : null,
    };
    starts += frames;
    return piece;
  });
}

/** A version of these pieces, with nothing against it. */
export function version(forms: readonly PieceForm[], join = 'tape', revision = 7): Cut {
  const pieces = standing(forms);
  const frames = pieces.reduce((sum, piece) => sum + pieceFrames(piece), 0);
  return {
    cut: 'v1',
    revision,
    on_trial: false,
    usual_join: join,
    note: 'the first cut',
    made: '2026-11-25T15:58:45Z',
    frames,
    footage: { feet: Math.floor(frames / 72), frames: frames % 72 },
    clock: '',
    pieces,
    joins: JOINS,
    ways_later: false,
    check: {
      cut: 'v1',
      join,
      frames,
      ok: true,
      pieces: pieces.length,
      joins: pieces.length + 1,
      eaten: 0,
      rolls: [],
      conflicts: [],
      mend_all: [],
      questions: [],
      answered: [],
      assumptions: [],
      pace: null,
    },
  };
}

/** The first twelve pieces of v1. */
export function boat(join = 'tape', revision = 7): Cut {
  return version(
    V1.map((row) => shot(...row)),
    join,
    revision,
  );
}

/** The same with shot 8 begun at R1·2939, as in the sixth story. */
export function boatOneFrameShort(): Cut {
  const forms = V1.map((row) => shot(...row));
  forms[7] = { ...shot('3-T2', 'R1', 2939, 3122, 'the ferry leaves') };
  const cut = version(forms, 'cement');
  return { ...cut, check: { ...cut.check, ok: false, conflicts: [bitten()] } };
}

export function conflict(of: Partial<Conflict> & Pick<Conflict, 'kind' | 'positions'>): Conflict {
  return { severity: 'refused', span: null, frames: 0, remedies: [], ...of };
}

/** What the strand check says of it. */
export function bitten(): Conflict {
  const tape: CutChange = {
    change: 'replace',
    at: 5,
    piece: { ...shot('3-T2', 'R1', 2813, 2939, 'Bram lifts the rope'), join: 'tape' },
  };
  const later: CutChange = {
    change: 'replace',
    at: 7,
    piece: shot('3-T2', 'R1', 2940, 3122, 'the ferry leaves'),
  };
  const mending = { frames: 0, joins: 1, mends: true, warns: false };
  return conflict({
    kind: 'bite',
    positions: [6, 7, 8],
    span: { roll: 'R1', in: 2939, out: 2940 },
    frames: 1,
    remedies: [
      { ...mending, kind: 'other_join', text: 'make join 6 | 7 with tape', change: tape },
      {
        ...mending,
        kind: 'shift',
        text: 'start 8 at R1·2940, 1 frame later',
        frames: 1,
        change: later,
      },
    ],
  });
}

export function roll(name: string, of: Partial<RollHead> = {}): RollHead {
  return {
    roll: name,
    gauge: 'super8',
    frames: 3600,
    footage: { feet: 50, frames: 0 },
    missing: 0,
    expected: 3600,
    difference: 0,
    proved: true,
    base: 'triacetate',
    fit: 'project',
    takes: 10,
    paper: false,
    workprint: true,
    scans: [],
    ...of,
  };
}

/** The film that it is a version of. */
export function film(cuts: readonly Cut[], revision = 7): Film {
  return {
    revision,
    title: 'The Ten-Past Boat',
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
    speed: '18',
    dir: 'the-ten-past-boat',
    rolls: [roll('R1'), roll('R2'), roll('R3')],
    cuts: cuts.map((cut) => ({
      cut: cut.cut,
      pieces: cut.pieces.length,
      frames: cut.frames,
      footage: cut.footage,
      clock: cut.clock,
      usual_join: cut.usual_join,
      note: cut.note,
      made: cut.made,
    })),
    titles: [],
    notes: [],
    reels: [],
    sign_limits: [],
    notices: [],
    undo: null,
    redo: null,
  };
}
