// @vitest-environment node
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { Refused } from '$lib/api/server';
import { PretendTitlesDesk } from './pretend_titles_desk';
import { PAUSE, TitlesRoom } from './titles_room.svelte';

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

async function opened() {
  const desk = new PretendTitlesDesk();
  const room = new TitlesRoom(desk);
  await room.load();
  await vi.advanceTimersByTimeAsync(10);
  return { desk, room };
}
const STALE = { code: 'store.stale', message: 'changed', hint: 'look', details: null };
const wordsOf = (desk: PretendTitlesDesk) =>
  desk.changes.flatMap(({ change: { to } }) => (to.what === 'title' ? [to.title.words] : []));

it('opens with the first title and looks at its card', async () => {
  const { room } = await opened();
  // Story 10: 12 words stand 126 frames, 36 before and 18 after.
  expect([room.draft?.name, room.look.card?.hold, room.look.card?.frames]).toEqual(['M', 126, 180]);
  expect(room.look.picture).toMatch(/^data:/);
});

it('keeps what is typed when the hand rests, once, and looks at it sooner', async () => {
  const { desk, room } = await opened();
  for (const words of ['The', 'The End', 'The End.']) room.write({ words });
  await vi.advanceTimersByTimeAsync(PAUSE / 2);
  expect([room.look.card?.words, desk.changes.length]).toEqual([2, 0]);
  await vi.advanceTimersByTimeAsync(PAUSE);
  expect(wordsOf(desk)).toEqual(['The End.']);
  await vi.advanceTimersByTimeAsync(5 * PAUSE);
  expect(desk.changes.length).toBe(1);
});

it('keeps what is typed before another title is chosen', async () => {
  const { desk, room } = await opened();
  room.write({ words: 'half' });
  await room.step(1);
  expect([wordsOf(desk), room.draft?.name]).toEqual([['half'], 'T1']);
  expect(desk.changes[0]?.change.id).toBe(1);
});

it('writes on while a change is on its way, and keeps the rest after it', async () => {
  const { desk, room } = await opened();
  room.write({ words: 'one' });
  const first = room.keep();
  room.write({ words: 'one two' });
  await first;
  expect(room.draft?.words).toBe('one two');
  await vi.advanceTimersByTimeAsync(2 * PAUSE);
  expect(wordsOf(desk)).toEqual(['one', 'one two']);
  // The second builds on what the first has led to.
  expect(desk.changes[1]?.seen).toBe((desk.changes[0]?.seen ?? 0) + 1);
});

it('takes over what another window or an undo has led to, but not over what is written', async () => {
  const { desk, room } = await opened();
  const other = (words: string) => {
    const title = desk.titles.titles[0];
    if (title) title.title = { ...title.title, words };
    desk.titles.revision += 1;
    return room.load();
  };
  await other('theirs');
  expect(room.draft?.words).toBe('theirs');
  room.write({ words: 'mine' });
  await other('theirs again');
  expect(room.draft?.words).toBe('mine');

  desk.refuse = new Refused(STALE, 409);
  await room.keep();
  expect([room.overtaken, room.draft?.words]).toEqual([true, 'mine']);
  desk.refuse = null;
  await vi.advanceTimersByTimeAsync(3 * PAUSE);
  expect(desk.changes).toEqual([]);
  await room.keepMine();
  expect([room.overtaken, wordsOf(desk)]).toEqual([false, ['mine']]);
  expect(desk.changes[0]?.seen).toBe(desk.titles.revision - 1);
});

it('puts back what stood there when a change is refused', async () => {
  const { desk, room } = await opened();
  desk.refuse = new Refused({ ...STALE, code: 'production.unfit' }, 422);
  expect(await room.put({ name: 'E' })).toBe(false);
  expect([room.draft?.name, room.refused?.code]).toEqual(['E', 'production.unfit']);
  desk.refuse = null;
  await room.putBack();
  expect([room.draft?.name, room.refused]).toEqual(['M', null]);
});

it('adds behind the chosen one, moves, and takes out', async () => {
  const { desk, room } = await opened();
  const names = () => room.titles?.titles.map((one) => one.title.name).join(' ');
  await room.add({ words: 'Later' });
  expect([names(), room.draft?.words]).toEqual(['M T4 T1 E', 'Later']);
  await room.add({ name: 'N', words: 'First of all' }, 'main');
  expect([names(), room.place]).toEqual(['N M T4 T1 E', 0]);
  expect(await room.move(-1)).toBe(false);
  expect(await room.move(1)).toBe(true);
  expect([names(), room.draft?.name]).toEqual(['M N T4 T1 E', 'N']);
  await room.remove();
  // The one that stands in its place now is chosen.
  expect([names(), room.draft?.name]).toEqual(['M T4 T1 E', 'T4']);
  expect(desk.changes.at(-1)?.change.to.what).toBe('gone');
});

it('lets the card in the cut stand as long as the sheet, and lays a title in', async () => {
  const { desk, room } = await opened();
  await room.choose(3);
  await room.agree('v1', 23);
  await room.layInto('v2');
  await room.choose(1);
  await room.layInto('v2');
  expect(desk.cutChanges).toEqual(['v1 23 81', 'v2 tail E 81', 'v2 head M 180']);
});

it('goes to the next title of which something is asked', async () => {
  const { room } = await opened();
  expect(room.nextQuestion()).toBe(true);
  await vi.advanceTimersByTimeAsync(1);
  expect([room.draft?.name, room.nextQuestion()]).toEqual(['E', false]);
});

it('draws the words in each design, again when they change and the hand lies still', async () => {
  const { desk, room } = await opened();
  const designs = room.titles?.designs ?? [];
  const before = desk.drawings;
  if (room.draft) room.look.inEach(room.draft, designs);
  await vi.advanceTimersByTimeAsync(1);
  expect([room.look.small.size, desk.drawings - before]).toEqual([8, 8]);
  if (room.draft) room.look.inEach({ ...room.draft, note: 'another note' }, designs);
  await vi.advanceTimersByTimeAsync(2000);
  expect(desk.drawings - before).toBe(8);
});
