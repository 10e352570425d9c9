// Edits in the Cutting room on a version of three hundred pieces, by keys: how
// long from the key to the frame that shows the program's answer.
import { setTimeout as rest } from 'node:timers/promises';
import type { Browser, Page } from 'playwright-core';
import { Figures, time } from './figures';
import type { Line } from './line';
import { LARGE } from './shelf';
import type { Sign, Timed } from './stopwatch';
import { Table, verdict } from './table';
import { traced } from './trace';
import { openWindow, timeKey, until } from './window';

/** Times that each key is measured, and once more with a trace, which takes time itself. */
const TIMES = 60;
const TRACED = 20;
/** From key to frame. Source: issue 3. Unit: milliseconds. */
const LIMIT = 50;
/** Between two keys, so that one does not wait for what the other left behind. Unit: milliseconds. */
const PAUSE = 150;

export const GRID = '[role=grid][aria-label="Pieces in their order"]';
/** The check's own words, which change only with the program's answer. */
const SLIP = 'section[aria-label="The join"] section.slip';
const CHOSEN = `${GRID} [role=row][aria-selected=true]`;

/** The cell that names the take and its frames, of the piece at a place counted from 0. */
const filmAt = (place: number) =>
  `${GRID} [role=row][aria-rowindex="${place + 2}"] [role=gridcell]:nth-child(3)`;
/** That so many pieces lie on the sheet; its heading is a row too. */
export const pieces = (count: number): Sign => ({
  at: GRID,
  named: 'aria-rowcount',
  is: String(count + 1),
});
const chosen = (place: number): Sign => ({
  at: CHOSEN,
  named: 'aria-rowindex',
  is: String(place + 2),
});

const KEYS = [
  ['Tab', 'next join, Tab'],
  ['ArrowDown', 'nudge a frame, ↓, and check'],
  ['Enter', 'keep, Enter'],
  ['Control+ArrowDown', 'move one down, Ctrl ↓'],
  ['Delete', 'lift, Delete'],
  ['Control+z', 'take back, Ctrl Z'],
] as const;
type Key = (typeof KEYS)[number][0];

/** Each press in its order. */
type Presses = { readonly key: Key; readonly timed: Timed }[];

export async function edit(browser: Browser, line: Line): Promise<Table> {
  const page = await openWindow(browser, line);
  const first = 100;
  await page.goto(`/film/${LARGE.film}/cutting?cut=${LARGE.cut}&join=${first}`);
  await until(page, [pieces(LARGE.pieces), chosen(first)]);
  await rest(1000);
  const [presses, seen]: [Presses, Presses] = [[], []];
  for (let turn = 1; turn <= TIMES; turn += 1) await editOnce(page, first + turn, presses);
  const trace = await traced(browser, page, async () => {
    for (let turn = 1; turn <= TRACED; turn += 1) await editOnce(page, first + TIMES + turn, seen);
  });
  await page.context().close();

  // From the answer in the page on it is the trace that says when it was seen.
  const [marks, shown] = [
    trace.marks('onestrand answer shown'),
    trace.onDisplay('onestrand answer shown'),
  ];
  const display = seen.map(({ key, timed }, at) => ({
    key,
    ms: timed.answered + (shown[at] ?? NaN) - (marks[at] ?? NaN),
  }));
  const table = new Table(['', 'answer there', 'drawn', 'worst', 'on the display', 'limit', '']);
  for (const [key, words] of KEYS) {
    const all = presses.filter((press) => press.key === key).map((press) => press.timed);
    const drawn = new Figures(all.map((one) => one.drawn));
    const seenAt = new Figures(display.filter((one) => one.key === key).map((one) => one.ms));
    const [usual, worst] = [drawn.median, drawn.worst].map((ms) => verdict(ms, LIMIT, time));
    table.row(
      words,
      time(new Figures(all.map((one) => one.answered)).median),
      time(drawn.median),
      time(drawn.worst),
      trace.tells ? time(seenAt.median) : '-',
      time(LIMIT),
      usual === worst ? `${usual}` : `${usual}; worst ${worst}`,
    );
  }
  return table;
}

/** Each key once, from the piece before this place on; the version ends one nudge further. */
async function editOnce(page: Page, place: number, presses: Presses): Promise<void> {
  const says = (at: string) => page.locator(at).innerText();
  const text = async (at: string) => (await page.locator(at).textContent()) ?? '';
  const press = async (key: Key, signs: readonly Sign[]) => {
    presses.push({ key, timed: await timeKey(page, key, signs) });
    await rest(PAUSE);
  };
  await press('Tab', [chosen(place)]);
  if (!(await says(SLIP)).includes('used')) throw new Error('the check does not say its sums');
  await press('ArrowDown', [
    { at: filmAt(place), saysNot: await text(filmAt(place)) },
    { at: SLIP, saysNot: await text(SLIP) },
  ]);
  await press('Enter', [{ at: `${GRID} .trial`, none: true }]);
  const film = await text(filmAt(place));
  await press('Control+ArrowDown', [{ at: filmAt(place + 1), says: film }, chosen(place + 1)]);
  await press('Control+z', [{ at: filmAt(place), says: film }]);
  await press('Delete', [pieces(LARGE.pieces - 1)]);
  await press('Control+z', [pieces(LARGE.pieces), { at: filmAt(place), says: film }]);
}
