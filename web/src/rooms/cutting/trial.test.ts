import { describe, expect, it } from 'vitest';
import { boat, shot, version } from './boat_v1';
import { formOf } from './pieces';
import {
  changeOf,
  edgeFrame,
  NOTHING_ON_TRIAL,
  tried,
  trialOn,
  trimmedTo,
  withPiece,
} from './trial';

const cut = boat();
const eight = formOf(cut.pieces[7] ?? shot('', '', 0, 1));
const startAt = (frame: number) => trimmedTo(eight, 'in', frame, 3600) ?? eight;
const short = withPiece(NOTHING_ON_TRIAL, cut, 7, startAt(2939));

describe('an end of a piece', () => {
  it('is the last kept frame going out, the first coming in', () => {
    const seven = cut.pieces[6];
    expect(seven && edgeFrame(seven, 'out')).toBe(606);
    expect(seven && edgeFrame(seven, 'in')).toBe(547);
  });
  it('can be moved, and the piece keeps at least one frame', () => {
    expect(startAt(2939)).toMatchObject({ in: 2939, out: 3122 });
    expect(startAt(9999)).toMatchObject({ in: 3121, out: 3122 });
    expect(trimmedTo(eight, 'out', 0, 3600)).toMatchObject({ in: 2996, out: 2997 });
  });
  it('stops at the ends of the roll', () => {
    expect(startAt(-5)).toMatchObject({ in: 0 });
    expect(trimmedTo(eight, 'out', 5000, 3600)).toMatchObject({ out: 3600 });
  });
  it('of leader there is none', () => {
    expect(trimmedTo({ kind: 'leader', frames: 10 }, 'in', 4, 3600)).toBeNull();
  });
});

describe('a trial', () => {
  it('shows lengths and places at once', () => {
    const now = tried(cut, short);
    expect(now.pieces[7]).toMatchObject({ in: 2939, frames: 183, starts_at: 816 });
    expect(now.pieces[8]?.starts_at).toBe(816 + 183);
    expect(now.frames).toBe(cut.frames + 57);
    expect(now.on_trial).toBe(true);
    expect(cut.pieces[7]?.in).toBe(2996);
  });
  it('sees where the film now runs on', () => {
    const two = version([shot('1-T1', 'R1', 10, 20), shot('1-T1', 'R1', 25, 30)]);
    const trial = withPiece(NOTHING_ON_TRIAL, two, 1, shot('1-T1', 'R1', 20, 30));
    expect(two.pieces[0]?.runs_on).toBe(false);
    expect(tried(two, trial).pieces[0]?.runs_on).toBe(true);
  });
  it('is off again when the piece stands as it stood', () => {
    expect(withPiece(short, cut, 7, eight).size).toBe(0);
  });
  it('is kept as one change, in the order of the sheet, with what is done beside it', () => {
    const both = withPiece(short, cut, 6, shot('3B-T2', 'R2', 547, 608, 'the rope comes off'));
    const change = changeOf(both, [{ change: 'remove', at: 8 }]);
    if (change?.change !== 'all') throw new Error('several changes are one');
    expect(change.changes.map((one) => one.change)).toEqual(['replace', 'replace', 'remove']);
    expect(changeOf(short)).toMatchObject({ change: 'replace', at: 7 });
    expect(changeOf(NOTHING_ON_TRIAL)).toBeNull();
  });
});

describe('a trial on a version that was changed meanwhile', () => {
  const forms = cut.pieces.map(formOf);
  it('finds its piece again where others were lifted before it', () => {
    const lifted = version(forms.filter((_, at) => at !== 4));
    expect([...(trialOn(short, cut, lifted)?.keys() ?? [])]).toEqual([6]);
  });
  it('finds it where it was trimmed there too', () => {
    const trimmed = version(forms.map((form, at) => (at === 7 ? { ...form, in: 2990 } : form)));
    expect([...(trialOn(short, cut, trimmed)?.keys() ?? [])]).toEqual([7]);
  });
  it('has no place where its piece is gone', () => {
    expect(trialOn(short, cut, version(forms.filter((_, at) => at !== 7)))).toBeNull();
  });
});
