// @vitest-environment node
import { describe, expect, it } from 'vitest';
import { boat } from '../boat_v1';
import { type ActionCut, changesOf, nearJoin, piecesWith, takeOfPiece } from './action_cut';

const { pieces } = boat();
const CLOSER = { roll: 'R2', in: 470, out: 668, slate: '3B-T2', action: 'the rope comes off' };
/** Piece 6 is the master [2813, 2939), piece 7 the closer angle [547, 607). */
const join: ActionCut = {
  made: 'join',
  at: 5,
  to: CLOSER,
  there: { leave: 2924, enter: 532 },
  back: null,
};
const laid: ActionCut = {
  made: 'lay_in',
  at: 5,
  to: CLOSER,
  there: { leave: 2880, enter: 488 },
  back: { leave: 520, enter: 2912 },
};
const film = (
  from: number,
  to: number,
  all: readonly { in?: number | null; out?: number | null }[],
) => all.slice(from, to).map((piece) => [piece.in, piece.out]);

describe('a cut on the action', () => {
  it('puts a join elsewhere: both pieces are trimmed, none is added', () => {
    const changes = changesOf(pieces, join);
    expect(changes?.map((one) => one.change)).toEqual(['replace', 'replace']);
    const now = piecesWith(pieces, join);
    expect(now).toHaveLength(pieces.length);
    expect(film(5, 8, now)).toEqual([
      [2813, 2924],
      [532, 607],
      [2996, 3122],
    ]);
  });

  it('lays a take into a piece and comes back to the same piece', () => {
    const changes = changesOf(pieces, laid);
    expect(changes?.map((one) => ('at' in one ? [one.change, one.at] : []))).toEqual([
      ['replace', 5],
      ['insert', 6],
      ['insert', 7],
    ]);
    const now = piecesWith(pieces, laid);
    expect(film(5, 9, now)).toEqual([
      [2813, 2880],
      [488, 520],
      [2912, 2939],
      [547, 607],
    ]);
    expect(now[6]?.slate).toBe('3B-T2');
  });

  it('the join after the piece stays with what stands last', () => {
    const cemented = pieces.map((piece, at) => (at === 5 ? { ...piece, join: 'cement' } : piece));
    const joins = (cut: ActionCut) =>
      piecesWith(cemented, cut)
        .slice(5, 8)
        .map((one) => one.join);
    expect(joins(laid)).toEqual([null, null, 'cement']);
    expect(joins({ ...laid, back: null })).toEqual([null, 'cement', null]);
    expect(joins(join)[0]).toBe('cement');
  });

  it('without a way back the take runs to its end', () => {
    const now = piecesWith(pieces, { ...laid, back: null });
    expect(film(5, 8, now)).toEqual([
      [2813, 2880],
      [488, 668],
      [547, 607],
    ]);
  });

  it('is none where a piece would have no frame', () => {
    expect(changesOf(pieces, { ...join, there: { leave: 2813, enter: 532 } })).toBeNull();
    expect(changesOf(pieces, { ...join, there: { leave: 2900, enter: 607 } })).toBeNull();
    expect(changesOf(pieces, { ...laid, back: { leave: 488, enter: 2912 } })).toBeNull();
    expect(changesOf([], join)).toBeNull();
  });

  it('is sought within three seconds of the join, inside the take', () => {
    const piece = pieces[5];
    const take = takeOfPiece(piece);
    if (!take || piece?.kind !== 'shot' || piece.roll == null) throw new Error('a shot');
    const shot = { ...piece, roll: piece.roll, in: piece.in ?? 0, out: piece.out ?? 0 };
    expect(nearJoin(shot, take)).toEqual([2885, 2994]);
    expect(nearJoin({ ...shot, in: 2930 }, take)[0]).toBe(2931);
    expect(nearJoin(shot, { ...take, out: 2940 })[1]).toBe(2941);
  });
});
