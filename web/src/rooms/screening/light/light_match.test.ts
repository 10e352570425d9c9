import { describe, expect, it } from 'vitest';
import type { LightAsked, LightSolved } from '$lib/api/wire';
import {
  type LightDesk,
  LightMatch,
  nudged,
  placeBetween,
  pointsWords,
} from './light_match.svelte';

const solved: LightSolved = {
  shots: [
    {
      roll: 'R1',
      in: 0,
      out: 50,
      slate: '',
      stands: 'held',
      measured_points: [0, 0, 0],
      points: [0, 0, 0],
      slopes: [1, 1, 1],
      error_points: null,
      things: 1,
    },
    {
      roll: 'R1',
      in: 50,
      out: 90,
      slate: '',
      stands: 'solved',
      measured_points: [5.1, 4.9, 6.8],
      points: [5, 5, 7],
      slopes: [1.334, 1.334, 1.496],
      error_points: null,
      things: 1,
    },
  ],
  patches: [],
  words: [],
};

function desk(): LightDesk & { asked: LightAsked[]; changes: unknown[] } {
  const asked: LightAsked[] = [];
  const changes: unknown[] = [];
  const kept = { revision: 3 } as never;
  return {
    film: { revision: 2, rolls: [{ roll: 'R1', frames: 90 }] } as never,
    asked,
    changes,
    gradingCard: () => Promise.resolve({ shots: [], patches: [] }),
    solveLight: (body) => {
      asked.push(body);
      return Promise.resolve(solved);
    },
    decisionList: () => Promise.resolve(new Blob()),
    gradingOnPaper: () => Promise.resolve(new Blob()),
    change: (change) => {
      changes.push(change);
      return Promise.resolve(kept);
    },
    undo: () => Promise.resolve(kept),
  };
}

const place = { left: 100, top: 200, width: 1000, height: 900 };

describe('a rectangle', () => {
  it('is the same from whichever corner it was dragged', () => {
    const wanted = { left: 2000, top: 1000, width: 3000, height: 2500 };
    expect(placeBetween([0.2, 0.1], [0.5, 0.35])).toEqual(wanted);
    expect(placeBetween([0.5, 0.35], [0.2, 0.1])).toEqual(wanted);
  });
  it('stays in the picture and is not too small', () => {
    expect(placeBetween([-0.5, 0.9], [0.5, 1.7])).toEqual({
      left: 0,
      top: 9000,
      width: 5000,
      height: 1000,
    });
    expect(placeBetween([0.2, 0.2], [0.205, 0.9])).toBeNull();
    expect(nudged(place, -500, 0, false).left).toBe(0);
    expect(nudged(place, 99_999, 0, true).width).toBe(9900);
  });
});

describe('shots matched', () => {
  it('asks when a thing is in two frames, and keeps whole points', async () => {
    const bench = desk();
    const match = new LightMatch(bench);
    await match.begin({ roll: 'R1', frame: 10 });
    match.choose({ roll: 'R1', frame: 60 });
    match.thing = 'cap';
    match.put({ roll: 'R1', frame: 10 }, place);
    await match.ask();
    expect(bench.asked).toHaveLength(0);
    match.put({ roll: 'R1', frame: 60 }, place);
    await match.ask();
    expect(bench.asked[0]?.held).toEqual({ roll: 'R1', frame: 10 });
    expect(match.shotOf({ roll: 'R1', frame: 60 })?.points).toEqual([5, 5, 7]);
    await match.keep();
    expect(bench.changes[0]).toMatchObject({
      film_change: 'light',
      to: { what: 'keep', shots: [{ in: 0 }, { in: 50, red: 5, green: 5, blue: 7 }] },
    });
  });
  it('takes marks along to another frame of the shot, and off with it', () => {
    const match = new LightMatch(desk());
    match.choose({ roll: 'R1', frame: 10 });
    match.put({ roll: 'R1', frame: 10 }, place);
    match.step({ roll: 'R1', frame: 10 }, 6);
    expect(match.patches[0]?.frame).toBe(16);
    match.leaveOut({ roll: 'R1', frame: 16 });
    expect(match.patches).toHaveLength(0);
  });
  it('says points with their sign', () => {
    expect([5, 0, -3].map(pointsWords)).toEqual(['+5', '0', '−3']);
  });
});
