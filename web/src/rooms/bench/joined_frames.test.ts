// What lies beside a join, in the way its film lies.
import { describe, expect, it } from 'vitest';
import { besideJoin, liesWrongly, seenAs } from './joined_frames';

const picture = (roll: string, frame: number) => `${roll}/${frame}`;
const out = (laid: string) => ({ roll: 'R1', frame: 400, position: 4, laid });
const names = (laid: string) => besideJoin(out(laid), 'out', '4', picture).map((one) => one.name);

describe('the film beside a join', () => {
  it('runs on to the last frame of the outgoing, however it lies', () => {
    expect(names('right')).toEqual(['R1·399', 'R1·400']);
    expect(names('turned_over')).toEqual(['R1·399', 'R1·400']);
    // Its tail came first: 401 was seen before 400.
    expect(names('end_for_end')).toEqual(['R1·401', 'R1·400']);
    expect(names('end_over_end')).toEqual(['R1·401', 'R1·400']);
  });

  it('says how the outgoing film lies', () => {
    const last = besideJoin(out('end_for_end'), 'out', '4', picture)[1];
    expect(last?.words).toBe('last of the outgoing, end for end');
    expect(liesWrongly(out('turned_over'))).toBe('The outgoing film lies turned over.');
    expect(liesWrongly(out('right'))).toBe('');
    expect(liesWrongly(null)).toBe('');
  });

  // A strip of Super 8 in the hand: turned over about its length the picture is mirrored and
  // the holes change edges; turned end for end on the table it is turned by half, and the holes
  // change edges; flipped over end over end it stands on its head as in water, holes where they
  // were.
  it('is seen as a strip in the hand is', () => {
    const all = ['right', 'turned_over', 'end_for_end', 'end_over_end'].map(seenAs);
    expect(all.map((one) => one.otherEdge)).toEqual([false, true, true, false]);
    expect(all.map((one) => one.upended)).toEqual([false, false, true, true]);
    expect(all.map((one) => one.mirrored)).toEqual([false, true, true, false]);
  });

  it('leader has no neighbour', () => {
    const leader = besideJoin(null, 'out', 'leader', picture);
    expect(leader.map((one) => one.name)).toEqual(['', 'leader']);
  });
});
