// What two versions beside each other say, without a server.
import { describe, expect, it } from 'vitest';
import type { Beside, ChangeLine, Compared } from '$lib/api/wire';
import { boat } from './boat_v1';
import { filmOfLine, placesOfLine, rowsBeside, sumOf } from './versions_beside';

const { pieces } = boat();
const shorter = pieces.map((piece, at) =>
  at === 1 ? { ...piece, out: (piece.out ?? 0) - 18, frames: (piece.frames ?? 0) - 18 } : piece,
);
const row = (
  old: number | null,
  now: number | null,
  state: string,
  more: Partial<Beside> = {},
) => ({
  old,
  new: now,
  state,
  elsewhere: null,
  paper_differs: false,
  ...more,
});
const line = (of: Partial<ChangeLine>): ChangeLine =>
  ({
    at: 942,
    act: 'lift',
    word: 'lift',
    frames: 45,
    film: { kind: 'shot', roll: 'R1', in: 1822, out: 1867, slate: '2B-T1' },
    to: null,
    offset_after: -45,
    ...of,
  }) as ChangeLine;
const compared = (beside: Beside[], of: Partial<Compared> = {}): Compared =>
  ({
    from: 'v1',
    to: 'v2',
    from_pieces: pieces,
    to_pieces: shorter,
    from_frames: 2724,
    to_frames: 2652,
    held: 2526,
    moved: 54,
    out: 144,
    new_frames: 72,
    beside,
    ...of,
  }) as Compared;

describe('rows beside each other', () => {
  it('say what becomes of each piece', () => {
    const rows = rowsBeside(
      compared([
        row(1, 1, 'same'),
        row(2, 2, 'trimmed'),
        row(3, null, 'only_old'),
        row(4, null, 'moved', { elsewhere: 6 }),
        row(null, 3, 'only_new'),
        row(5, 4, 'same', { paper_differs: true }),
      ]),
    );
    expect(rows.map((one) => one.words)).toEqual([
      '',
      '18 shorter',
      'lifted',
      'moved: no. 6',
      'laid in',
      'join or note',
    ]);
    expect(rows[2]?.new).toBeNull();
    expect(rows[4]?.old).toBeNull();
    expect(rows[1]?.new?.piece.frames).toBe((pieces[1]?.frames ?? 0) - 18);
  });
});

describe('the sum', () => {
  it('is one sentence with the length before and after', () => {
    expect(sumOf(compared([]), 72)).toBe(
      '2,526 frames stay as they lie, 54 move, 144 go out, 72 come in. 37 ft 60 fr becomes 36 ft 60 fr.',
    );
  });
  it('leaves out what there is none of', () => {
    const same = { held: 1, moved: 0, out: 0, new_frames: 0, from_frames: 1, to_frames: 1 };
    expect(sumOf(compared([], same), 72)).toBe('1 frame stays as it lies. Both are 0 ft 01 fr.');
  });
});

describe('lines of the change list', () => {
  it('name their film and their places', () => {
    expect(filmOfLine(line({}))).toBe('2B-T1, R1·1822 to 1866');
    expect(filmOfLine(line({ film: { kind: 'card', title: 'Evening', note: '' } }))).toBe(
      'card Evening',
    );
    expect(filmOfLine(line({ film: { kind: 'leader', note: '' } }))).toBe('leader');
    expect(placesOfLine(line({}), 72)).toEqual({ at: '13 ft 06 fr', to: '', offset: '−45' });
    expect(placesOfLine(line({ to: 2103 }), 72).to).toBe('29 ft 15 fr');
  });
});
