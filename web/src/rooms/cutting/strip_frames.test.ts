import { describe, expect, it } from 'vitest';
import type { Cut } from '$lib/api/wire';
import type { FilmFrame } from '$lib/ui/film/film_frame';
import { boat, boatOneFrameShort, shot, version } from './boat_v1';
import { joinedStrip, laidOverStrip, sideStrip, type Table } from './strip_frames';
import { FramesLie } from './where_frames_lie';

function table(cut: Cut, more: Partial<Table> = {}): Table {
  return {
    cut,
    lies: new FramesLie(cut),
    gauge: 'super8',
    picture: (roll, frame) => `${roll}/${frame}`,
    isMissing: () => false,
    rollFrames: () => 3600,
    isOnTrial: () => false,
    ...more,
  };
}
const told = (frames: readonly FilmFrame[]) =>
  frames.map((frame) => [frame.name, frame.state, frame.words ?? ''].join(' ').trim());

describe('two strips at the line', () => {
  it('last kept above the line going out, what is thrown below', () => {
    const strip = sideStrip(table(boat()), 6, 'out', 2);
    expect(strip.cut).toBe(2);
    expect(told(strip.frames)).toEqual([
      'R2·605 scar',
      'R2·606 scar last kept',
      'R2·607 thrown',
      'R2·608 thrown',
    ]);
  });
  it('first kept below the line coming in; what lies above may be another piece', () => {
    const strip = sideStrip(
      table(boatOneFrameShort(), { isOnTrial: (at) => at === 7 }),
      6,
      'in',
      2,
    );
    expect(told(strip.frames)).toEqual([
      'R1·2937 thrown in shot 6',
      'R1·2938 thrown in shot 6',
      'R1·2939 kept on trial',
      'R1·2940 kept',
    ]);
    expect(strip.frames[2]).toMatchObject({
      tag: 'wanted twice',
      ringed: true,
      overlap: { end: 'head', mm: 1.4, words: 'tongue of 6 | 7' },
    });
  });
  it('a card shows the frames of its title, where one of that name is written', () => {
    const cut = version([
      { kind: 'card', frames: 5, title: 'M' },
      { kind: 'card', frames: 3, title: 'E' },
    ]);
    const title = (named: string | null | undefined, frame: number) =>
      named === 'M' ? `M/${frame}` : undefined;
    const pictures = (side: 'out' | 'in') =>
      sideStrip(table(cut, { title }), 0, side, 2).frames.map((frame) => frame.picture);
    expect(pictures('out')).toEqual(['M/3', 'M/4']);
    expect(pictures('in')).toEqual([undefined, undefined]);
  });
  it('the tongue that a join takes lies on the first frame thrown', () => {
    const { frames } = sideStrip(table(boat('cement')), 6, 'out', 1);
    expect(frames[1]).toMatchObject({
      state: 'thrown',
      words: 'tongue of 7 | 8',
      overlap: { end: 'head' },
    });
  });
  it('where the lap is not known the whole frame is eaten', () => {
    const { frames } = sideStrip(table(boat('weld')), 6, 'out', 1);
    expect(told(frames)[1]).toBe('R2·607 eaten eaten by 7 | 8');
  });
  it('film ends where the roll does', () => {
    const cut = version([shot('1-T1', 'R1', 1, 9), shot('1-T2', 'R1', 3590, 3600)]);
    expect(sideStrip(table(cut), -1, 'in', 3)).toMatchObject({ cut: 1 });
    expect(sideStrip(table(cut), 1, 'out', 3).frames).toHaveLength(3);
  });
  it('frames that a roll does not have are drawn as missing', () => {
    const cut = version([shot('1-T1', 'R1', 3590, 3602)]);
    const { frames } = sideStrip(table(cut), 0, 'out', 2);
    expect(told(frames)).toEqual([
      'R1·3600 missing not on the roll',
      'R1·3601 missing not on the roll',
    ]);
  });
  it('a frame without a picture is hatched, kept or thrown', () => {
    const gone = table(boat(), { isMissing: (_, frame) => frame === 606 });
    expect(told(sideStrip(gone, 6, 'out', 1).frames)[0]).toBe('R2·606 missing last kept');
  });
  it('rings one frame, that nearest to the line', () => {
    const cut = version([shot('1-T1', 'R1', 10, 20), shot('1-T1', 'R1', 10, 20)]);
    const ringed = sideStrip(table(cut), 0, 'out', 4).frames.filter((frame) => frame.ringed);
    expect(ringed.map((frame) => frame.name)).toEqual(['R1·19']);
  });
  it('leader has no frames beyond its end', () => {
    const cut = version([{ kind: 'leader', frames: 2 }, shot('1-T1', 'R1', 10, 20)]);
    expect(sideStrip(table(cut), 0, 'out', 4)).toMatchObject({ cut: 2 });
    expect(sideStrip(table(cut), 0, 'out', 4).frames).toHaveLength(2);
  });
});

describe('as joined', () => {
  it('runs from the last kept into the first kept', () => {
    const strip = joinedStrip(table(boat('cement')), 6, 2);
    expect(told(strip.frames)).toEqual([
      'R2·605 kept',
      'R2·606 scar last kept',
      'R1·2996 kept first kept',
      'R1·2997 kept',
    ]);
    expect(strip.frames[2]?.overlap?.words).toBe('tongue of 7 | 8');
  });
  it('sees the next join where a piece is short', () => {
    const cut = version([
      shot('1-T1', 'R1', 10, 20),
      shot('2-T1', 'R1', 30, 31),
      shot('3-T1', 'R1', 40, 50),
    ]);
    const strip = joinedStrip(table(cut), 0, 3);
    expect(told(strip.frames).map((one) => one.split(' ')[0])).toEqual([
      'R1·17',
      'R1·18',
      'R1·19',
      'R1·30',
      'R1·40',
      'R1·41',
    ]);
    expect(strip.breaks).toEqual([{ before: 4, words: 'join' }]);
  });
});

it('laid over, each kept frame has the other strip half through it', () => {
  const strip = laidOverStrip(table(boat()), 6, 1);
  expect(strip.frames.map(({ name, picture, over }) => [name, picture, over])).toEqual([
    ['R2·606', 'R2/606', 'R1/2995'],
    ['R1·2996', 'R1/2996', 'R2/607'],
  ]);
});
