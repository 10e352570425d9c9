// What runs about a join, alone and beside what it was.
import { describe, expect, it } from 'vitest';
import { boat } from './boat_v1';
import { isShot } from './pieces';
import { roundsAbout, whereItRuns } from './plan_of_cut';

const speed = { num: 18, den: 1 };

describe('a join that runs', () => {
  const { pieces } = boat();
  const nudged = pieces.map((piece, at) =>
    at === 7 && isShot(piece) ? { ...piece, in: piece.in + 5 } : piece,
  );

  it('alone: a second and a half on either side', () => {
    const { plan, rounds } = roundsAbout(pieces, null, 6, speed);
    expect(plan.length).toBe(54);
    expect(rounds).toEqual([{ from: 0, joinAt: 27, which: '' }]);
    expect(whereItRuns(rounds, 24)).toBe('3 before the join');
    expect(whereItRuns(rounds, 27)).toBe('first after the join');
    expect(whereItRuns(rounds, 30)).toBe('3 after the join');
  });

  it('as it was, then as it is on trial: the same film but for the nudge', () => {
    const { plan, rounds } = roundsAbout(nudged, pieces, 6, speed);
    const [was, now] = rounds;
    if (!was || !now) throw new Error('two rounds');
    const [old, next] = [plan.showing(was.joinAt), plan.showing(now.joinAt)];
    if (old.kind !== 'picture' || next.kind !== 'picture') throw new Error('pictures');
    expect(next.frame - old.frame).toBe(5);
    expect(plan.showing(was.joinAt - 1)).toEqual(plan.showing(now.joinAt - 1));
    expect(plan.showing(now.from - 1)).toEqual({ kind: 'leader', shade: 'black' });
    expect(whereItRuns(rounds, was.joinAt - 3)).toBe('as the sheet has it, 3 before the join');
    expect(whereItRuns(rounds, now.joinAt)).toBe('on trial, first after the join');
  });
});
