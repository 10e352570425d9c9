// A question is left so, with a note beside or without; the note is changed, and it
// is asked again.
import { fireEvent, render, screen, waitFor } from '@testing-library/svelte';
import { beforeEach, expect, it, vi } from 'vitest';
import { boat, film } from './boat_v1';
import { CuttingRoom } from './cutting.svelte';
import { PretendDesk } from './pretend_desk.svelte';
import StrandSlip from './StrandSlip.svelte';

const KEY = 'jump||R2·1495|R2·1532';
const QUESTION = {
  kind: 'jump',
  positions: [10, 11],
  text: '4-T2 is joined to itself: is the hop meant?',
  key: KEY,
};

let desk: PretendDesk;
let room: CuttingRoom;
const ondone = vi.fn();

/** The slip at the join of 10 and 11, where the hop is asked about or answered. */
async function slip(note: string | null = null) {
  const cut = boat();
  const one = { ...QUESTION, note };
  const check = { ...cut.check, questions: note === null ? [one] : [] };
  const answered = note === null ? [] : [one];
  desk.cuts = new Map([['v1', { ...cut, check: { ...check, answered } }]]);
  await room.open('v1');
  room.chooseJoin(9, 'in');
  render(StrandSlip, {
    room,
    film: desk.film ?? film([]),
    narrow: false,
    onwent: vi.fn(),
    onlayin: vi.fn(),
    ondone,
  });
}
const button = (name: string) => screen.getByRole('button', { name });
const press = (name: string) => fireEvent.click(button(name));
const line = () => screen.getByRole<HTMLInputElement>('textbox', { name: 'why it is meant so' });
const write = (words: string) => fireEvent.input(line(), { target: { value: words } });
const changes = () => desk.sent.map((one) => one.change);

beforeEach(() => {
  desk = new PretendDesk();
  room = new CuttingRoom(desk);
  ondone.mockClear();
});

it('without a note with one press', async () => {
  await slip();
  await press('Leave it so');
  expect(changes()).toEqual([{ film_change: 'answer_question', key: KEY, note: '' }]);
  await waitFor(() => expect(button('Write why')).toBeTruthy());
  expect(screen.getByText('left so')).toBeTruthy();
  expect(ondone).toHaveBeenCalledOnce();
});

it('with a note, which stands beside it', async () => {
  await slip();
  await press('Write why');
  await waitFor(() => expect(document.activeElement).toBe(line()));
  await write('  a breath before she turns ');
  const form = line().closest('form');
  if (!form) throw new Error('there is a form');
  await fireEvent.submit(form);
  const note = 'a breath before she turns';
  expect(changes()).toEqual([{ film_change: 'answer_question', key: KEY, note }]);
  await waitFor(() => expect(screen.getByText(note)).toBeTruthy());
  expect(screen.queryByRole('textbox')).toBeNull();
});

it('the note is changed, and put back with Esc', async () => {
  await slip('a breath');
  await press('Change the note');
  expect(line().value).toBe('a breath');
  await write('nothing of the kind');
  await fireEvent.keyDown(line(), { key: 'Escape' });
  expect(screen.getByText('a breath')).toBeTruthy();
  expect(changes()).toEqual([]);

  await press('Change the note');
  await write('two breaths');
  await press('Keep the note');
  await waitFor(() => expect(screen.getByText('two breaths')).toBeTruthy());
  expect(changes()).toHaveLength(1);
});

it('is asked again', async () => {
  await slip('a breath');
  await press('Ask again');
  expect(changes()).toEqual([{ film_change: 'ask_again', key: KEY }]);
  await waitFor(() => expect(button('Leave it so')).toBeTruthy());
  expect(screen.queryByText('a breath')).toBeNull();
});

it('what was written is still there when it was refused', async () => {
  await slip();
  vi.spyOn(desk, 'change').mockRejectedValueOnce(new Error('the program does not answer'));
  await press('Write why');
  await write('a long reason');
  await press('Leave it so');
  await waitFor(() => expect(screen.getByText('This was not done.')).toBeTruthy());
  await press('Go on');
  expect(line().value).toBe('a long reason');
});
