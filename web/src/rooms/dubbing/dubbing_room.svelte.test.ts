// @vitest-environment node
import { expect, it } from 'vitest';
import { Refused } from '$lib/api/server';
import { anchorAt, anchorSaid, movedTo } from './anchors';
import { boatDub } from './boat_dub';
import { chartPlaces, LEAST } from './chart_columns';
import { ChartScale } from './chart_scale';
import { orphanCrowds, orphansHeading, proposedTogether, stateSaid } from './cue_words';
import type { DubDesk } from './dub_desk';
import type { CueWords, Dub, DubChange } from './dub_types';
import { DubbingRoom } from './dubbing_room.svelte';
import { lanesOf, tilesOf } from './film_tiles';

class PretendDubDesk implements DubDesk {
  readonly changes: { change: DubChange; seen: number }[] = [];
  refuse: Error | null = null;
  constructor(readonly dub: Dub = boatDub()) {}
  load = () => Promise.resolve(structuredClone(this.dub));
  heard = () => Promise.reject(new Error('nothing is heard here'));
  changeCut = () => Promise.reject(new Error('the cut stays'));
  change(change: DubChange, seen: number): Promise<number> {
    if (this.refuse) return Promise.reject(this.refuse);
    this.changes.push({ change, seen });
    return Promise.resolve(seen + 1);
  }
}
async function opened() {
  const desk = new PretendDubDesk();
  const room = new DubbingRoom(desk);
  await room.load('v2');
  return { desk, room };
}
/** The cues that were asked to be kept, in order. */
const kept = (desk: PretendDubDesk): { id?: number | null; cue: CueWords }[] =>
  desk.changes.flatMap(({ change: { id, to } }) =>
    to.what === 'cue' ? [{ id: id ?? null, cue: to.cue }] : to.what === 'cues' ? to.cues : [],
  );

it('stays on the film and its leader', async () => {
  const { room } = await opened();
  room.go(-500);
  expect(room.at).toBe(-72);
  room.go(9999);
  expect(room.at).toBe(2651);
});

it('goes from cue to cue, and says so at the last', async () => {
  const { room } = await opened();
  expect(room.nextCue()).toBe(true);
  expect([room.chosen, room.at, room.card]).toEqual([21, 1392, 'cue']);
  for (const _ of [22, 23, 30]) room.nextCue();
  expect([room.chosen, room.inColumn?.column.name]).toEqual([30, 'music']);
  expect(room.nextCue()).toBe(false);
});

it('answers all orphans of a column at once: one change, each where it is proposed', async () => {
  const { desk, room } = await opened();
  expect(room.answerFirst()).toBe(true);
  await room.load();
  expect(desk.changes).toHaveLength(1);
  expect(kept(desk).map(({ id, cue }) => [id, cue.start.frame, cue.laid?.at])).toEqual([
    [21, 1849, 1349],
    [22, 1868, 1368],
    [23, 1887, 1387],
  ]);
});

it('leaves orphans and asks no more, where it is told to', async () => {
  const { desk, room } = await opened();
  await room.leaveOrphans(room.cues.filter((one) => one.state === 'orphan'));
  expect(kept(desk).map(({ cue }) => cue.left)).toEqual([true, true, true]);
  const left = boatDub();
  for (const cue of left.cues) cue.cue.left = true;
  expect(proposedTogether(left)).toEqual([]);
  expect(proposedTogether(boatDub())[0]?.cues.map(({ id }) => id)).toEqual([21, 22, 23]);
});

it('carries a cue with the hand and keeps it when the hand lets go, and where it then is', async () => {
  const { desk, room } = await opened();
  room.choose(30);
  room.carry(30, 1740);
  expect([room.cue?.at, desk.changes.length]).toEqual([1740, 0]);
  await room.letGo();
  // Running 1,740 is 114 frames into the third piece, which begins at R3 1,300.
  expect(kept(desk)[0]?.cue.start).toEqual({ to: 'frame', roll: 'R3', frame: 1414, offset: 0 });
  expect(kept(desk)[0]?.cue.laid).toEqual({ cut: 'v2', at: 1740, frames: 792 });
  expect(room.held).toBeNull();
});

it('says when another window was first, and shows what is kept', async () => {
  const { desk, room } = await opened();
  desk.refuse = new Refused(
    { code: 'store.stale', message: 'changed', hint: 'look', details: null },
    409,
  );
  room.choose(30);
  expect(await room.nudge(5)).toBe(false);
  expect([room.overtaken, room.cue?.at]).toEqual([true, 1728]);
  await room.putBack();
  expect([room.overtaken, room.refused]).toEqual([false, null]);
});

it('stretches an end to the join under the rule, never before its in', async () => {
  const { desk, room } = await opened();
  room.choose(21);
  room.go(1700);
  await room.endHere('join');
  expect(kept(desk)[0]?.cue.end).toEqual({ to: 'join', roll: 'R3', frame: 1300, offset: 0 });
  room.go(100);
  expect(await room.endHere('join')).toBe(false);
});

it('holds to a frame, a join or the clock', () => {
  const { pieces } = boatDub();
  expect(anchorAt(pieces, 200, 'frame')).toEqual({
    to: 'frame',
    roll: 'R2',
    frame: 420,
    offset: 0,
  });
  expect(anchorAt(pieces, 200, 'join')).toEqual({ to: 'join', roll: 'R2', frame: 400, offset: 20 });
  // A card has no roll: its join is named by the running frame, a frame of it by the clock.
  expect(anchorAt(pieces, 5, 'join')).toEqual({ to: 'join', roll: '', frame: 0, offset: 5 });
  expect(anchorAt(pieces, 5, 'frame')).toEqual({ to: 'clock', roll: '', frame: 5, offset: 0 });
  expect(anchorAt(pieces, -30, 'clock')).toEqual({ to: 'clock', roll: '', frame: 0, offset: -30 });
  expect(anchorSaid(anchorAt(pieces, 200, 'join'))).toBe('the join before R2 400, 20 frames later');
});

it('keeps to its join when it is let in later', () => {
  const dub = boatDub();
  const [first] = dub.cues;
  if (!first) throw new Error('no cue');
  const held = { ...first.cue, start: anchorAt(dub.pieces, 180, 'join') };
  expect(movedTo(held, 180, 186, dub).start).toEqual({ ...held.start, offset: 6 });
});

it('says what became of a cue', () => {
  const { cues } = boatDub();
  const [orphan] = cues;
  if (!orphan) throw new Error('no cue');
  expect(stateSaid(orphan)).toMatch(/^Orphan/);
  const moved = { ...orphan, state: 'moved' as const, was: 1400 };
  expect(stateSaid(moved)).toBe('Moved with what it holds to: 8 frames sooner.');
  expect(orphansHeading(cues.slice(0, 3), [])).toBe(
    'Three orphan cues: bell 1 at 1,392 · 1,410 · 1,429 left the cut.',
  );
});

it('lets the last of a crowd speak for all', () => {
  const crowds = orphanCrowds(boatDub().cues, new ChartScale(72, 49));
  expect([...crowds]).toEqual([
    [21, 0],
    [22, 0],
    [23, 3],
  ]);
  const near = orphanCrowds(boatDub().cues, new ChartScale(72, 392));
  expect([...near.values()]).toEqual([1, 1, 1]);
});

it('gives each source its column, and goes off to the right before one is too narrow', () => {
  const three = chartPlaces(1016, 3);
  expect(three.columns.map(({ left }) => left)).toEqual([330, 514, 698]);
  expect(three.whole).toBe(1016);
  const many = chartPlaces(1016, 9);
  expect(many.columns[0]?.width).toBe(LEAST);
  expect(many.whole).toBeGreaterThan(1016);
});

it('shows the frame that runs at the top of each small picture, inside its piece', () => {
  const { pieces } = boatDub();
  const scale = new ChartScale(72, 49);
  const tiles = tilesOf(pieces, { from: 0, to: 2700 }, scale, 33);
  for (const tile of tiles) {
    const piece = pieces.find(({ roll }) => roll === tile.roll);
    if (!piece) throw new Error('no piece');
    expect(tile.frame).toBeGreaterThanOrEqual(piece.first);
    expect(tile.frame).toBeLessThan(piece.first + piece.frames);
    const running = piece.at + tile.frame - piece.first;
    expect(Math.abs(scale.y(running) - tile.y)).toBeLessThanOrEqual(scale.frame);
  }
  expect(tiles.some(({ roll }) => roll === 'R3')).toBe(true);
});

it('lays moves side by side where they are at once', () => {
  const lanes = lanesOf([
    { from: 10, to: 40 },
    { from: 20, to: 30 },
    { from: 30, to: 50 },
  ]);
  expect(lanes.map(({ lane }) => lane)).toEqual([0, 1, 1]);
});

it('lays a cue anew when the user takes another part of its sound: nothing has stretched', async () => {
  const dub = boatDub();
  const sound = {
    id: 5,
    milliseconds: 10_000,
    used: 1,
    missing: false,
    sound: { name: 'march', play: 1_015_200, facts: { rate: 48_000, samples: 480_000 } },
  };
  (dub.sounds as unknown[]).push(sound);
  const march = dub.cues.find((one) => one.id === 30);
  if (!march) throw new Error('no march');
  Object.assign(march.cue, { sound: 5, frames: null });
  const desk = new PretendDubDesk(dub);
  const room = new DubbingRoom(desk);
  await room.load('v2');
  room.choose(30);
  await room.setCue({ from: 48_000, to: 240_000 });
  // Four seconds of the tape, played 1.0152 times as fast, at 18: 70.92 frames.
  expect(kept(desk)[0]?.cue.laid).toEqual({ cut: 'v2', at: 1728, frames: 71 });
  await room.addCue(5, 100, 2, { from: 240_000 });
  expect(kept(desk)[1]?.cue.laid).toEqual({ cut: 'v2', at: 100, frames: 89 });
  // An end that holds to something of its own says where it ends.
  Object.assign(march.cue, { end: march.cue.start });
  await room.load();
  await room.setCue({ from: 0 });
  expect(kept(desk)[2]?.cue.laid?.frames).toBe(792);
});
