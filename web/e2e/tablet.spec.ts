// A tablet beside the splicer: the main machine opens the door, another browser comes in
// by the code at its own port, ticks in its own name, sleeps and loses nothing, and is
// told when it is sent away.

import type { Browser, Page } from '@playwright/test';
import { expect, FILM, test } from './film_test';

test.use({ onShelf: 'cut' });
// Every program tries the same port for its door first: with another program's door on it, a
// door that is shut here would seem open. No other file opens one.
test.describe.configure({ mode: 'default' });

const BENCH = `${FILM}/bench`;
/** The least size of what a glove touches. Unit: px. */
const GLOVE = 56;

const act = (page: Page) => page.getByRole('region', { name: 'The next act' });
const title = (page: Page) => act(page).getByRole('heading', { level: 2 });
const tick = (page: Page) => page.locator('.buttons .tick');
const sheet = (page: Page) => page.getByRole('dialog', { name: 'A tablet beside the splicer' });

async function begin(page: Page): Promise<void> {
  await page.goto(BENCH);
  await page.getByRole('button', { name: 'Begin v1' }).click();
  await expect(title(page)).toBeVisible();
}

/** Opens the door on the main machine; gives address and code as they stand there. */
async function letIn(page: Page): Promise<{ address: string; code: string }> {
  await page.getByRole('button', { name: 'Tablet' }).click();
  await sheet(page)
    .getByRole('button', { name: /^(Let a tablet in|Another code)$/ })
    .click();
  const plate = sheet(page).locator('.plate');
  await expect(plate).toHaveText(/^\d{4} \d{4}$/);
  const address = await sheet(page).locator('.address').textContent();
  return { address: address ?? '', code: (await plate.textContent()) ?? '' };
}

/** Another browser, in which the page has what it has over plain http and no more. */
async function tabletOf(browser: Browser, width = 1280, height = 800): Promise<Page> {
  const context = await browser.newContext({ viewport: { width, height }, hasTouch: true });
  await context.addInitScript(() => {
    Object.defineProperty(navigator, 'wakeLock', { value: undefined });
    Object.defineProperty(crypto, 'randomUUID', { value: undefined });
    Object.defineProperty(window, 'isSecureContext', { value: false });
  });
  return context.newPage();
}

async function comeIn(tablet: Page, at: { address: string; code: string }): Promise<void> {
  await tablet.goto(at.address);
  await tablet.getByRole('textbox', { name: 'code' }).fill(at.code);
  await tablet.getByRole('textbox', { name: /what this tablet is called/ }).fill('blue tablet');
  await tablet.getByRole('button', { name: 'Come in' }).click();
  await expect(title(tablet)).toBeVisible();
}

async function lines(page: Page): Promise<{ by: string; kind: string }[]> {
  const answer = await page.request.get('/api/films/boat/bench');
  const found = (await answer.json()) as {
    on_the_bench: { done_lines: { by: string; kind: string }[] };
  };
  return found.on_the_bench.done_lines;
}

test('it comes in by the code, ticks in its name, and is sent away', async ({ page, browser }) => {
  await begin(page);
  const at = await letIn(page);
  await expect(sheet(page)).toContainText('not encrypted');
  const tablet = await tabletOf(browser);
  await comeIn(tablet, at);
  await expect(sheet(page)).toContainText('blue tablet');
  await expect(tablet.getByText('This tablet may fall asleep.')).toBeVisible();
  await expect(tablet.getByRole('button', { name: 'One back' })).toHaveCount(0);

  const before = (await act(page).textContent()) ?? '';
  await expect(act(tablet)).toHaveText(/Put R1 on/);
  await tick(tablet).click();
  // The main page hears of it by itself.
  await expect(act(page)).not.toHaveText(before);
  await page.keyboard.press('Escape');
  await page.getByRole('button', { name: 'Log' }).click();
  const log = page.getByRole('dialog', { name: /^What was done/ });
  await expect(log).toContainText('by blue tablet');
  await page.keyboard.press('Escape');

  // And the tablet hears of what is ticked on the main machine.
  const shown = (await act(tablet).textContent()) ?? '';
  await tick(page).click();
  await expect(act(tablet)).not.toHaveText(shown);

  await page.getByRole('button', { name: /^Tablet/ }).click();
  await sheet(page).getByRole('button', { name: 'Send away blue tablet' }).click();
  await expect(tablet.getByText('This tablet is no longer let in.')).toBeVisible();
  await expect(sheet(page)).not.toContainText('blue tablet');
  await tablet.context().close();
});

test('a code opens once, and the camera’s address has it', async ({ page, browser }) => {
  await begin(page);
  const at = await letIn(page);
  const first = await tabletOf(browser);
  await first.goto(`${at.address}#code=${at.code.replace(' ', '')}`);
  await expect(first.getByRole('textbox', { name: 'code' })).toHaveValue(at.code.replace(' ', ''));
  expect(first.url()).not.toContain(at.code.replace(' ', ''));
  await first.getByRole('button', { name: 'Come in' }).click();
  await expect(title(first)).toBeVisible();
  await expect(sheet(page).locator('.plate')).toHaveCount(0);

  const second = await tabletOf(browser);
  await second.goto(at.address);
  await second.getByRole('textbox', { name: 'code' }).fill(at.code);
  await second.getByRole('button', { name: 'Come in' }).click();
  await expect(second.getByRole('alert').filter({ hasText: 'does not open' })).toBeVisible();
  await Promise.all([first, second].map((one) => one.context().close()));
});

test('asleep it loses nothing, and nothing is ticked twice', async ({ page, browser }) => {
  await begin(page);
  const tablet = await tabletOf(browser);
  await comeIn(tablet, await letIn(page));
  const first = (await act(tablet).textContent()) ?? '';

  // The tick is written down and its answer is lost.
  let reached = 0;
  await tablet.route('**/api/bench/tablet/writes', async (route) => {
    reached += 1;
    if (reached > 1) return route.continue();
    await route.fetch();
    await route.abort();
  });
  await tick(tablet).click();
  await expect(act(tablet)).not.toHaveText(first);
  await expect.poll(() => reached).toBeGreaterThan(1);
  await expect.poll(() => tablet.evaluate(() => localStorage.length)).toBe(0);
  expect((await lines(page)).filter((line) => line.kind === 'deed')).toHaveLength(1);

  // Out of reach it goes on, keeps its tick over a new start of its page, and sends it.
  await tablet.route('**/api/**', (route) => route.abort());
  const second = (await act(tablet).textContent()) ?? '';
  await expect(tick(tablet)).toHaveAttribute('aria-disabled', 'false');
  await tick(tablet).click();
  await expect(act(tablet)).not.toHaveText(second);
  await expect(tablet.getByText('Not connected since')).toContainText('1 tick waits');
  await tablet.unroute('**/api/**');
  await tablet.reload();
  await expect
    .poll(async () => (await lines(page)).filter((l) => l.by === 'blue tablet').length)
    .toBe(2);
  await tablet.context().close();
});

test('sent away with a tick unsent, it sends it once it is let in again', async ({
  page,
  browser,
}) => {
  await begin(page);
  const tablet = await tabletOf(browser);
  await comeIn(tablet, await letIn(page));
  await tablet.route('**/api/bench/tablet/writes', (route) => route.abort());
  await tick(tablet).click();
  await sheet(page).getByRole('button', { name: 'Send away blue tablet' }).click();
  await expect(tablet.getByText('One tick waits')).toBeVisible();
  await tablet.unroute('**/api/bench/tablet/writes');
  await sheet(page).getByRole('button', { name: 'Let a tablet in' }).click();
  const plate = sheet(page).locator('.plate');
  await expect(plate).toBeVisible();
  await tablet.getByRole('textbox', { name: 'code' }).fill((await plate.textContent()) ?? '');
  await tablet.getByRole('button', { name: 'Come in' }).click();
  await expect
    .poll(async () => (await lines(page)).map((line) => line.by))
    .toContain('blue tablet');
  await tablet.context().close();
});

test('the door is shut by one press', async ({ page, browser }) => {
  await begin(page);
  const at = await letIn(page);
  const tablet = await tabletOf(browser);
  await comeIn(tablet, at);
  await sheet(page).getByRole('button', { name: 'Shut the door' }).click();
  await expect(tablet.getByText(/Not connected since|no longer let in/)).toBeVisible();
  await expect(fetch(at.address)).rejects.toThrow();
  await tablet.context().close();
});

for (const [width, height] of [
  [1280, 800],
  [800, 1280],
] as const) {
  test(`a glove finds every button at ${width} × ${height}`, async ({ page, browser }) => {
    await begin(page);
    const tablet = await tabletOf(browser, width, height);
    await comeIn(tablet, await letIn(page));
    const fits = async () => {
      const touched = tablet.locator('button:visible, input:visible, textarea:visible, a:visible');
      for (const one of await touched.all()) {
        const box = await one.boundingBox();
        const words = (await one.textContent()) ?? '';
        expect(box?.height, words).toBeGreaterThanOrEqual(GLOVE);
        expect(box?.width, words).toBeGreaterThanOrEqual(GLOVE);
      }
      const wide = await tablet.evaluate(() => document.documentElement.scrollWidth);
      expect(wide).toBeLessThanOrEqual(width);
    };
    await fits();
    await expect(tick(tablet)).toBeInViewport({ ratio: 1 });
    await tablet.getByRole('button', { name: 'I know' }).click();
    // However long an act is, the hand finds the button where it was.
    const place = async () => (await tick(tablet).boundingBox())?.y ?? 0;
    const before = await place();
    for (let turn = 0; turn < 3; turn++) {
      const shown = (await act(tablet).textContent()) ?? '';
      await expect(tick(tablet)).toHaveAttribute('aria-disabled', 'false');
      await tick(tablet).click();
      await expect(act(tablet)).not.toHaveText(shown);
      expect(await place()).toBeCloseTo(before, 0);
    }
    await fits();
    await tablet.getByRole('button', { name: 'Something else happened' }).click();
    await expect(tablet.getByRole('dialog')).toBeVisible();
    await fits();
    await tablet.context().close();
  });
}
