// One window of the browser on the program, let in, with the stopwatch laid into it.
import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { type Browser, chromium, type Page } from 'playwright-core';
import type { Line } from './line';
import type { Sign, Timed } from './stopwatch';

/** As in the tests of the page, and no name on earth but this machine. */
const ARGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--host-resolver-rules=MAP * ~NOTFOUND , EXCLUDE 127.0.0.1',
];
const STOPWATCH = fileURLToPath(new URL('stopwatch.js', import.meta.url));
const SIZE = { width: 1440, height: 900 };

/** The browser of the system: CHROMIUM, or `chromium` on the path. */
export function browse(): Promise<Browser> {
  const executablePath =
    process.env['CHROMIUM'] ??
    execFileSync('sh', ['-c', 'command -v chromium'], { encoding: 'utf8' }).trim();
  return chromium.launch({ executablePath, args: ARGS });
}

/** Opens a window that was let in. */
export async function openWindow(browser: Browser, line: Line): Promise<Page> {
  const context = await browser.newContext({ baseURL: line.origin, viewport: SIZE });
  await context.addCookies([line.letIn]);
  await context.addInitScript({ path: STOPWATCH });
  return context.newPage();
}

/** Waits until the page shows all of these. */
export async function until(page: Page, signs: readonly Sign[]): Promise<void> {
  await page.waitForFunction((signs) => window.stopwatch.shows(signs), signs, { polling: 100 });
}

/** Presses a key and gives the time until the page shows the answer. */
export async function timeKey(page: Page, key: string, signs: readonly Sign[]): Promise<Timed> {
  await page.evaluate((signs) => window.stopwatch.wind('keydown', signs), signs);
  await page.keyboard.press(key);
  return page.evaluate(() => window.stopwatch.time());
}

/** Clicks on something and gives the time until the page shows what is meant. */
export async function timeClick(page: Page, on: string, signs: readonly Sign[]): Promise<Timed> {
  await page.evaluate((signs) => window.stopwatch.wind('click', signs), signs);
  await page.locator(on).click();
  return page.evaluate(() => window.stopwatch.time());
}
