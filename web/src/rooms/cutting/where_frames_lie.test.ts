import { describe, expect, it } from 'vitest';
import { boat, boatOneFrameShort, shot, version } from './boat_v1';
import { FramesLie } from './where_frames_lie';

const said = (lies: FramesLie, roll: string, frame: number) =>
  lies.of(roll, frame).map((want) => lies.words(want));

describe('with tape', () => {
  const lies = new FramesLie(boat());
  it('a frame lies in the piece that shows it, and in no other', () => {
    expect(said(lies, 'R1', 2938)).toEqual(['in shot 6']);
    expect(said(lies, 'R2', 547)).toEqual(['in shot 7']);
  });
  it('a frame outside of all pieces lies nowhere', () => {
    expect(said(lies, 'R1', 2939)).toEqual([]);
    expect(said(lies, 'R9', 1)).toEqual([]);
  });
});

describe('with cement', () => {
  it('the join eats the frame behind the piece before it', () => {
    const lies = new FramesLie(boat('cement'));
    expect(said(lies, 'R1', 2939)).toEqual(['tongue of 6 | 7']);
    expect(said(lies, 'R1', 2940)).toEqual([]);
  });
  it('the same frame may be wanted twice', () => {
    const lies = new FramesLie(boatOneFrameShort());
    expect(said(lies, 'R1', 2939).sort()).toEqual(['in shot 8', 'tongue of 6 | 7']);
  });
  it('the tail leader has a join too', () => {
    expect(said(new FramesLie(boat('cement')), 'R2', 1640)).toEqual(['tongue of 12 | tail leader']);
  });
});

describe('a weld eats on both sides', () => {
  const lies = new FramesLie(
    version([shot('1-T1', 'R1', 10, 20), shot('2-T1', 'R2', 10, 20)], 'weld'),
  );
  it('before the incoming piece and behind the outgoing', () => {
    expect(said(lies, 'R1', 20)).toEqual(['eaten by 1 | 2']);
    expect(said(lies, 'R2', 9)).toEqual(['eaten by 1 | 2']);
    expect(said(lies, 'R1', 9)).toEqual(['eaten by head leader | 1']);
  });
});

it('where the film runs on there is no join, and nothing is eaten', () => {
  const cut = version([shot('1-T1', 'R1', 10, 20), shot('1-T1', 'R1', 20, 30)], 'cement');
  expect(said(new FramesLie(cut), 'R1', 20)).toEqual(['in shot 2']);
});

it('a join of its own eats as it says, not as the usual one', () => {
  const own = { ...shot('3-T2', 'R1', 2813, 2939), join: 'tape' };
  const cut = version([own, shot('3B-T2', 'R2', 547, 607)], 'cement');
  expect(said(new FramesLie(cut), 'R1', 2939)).toEqual([]);
});
