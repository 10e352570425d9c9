// How long a room takes to open on the film of twenty rolls: from the click on
// its tab to the first frame with what one comes for.
import { setTimeout as rest } from 'node:timers/promises';
import type { Browser, Page } from 'playwright-core';
import { GRID, pieces } from './cutting';
import { Figures, time } from './figures';
import type { Line } from './line';
import { LARGE } from './shelf';
import type { Sign } from './stopwatch';
import { Table, verdict } from './table';
import { openWindow, timeClick, until } from './window';

const TIMES = 10;
/** Source: issue 3. Unit: milliseconds. */
const LIMIT = 300;

interface Room {
  readonly tab: string;
  readonly address: string;
  /** The room that has asked for least of what this one shows. */
  readonly from: string;
  readonly what: string;
  readonly signs: readonly Sign[];
}

const ROOMS: readonly Room[] = [
  {
    tab: 'Rolls',
    address: 'rolls',
    from: 'screening',
    what: `${LARGE.rolls} cans, ${LARGE.takes} takes hanging, the card`,
    signs: [
      { at: 'nav[aria-label="Rolls"] li', least: LARGE.rolls },
      { at: 'ol[aria-label^="Takes of"] > li', least: LARGE.takes },
    ],
  },
  {
    tab: 'Cutting',
    address: 'cutting',
    from: 'rolls',
    what: 'rows of the sheet, the join and what the check says',
    signs: [
      pieces(LARGE.pieces),
      { at: `${GRID} [role=rowgroup] [role=row]`, least: 6 },
      { at: 'section[aria-label="The join"] section.slip', least: 1 },
    ],
  },
  {
    tab: 'Screening',
    address: 'screening',
    from: 'rolls',
    what: 'the first picture on the screen',
    signs: [{ drawn: 1 }],
  },
];

const tabOf = (room: Room) => `nav[aria-label="Rooms"] >> text="${room.tab}"`;

function roomAt(address: string): Room {
  const found = ROOMS.find((room) => room.address === address);
  if (!found) throw new Error(`there is no room at ${address}`);
  return found;
}

async function arrive(page: Page, room: Room): Promise<void> {
  await page.goto(`/film/${LARGE.film}/${room.address}`);
  await until(page, room.signs);
  await rest(700);
}

export async function open(browser: Browser, line: Line): Promise<Table> {
  const page = await openWindow(browser, line);
  const table = new Table(['', 'first time', 'again', 'worst', 'limit', '']);
  for (const room of ROOMS) {
    const other = roomAt(room.from);
    const [first, again]: [number[], number[]] = [[], []];
    for (let turn = 0; turn < TIMES; turn += 1) {
      // Loaded anew, the page knows nothing of this room.
      await arrive(page, other);
      first.push((await timeClick(page, tabOf(room), room.signs)).drawn);
      await rest(700);
      await page.locator(tabOf(other)).click();
      await rest(700);
      again.push((await timeClick(page, tabOf(room), room.signs)).drawn);
    }
    const median = new Figures(first).median;
    table.row(
      room.tab,
      time(median),
      time(new Figures(again).median),
      time(new Figures([...first, ...again]).worst),
      time(LIMIT),
      verdict(median, LIMIT, time),
    );
  }
  await page.context().close();
  return table;
}

/** What counts as open, in words. */
export const WHAT = ROOMS.map((room) => `${room.tab}: ${room.what}`).join('; ');
