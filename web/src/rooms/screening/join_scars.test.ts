import { describe, expect, it } from 'vitest';
import type { Piece } from '$lib/api/wire';
import { boatV1, JOINS } from './boat_v1';
import { joinNamed, scarsOf, scarWords, stripWords } from './join_scars';

const cut = (pieces: Piece[], usual_join: string) => ({
  pieces,
  usual_join,
  joins: JOINS,
  frames: pieces.reduce((sum, piece) => sum + (piece.out ?? 0) - (piece.in ?? 0), 0),
});

describe('the joins of the finished strip', () => {
  it('with tape mark two frames on either side, the leaders’ joins too', () => {
    const scars = scarsOf(cut(boatV1(), 'tape'));
    // 22 joins inside with four frames, two at the leaders with two each.
    expect(scars.size).toBe(22 * 4 + 4);
    const marked = [0, 1, 2, 177, 178, 179, 180, 181, 182].filter((at) => scars.has(at));
    expect(marked).toEqual([0, 1, 178, 179, 180, 181]);
    expect(scars.get(178)).toEqual([{ join: 0, kind: 'tape', side: 'out', off: 1, isEdge: true }]);
    expect(scars.get(180)).toEqual([{ join: 0, kind: 'tape', side: 'in', off: 0, isEdge: false }]);
    expect(scars.get(2723)?.[0]).toMatchObject({ join: 22, side: 'out', off: 0 });
    expect(stripWords(cut(boatV1(), 'tape'))).toEqual({ joins: 24, marked: 92 });
  });

  it('with cement on Super 8 mark the last frame going out: 22 and the tail leader', () => {
    const scars = scarsOf(cut(boatV1(), 'cement'));
    expect(scars.size).toBe(23);
    expect(scars.has(179)).toBe(true);
    expect(scars.has(180)).toBe(false);
    expect(scars.get(2723)?.[0]).toMatchObject({ join: 22, kind: 'cement' });
  });

  it('are made as each piece asks, and not at all where the film runs on', () => {
    const pieces = boatV1().slice(0, 3);
    const mixed = [{ ...pieces[0]!, join: 'weld' }, { ...pieces[1]!, runs_on: true }, pieces[2]!];
    const scars = scarsOf(cut(mixed, 'tape'));
    expect(scars.get(179)?.[0]).toMatchObject({ kind: 'weld', isEdge: true });
    expect([178, 181, 323, 324].some((at) => scars.has(at))).toBe(false);
    expect(stripWords(cut(mixed, 'tape')).joins).toBe(3);
  });

  it('mark a piece of three frames from both ends, and never beyond the film', () => {
    const short = { ...boatV1()[0]!, in: 10, out: 13 };
    const scars = scarsOf(cut([short], 'tape'));
    expect([...scars.keys()].sort()).toEqual([0, 1, 2]);
    expect(scars.get(1)?.map((scar) => scar.side)).toEqual(['in', 'out']);
    expect(scarsOf(cut([], 'tape')).size).toBe(0);
    expect(stripWords(cut([], 'tape'))).toEqual({ joins: 0, marked: 0 });
  });

  it('are said in words', () => {
    expect(joinNamed(-1, 23)).toBe('the join with the head leader');
    expect(joinNamed(22, 23)).toBe('the join with the tail leader');
    const scar = { join: 6, kind: 'tape', side: 'out', off: 1, isEdge: true } as const;
    expect(scarWords(scar, 23)).toBe(
      'Tape over this frame, its edge in sight, the join of no. 7 and 8.',
    );
    expect(scarWords({ ...scar, kind: 'cement' }, 23)).toBe(
      'Dark band of the lap, the join of no. 7 and 8.',
    );
  });
});
