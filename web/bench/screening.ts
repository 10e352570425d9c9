// A minute of film in the Screening room: what the page says became of its
// frames, and what the browser's own trace says.
import { setTimeout as rest } from 'node:timers/promises';
import type { Browser, Page } from 'playwright-core';
import { counted, Figures, time } from './figures';
import type { Line } from './line';
import type { Drawing } from './stopwatch';
import { Table } from './table';
import { type Trace, traced } from './trace';
import { openWindow, until } from './window';

/** Unit: seconds. */
const MINUTE = 60;
/** The screen is drawn so often. Unit: milliseconds. */
const REFRESH = 1000 / 60;
/** What may be dropped at a speed: one of a hundred at 24 f/s, none at 18. Source: issue 3. */
const MAY_DROP: Readonly<Record<number, number>> = { 24: 0.01, 18: 0 };

interface Said {
  readonly shown: number;
  readonly dropped: number;
  readonly doubled: number;
  readonly halted: string;
}

/** Reads the page's own count: "1,438 shown, 2 dropped, 1 held too long". */
function read(said: string): Said {
  const figure = (words: string) =>
    Number((new RegExp(`([\\d,]+) ${words}`).exec(said)?.[1] ?? '0').replaceAll(',', ''));
  if (!/\d shown/.test(said)) throw new Error(`the page says no count: ${said}`);
  return {
    shown: figure('shown'),
    dropped: figure('dropped'),
    doubled: figure('held too long'),
    halted: /halted .*/.exec(said)?.[0] ?? 'none',
  };
}

async function runToTheEnd(page: Page): Promise<string> {
  await page.keyboard.press('Space');
  // Nothing is asked of the page while the film runs.
  await rest(MINUTE * 1000 + 1500);
  const again = page.getByRole('button', { name: /^Run at/ });
  await again.waitFor({ state: 'visible', timeout: 60_000 });
  return page.getByRole('status').filter({ hasText: 'shown' }).innerText();
}

/** Screens one minute of a film and prints what became of it. */
export async function screen(
  browser: Browser,
  line: Line,
  film: string,
  speed: number,
): Promise<Table> {
  const page = await openWindow(browser, line);
  await page.goto(`/film/${film}/screening?cut=v1`);
  await until(page, [{ drawn: 1 }]);
  await rest(1000);
  await page.evaluate(() => window.stopwatch.countDrawings());
  let said = '';
  const trace = await traced(browser, page, async () => {
    said = await runToTheEnd(page);
  });
  const drawings = await page.evaluate(() => window.stopwatch.drawings());
  await page.context().close();
  return tableOf(speed, read(said), drawings, trace);
}

function tableOf(speed: number, said: Said, drawings: readonly Drawing[], trace: Trace): Table {
  const frames = speed * MINUTE;
  const most = Math.floor(frames * (MAY_DROP[speed] ?? 0));
  const table = new Table();
  table.told(`frames of the film, at ${speed} f/s`, counted(frames));
  table.told('shown, as the page says', counted(said.shown));
  table.limited('dropped, as the page says', said.dropped, most, counted);
  table.told('held too long, as the page says', counted(said.doubled));
  table.told('halts, as the page says', said.halted);
  // The picture in the gate stood there before the run and is not drawn again.
  const pictures = new Set(drawings.map((one) => one.picture)).size + 1;
  table.told('pictures drawn on the canvas', counted(pictures));
  if (!trace.tells) {
    table.told('pictures on the display', 'not counted', 'this browser traces otherwise');
    return table;
  }
  const seen = trace.onDisplay('onestrand picture drawn').filter((at) => at !== null);
  const stood = seen.slice(1).map((at, place) => at - (seen[place] ?? at));
  // A frame stands for whole refreshes of the screen; one more than it needs is too long.
  const long = (Math.ceil(1000 / speed / REFRESH) + 0.5) * REFRESH;
  table.told('pictures on the display, by the trace', counted(seen.length + 1));
  table.limited('never on the display, by the trace', frames - seen.length - 1, most, counted);
  table.told('stood too long, by the trace', counted(stood.filter((ms) => ms > long).length));
  table.told('the longest stood, by the trace', time(new Figures(stood).worst));
  return table;
}
