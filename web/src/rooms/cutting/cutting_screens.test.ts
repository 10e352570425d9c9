import { fireEvent, render, screen, waitFor } from '@testing-library/svelte';
import { flushSync } from 'svelte';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import { boat, boatOneFrameShort, film, shot, version } from './boat_v1';
import { CuttingRoom } from './cutting.svelte';
import { CuttingActs } from './cutting_acts';
import CuttingSheet from './CuttingSheet.svelte';
import { FilmPictures } from './film_pictures.svelte';
import { PretendDesk } from './pretend_desk.svelte';
import StrandSlip from './StrandSlip.svelte';

let desk: PretendDesk;
let room: CuttingRoom;
const asked = {
  onopen: vi.fn(),
  onlayin: vi.fn(),
  onanother: vi.fn(),
  oncompare: vi.fn(),
  onchose: vi.fn(),
  onagain: vi.fn(),
};
let acts: CuttingActs;

beforeEach(() => {
  desk = new PretendDesk();
  room = new CuttingRoom(desk);
  acts = new CuttingActs(room, desk, () => undefined);
});

function sheet(slow = false) {
  const pictures = new FilmPictures('the-ten-past-boat', desk);
  return render(CuttingSheet, {
    room,
    film: desk.film ?? film([]),
    pictures,
    slow,
    acts,
    ...asked,
  });
}
const headings = () => screen.getAllByRole('columnheader').map((one) => one.textContent?.trim());

describe('the cutting sheet', () => {
  it('empty, shows the form with its headings, one sentence, and where to begin', async () => {
    sheet();
    expect(headings()).toEqual([
      'no.',
      'first and last kept',
      'take, frames on the roll',
      'fr',
      'starts at',
    ]);
    expect(
      screen.getByText(
        'Bring a take here: choose it in Rolls and press Shift Enter, or lay it in from here.',
      ),
    ).toBeTruthy();
    const begin = vi.spyOn(acts, 'begin').mockResolvedValue(true);
    await fireEvent.click(screen.getByRole('button', { name: 'Begin version v1' }));
    expect(begin).toHaveBeenCalledWith('v1', null);
  });

  it('with a version and no piece, asks for the first take', async () => {
    desk.cuts = new Map([['v1', version([])]]);
    await room.open('v1');
    sheet();
    await fireEvent.click(screen.getByRole('button', { name: 'Lay a take in' }));
    expect(asked.onlayin).toHaveBeenCalledOnce();
  });

  it('on its way, shows nothing at first and then the form with faint lines', () => {
    room.version = 'v2';
    const { unmount } = sheet();
    expect(screen.queryByText('The cutting sheet is on its way.')).toBeNull();
    unmount();
    sheet(true);
    expect(screen.getByText('The cutting sheet is on its way.')).toBeTruthy();
  });

  it('that cannot be read says why, what to do, and offers to try again', async () => {
    room.version = 'v1';
    room.failed = {
      code: 'store.broken',
      message: 'v1 could not be read',
      hint: 'open the film again',
      details: null,
    };
    sheet();
    expect(screen.getByText('V1 could not be read. Open the film again.')).toBeTruthy();
    await fireEvent.click(screen.getByRole('button', { name: 'Try again' }));
    expect(asked.onagain).toHaveBeenCalledOnce();
  });

  it('names each piece, its film, its length and where it starts', async () => {
    await room.open('v1');
    sheet();
    const row = screen.getByRole('row', { name: /3B-T2/ });
    const words = row.textContent?.replace(/\s+/g, ' ') ?? '';
    for (const part of ['7', '3B-T2', 'The rope comes off', 'R2·547 to 606', '60', '10', '36']) {
      expect(words).toContain(part);
    }
  });

  it('shows which frames have no picture, by name', async () => {
    const now = desk.film;
    if (!now) throw new Error('there is a film');
    desk.film = {
      ...now,
      rolls: now.rolls.map((one) => ({ ...one, workprint: one.roll !== 'R2' })),
    };
    await room.open('v1');
    sheet();
    expect(screen.getByRole('img', { name: 'no picture of R2·547' })).toBeTruthy();
    expect(screen.queryByRole('img', { name: 'no picture of R1·402' })).toBeNull();
  });

  it('rings the join that cannot be made, and leaves out the mark where film runs on', async () => {
    desk.cuts = new Map([['v1', boatOneFrameShort()]]);
    await room.open('v1');
    const { unmount } = sheet();
    expect(screen.getAllByText('1 frame short')).toHaveLength(1);
    expect(screen.getByRole('img', { name: 'cement join of 7 | 8' })).toBeTruthy();
    unmount();
    const on = [shot('1-T1', 'R1', 10, 20), shot('1-T1', 'R1', 20, 30), shot('2-T1', 'R2', 1, 9)];
    desk.cuts = new Map([['v1', version(on)]]);
    flushSync();
    sheet();
    expect(screen.queryByRole('img', { name: 'tape join of 1 | 2' })).toBeNull();
    expect(screen.getByRole('img', { name: 'tape join of 2 | 3' })).toBeTruthy();
  });
});

describe('the strand slip', () => {
  const slip = () => {
    const ondone = vi.fn();
    const onwent = vi.fn();
    render(StrandSlip, {
      room,
      film: desk.film ?? film([]),
      narrow: false,
      onwent,
      onlayin: vi.fn(),
      ondone,
    });
    return { ondone, onwent };
  };

  it('mends with one click, and gives the keys back', async () => {
    desk.cuts = new Map([['v1', boatOneFrameShort()]]);
    await room.open('v1');
    room.chooseJoin(6, 'in');
    const { ondone } = slip();
    expect(screen.getByText(/with cement join 6 \| 7 cannot be made/)).toBeTruthy();
    await fireEvent.click(screen.getByRole('button', { name: /Tape at 6 \| 7 eats none/ }));
    await waitFor(() => expect(desk.sent).toHaveLength(1));
    expect(desk.sent[0]?.change).toMatchObject({ cut_change: { at: 5, piece: { join: 'tape' } } });
    expect(ondone).toHaveBeenCalledOnce();
  });

  it('leads to what stops the cut elsewhere', async () => {
    desk.cuts = new Map([['v1', boatOneFrameShort()]]);
    await room.open('v1');
    room.chooseJoin(1, 'in');
    const { onwent } = slip();
    await fireEvent.click(screen.getByRole('button', { name: 'Go to 7 | 8' }));
    expect(onwent).toHaveBeenCalledExactlyOnceWith(6);
  });

  it('proved, gives each roll its sum', async () => {
    const cut = boat();
    const rolls = [{ roll: 'R1', frames: 3600, used: 747, eaten: 7, left: 2846, proved: true }];
    desk.cuts = new Map([['v1', { ...cut, check: { ...cut.check, rolls } }]]);
    await room.open('v1');
    slip();
    expect(screen.getByText('This cut can be made.')).toBeTruthy();
    expect(screen.getByText('747 used + 7 eaten + 2,846 left = 3,600')).toBeTruthy();
  });

  it('another window: both are shown, and mine is kept again with one click', async () => {
    await room.open('v1');
    room.chooseJoin(6, 'in');
    room.nudge(-6);
    desk.changeElsewhere({ change: 'remove', at: 0 });
    room.heed(room.kept);
    slip();
    expect(screen.getByText('Another window has changed this version.')).toBeTruthy();
    expect(screen.getByText('R1·2990 to 3121')).toBeTruthy();
    expect(screen.getByText(/7 is now R1·2996 to 3121/)).toBeTruthy();
    await fireEvent.click(screen.getByRole('button', { name: 'Keep mine again' }));
    await waitFor(() => expect(desk.sent).toHaveLength(1));
    expect(room.kept?.pieces[6]).toMatchObject({ in: 2990 });
  });
});
