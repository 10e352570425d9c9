// @vitest-environment node
import { beforeEach, describe, expect, it } from 'vitest';
import { boatOneFrameShort } from './boat_v1';
import { CuttingRoom } from './cutting.svelte';
import { formOf, isShot } from './pieces';
import { CuttingActs } from './cutting_acts';
import { PretendDesk } from './pretend_desk.svelte';
import { edgeSpoken, joinAndEdgeSpoken, refusalSpoken } from './words_spoken';

let desk: PretendDesk;
let room: CuttingRoom;
let said: string[];

beforeEach(async () => {
  desk = new PretendDesk();
  said = [];
  room = new CuttingRoom(desk, (words) => said.push(words));
  await room.open('v1');
  room.chooseJoin(6, 'in');
});

const startOf = (at: number) => {
  const piece = room.shown?.pieces[at];
  return isShot(piece) ? piece.in : null;
};

describe('where one stands', () => {
  it('walks the joins from the head leader to the tail leader and no further', () => {
    room.chooseJoin(-1);
    expect([room.join, room.side, room.chosen]).toEqual([-1, 'in', 0]);
    expect(room.walk(-1)).toBe(false);
    for (let join = 0; join < 12; join += 1) expect(room.walk(1)).toBe(true);
    expect([room.join, room.side, room.chosen]).toEqual([11, 'out', 11]);
    expect(room.walk(1)).toBe(false);
  });
  it('a chosen row is its head; the first row is its tail, which has a neighbour', () => {
    room.choosePiece(7);
    expect([room.join, room.side, room.chosen]).toEqual([6, 'in', 7]);
    room.choosePiece(0);
    expect([room.join, room.side, room.chosen]).toEqual([0, 'out', 0]);
  });
});

describe('a nudge', () => {
  it('is shown at once and sent to be checked; nothing is kept', () => {
    room.nudge(-1);
    expect(startOf(7)).toBe(2995);
    expect(room.onTrial).toBe(true);
    expect(desk.tried).toHaveLength(1);
    expect(desk.sent).toHaveLength(0);
    expect(isShot(desk.v1.pieces[7]) && desk.v1.pieces[7].in).toBe(2996);
  });
  it('calls the check before it off, and only the newest answer counts', async () => {
    room.nudge(-1);
    room.nudge(-1);
    expect(desk.tried.map((one) => one.signal?.aborted)).toEqual([true, false]);
    await desk.answer();
    expect(startOf(7)).toBe(2994);
  });
  it('moves the other side of the join too, both on one trial', () => {
    room.nudge(-1);
    room.chooseSide('out');
    room.nudge(1);
    expect([room.isOnTrial(6), room.isOnTrial(7)]).toEqual([true, true]);
    expect(desk.tried.at(-1)?.change).toMatchObject({ change: 'all' });
  });
  it('to where it was is no trial any more', () => {
    room.nudge(-10);
    room.nudge(10);
    expect(room.onTrial).toBe(false);
    expect(room.shown).toBe(room.kept);
  });
  it('goes to the end of its take and not out of the piece', () => {
    room.toTakeEnd('first');
    expect(startOf(7)).toBe(2611);
    room.toTakeEnd('last');
    expect(startOf(7)).toBe(3121);
  });
});

describe('keeping', () => {
  it('sends one change of what was seen, and the trial is over', async () => {
    room.nudge(-1);
    expect(await room.keep()).toBe(true);
    expect(desk.sent[0]?.seen).toBe(7);
    expect(desk.sent[0]?.change).toMatchObject({ cut_change: { change: 'replace', at: 7 } });
    expect(room.onTrial).toBe(false);
    expect(startOf(7)).toBe(2995);
    expect(said).toEqual(['Kept: change v1.']);
  });
  it('nothing on trial is nothing to keep', async () => {
    expect(await room.keep()).toBe(false);
    expect(desk.sent).toHaveLength(0);
  });
  it('putting back leaves the sheet as it stood', () => {
    room.nudge(-1);
    room.putBack();
    expect(startOf(7)).toBe(2996);
    expect(desk.tried[0]?.signal?.aborted).toBe(true);
  });
  it('a lift takes what is on trial with it, as one change', async () => {
    room.nudge(-1);
    await room.make([{ change: 'remove', at: 0 }]);
    expect(desk.sent).toHaveLength(1);
    expect(room.kept?.pieces).toHaveLength(11);
    expect(startOf(6)).toBe(2995);
  });
  it('what is nudged while a change is on its way stays on trial', async () => {
    room.nudge(-1);
    const keeping = room.keep();
    await Promise.resolve();
    room.nudge(-1);
    expect(await keeping).toBe(true);
    expect([startOf(7), room.onTrial]).toEqual([2994, true]);
    expect(await room.keep()).toBe(true);
    expect([startOf(7), room.onTrial]).toEqual([2994, false]);
  });
  it('nudged back while a change is on its way, it is on trial as it stood before', async () => {
    room.nudge(-1);
    const keeping = room.keep();
    await Promise.resolve();
    room.nudge(1);
    await keeping;
    expect([startOf(7), room.onTrial]).toEqual([2996, true]);
  });
  it('a second press of Enter sends nothing twice', async () => {
    room.nudge(-1);
    expect(await Promise.all([room.keep(), room.keep()])).toEqual([true, false]);
    expect(desk.sent).toHaveLength(1);
  });
  it('the last piece lifted leaves one inside the sheet', async () => {
    room.chooseJoin(11, 'out');
    await room.make([{ change: 'remove', at: 11 }]);
    expect([room.join, room.side]).toEqual([10, 'out']);
  });
});

describe('undo', () => {
  it('puts back what is on trial first', async () => {
    room.nudge(-1);
    await room.undo();
    expect(room.onTrial).toBe(false);
    expect(said).toEqual(['What was on trial is put back.']);
  });
  it('takes the last change back, says which, and goes to the place', async () => {
    await room.make([{ change: 'remove', at: 3 }]);
    room.chooseJoin(9);
    await room.undo();
    expect(room.kept?.pieces).toHaveLength(12);
    expect(room.chosen).toBe(3);
    expect(said.at(-1)).toBe('Taken back: change v1.');
  });
  it('with nothing to take back says so on a slip', async () => {
    await room.undo();
    expect(room.problem?.code).toBe('store.stale');
  });
});

describe('another window', () => {
  const lifted = { change: 'remove', at: 0 } as const;
  it('that changed the version is told of before anything is sent, and what was on trial is kept', () => {
    room.nudge(-1);
    desk.changeElsewhere(lifted);
    room.heed(room.kept);
    expect(room.overtaken?.own).toBe(false);
    expect(room.shown).toBe(room.kept);
    expect(desk.sent).toHaveLength(0);
    expect(room.canKeepMine).toBe(true);
  });
  it('mine is kept again with one act, where the piece stands now', async () => {
    room.nudge(-1);
    desk.changeElsewhere(lifted);
    room.heed(room.kept);
    expect(await room.keepMineAgain()).toBe(true);
    expect(room.overtaken).toBeNull();
    expect(startOf(6)).toBe(2995);
    expect(room.kept?.pieces).toHaveLength(11);
  });
  it('whose change was not heard of yet has the later refused, and told the same', async () => {
    room.nudge(-1);
    desk.changeElsewhere(lifted);
    expect(await room.keep()).toBe(false);
    expect(room.overtaken?.trial.get(7)).toMatchObject({ in: 2995 });
    expect(room.kept?.pieces).toHaveLength(11);
  });
  it('mine has no place where the piece is gone', () => {
    room.nudge(-1);
    desk.changeElsewhere({ change: 'remove', at: 7 });
    room.heed(room.kept);
    expect(room.canKeepMine).toBe(false);
    room.putBack();
    expect(room.overtaken).toBeNull();
  });
  it('that changed something else disturbs nothing', () => {
    room.nudge(-1);
    desk.changeElsewhere({ change: 'all', changes: [] });
    room.heed(room.kept);
    expect(room.overtaken).toBeNull();
    expect(startOf(7)).toBe(2995);
  });
  it('a step back of this window is not laid on another', async () => {
    await room.make([{ change: 'remove', at: 0 }]);
    room.chooseJoin(5, 'in');
    room.nudge(-1);
    await desk.undo();
    room.heed(room.kept);
    expect(room.overtaken?.own).toBe(true);
  });
});

describe('what is said', () => {
  it('where one stands, and whether it is on trial', () => {
    expect(joinAndEdgeSpoken(room)).toBe('Join 7 and 8. R1 2996, first kept');
    room.nudge(-1);
    expect(edgeSpoken(room)).toBe('R1 2995, first kept, on trial');
    room.chooseJoin(-1);
    expect(joinAndEdgeSpoken(room)).toBe('Join head leader and 1. R3 3075, first kept');
  });
  it('what is refused at the join, and nothing where it is not', () => {
    const short = boatOneFrameShort();
    expect(refusalSpoken(short, 6, [])).toBe(
      'Refused. Strand check: with cement join 6 | 7 cannot be made.',
    );
    expect(refusalSpoken(short, 1, [])).toBe('');
  });
});

describe('acts from the sheet', () => {
  const acts = () => new CuttingActs(room, desk, () => undefined);
  it('lay in behind the chosen piece, and choose what was laid in', async () => {
    await acts().layIn([{ kind: 'leader', frames: 36 }]);
    expect(room.kept?.pieces[8]).toMatchObject({ kind: 'leader', frames: 36 });
    expect(room.chosen).toBe(8);
  });
  it('lift the chosen piece', async () => {
    await acts().lift();
    expect(room.kept?.pieces).toHaveLength(11);
    expect(startOf(7)).toBe(1822);
  });
  it('move a piece to a line, and stay inside the sheet', async () => {
    await acts().drop(0, 3);
    expect(startOf(2)).toBe(3075);
    await acts().drop(0, -1);
    await acts().drop(11, 13);
    await acts().drop(4, 4);
    await acts().drop(4, 5);
    expect(desk.sent).toHaveLength(1);
  });
  it('move what is held together, and hold it still where it came to stand', async () => {
    const hand = acts();
    room.choosePiece(2);
    hand.held.upTo(4);
    const starts = [2, 3, 4].map(startOf);
    await hand.move(1);
    expect([3, 4, 5].map(startOf)).toEqual(starts);
    expect(hand.held.places).toEqual([3, 4, 5]);
    await hand.drop(4, 0);
    expect([0, 1, 2].map(startOf)).toEqual(starts);
    expect(hand.held.places).toEqual([0, 1, 2]);
    await hand.move(-1);
    expect(desk.sent).toHaveLength(2);
  });
  it('lift and join what is held in one step', async () => {
    const hand = acts();
    room.choosePiece(2);
    hand.held.alsoOrNot(5);
    hand.held.alsoOrNot(9);
    await hand.joinBy('weld');
    expect([2, 5, 9].map((at) => room.kept?.pieces[at]?.join)).toEqual(['weld', 'weld', 'weld']);
    const left = (room.kept?.pieces ?? []).filter((_, at) => ![2, 5, 9].includes(at));
    await hand.lift();
    expect(room.kept?.pieces.map((one) => one.in)).toEqual(left.map((one) => one.in));
    expect(desk.sent).toHaveLength(2);
    expect(hand.held.several).toBe(false);
  });
  it('divide a piece: the join goes with the second part, the note stays with the first', async () => {
    const hand = acts();
    const was = room.kept?.pieces[7];
    if (!isShot(was)) throw new Error('8 is a shot');
    await room.make([
      { change: 'replace', at: 7, piece: { ...formOf(was), join: 'tape', note: 'a' } },
    ]);
    expect(await hand.divide(7, was.in)).toBe(false);
    expect(await hand.divide(7, was.out)).toBe(false);
    expect(await hand.divide(7, was.in + 10)).toBe(true);
    const [one, other] = (room.kept?.pieces ?? []).slice(7, 9);
    expect(one).toMatchObject({ in: was.in, out: was.in + 10, join: null, note: 'a' });
    expect(other).toMatchObject({ in: was.in + 10, out: was.out, join: 'tape', note: '' });
    expect([room.join, room.side]).toEqual([7, 'in']);
  });
  it('another take keeps the join and the note of the piece it stands for', async () => {
    const was = room.kept?.pieces[7];
    if (!isShot(was)) throw new Error('8 is a shot');
    await room.make([
      { change: 'replace', at: 7, piece: { ...formOf(was), join: 'tape', note: 'a' } },
    ]);
    room.choosePiece(7);
    await acts().another({ kind: 'shot', roll: 'R1', in: 2229, out: 2258, slate: '3-T1' });
    expect(room.kept?.pieces[7]).toMatchObject({
      in: 2229,
      out: 2258,
      slate: '3-T1',
      join: 'tape',
      note: 'a',
    });
  });
  it('throw a version away: nothing of it is left to be asked for', async () => {
    await acts().throwAway('v1');
    expect(desk.sent.map((one) => one.change.film_change)).toEqual(['remove_cut']);
    expect([...desk.cuts.keys()]).toEqual([]);
    expect(desk.film?.cuts).toEqual([]);
    expect(desk.loads).toBe(1);
  });
});
