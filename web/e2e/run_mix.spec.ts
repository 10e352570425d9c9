// Running the mix beside a projector, with the real program and a clock that the test turns: taps
// at known cuts tell where the film is, wrong ones are refused, a pass goes into the log.

import AxeBuilder from '@axe-core/playwright';
import type { Page } from '@playwright/test';
import { expect, FILM, test } from './film_test';

test.use({ onShelf: 'long cut' });

/** The projector of the test, in frames a second. */
const RUNS_AT = 18.4;

const region = (page: Page, name: string) => page.getByRole('region', { name, exact: true });

interface Dub {
  frames: number;
  pieces: { at: number }[];
}

/** The room with the run open, on a clock that stands until it is turned. */
async function beside(page: Page): Promise<number[]> {
  await page.clock.install();
  await page.goto(`${FILM}/dubbing`);
  const answer = await page.request.get(`/api${FILM.replace('/film/', '/films/')}/dub?cut=v1`);
  const dub = (await answer.json()) as Dub;
  const chart = page.getByRole('group', { name: /^The chart of v1/ });
  await expect(chart).toBeVisible();
  await chart.focus();
  await page.clock.pauseAt(new Date(Date.now() + 3_600_000));
  await page.keyboard.press('F9');
  await expect(region(page, 'Run the mix')).toBeVisible();
  await expect(page.getByText('Not known yet where the film is.')).toBeVisible();
  return dub.pieces.map(({ at }) => at);
}

/** Time goes on until a cut comes; then the space bar, and the program has answered. */
async function tapAt(page: Page, cuts: readonly number[], nth: number): Promise<void> {
  const from = nth === 0 ? 0 : (cuts[nth - 1] ?? 0);
  await page.clock.runFor(Math.round((((cuts[nth] ?? 0) - from) / RUNS_AT) * 1000));
  const answered = page.waitForResponse(
    (one) => one.url().endsWith('/seen') && (one.request().postData() ?? '').includes('"tap"'),
  );
  await page.keyboard.press('Space');
  expect((await answered).ok()).toBe(true);
}

test('taps at known cuts tell where the film is, and the pass goes into the log', async ({
  page,
}) => {
  const cuts = await beside(page);
  const where = region(page, 'Where the film is');
  for (const nth of [0, 1, 2, 3]) await tapAt(page, cuts, nth);
  await expect(where.getByText('4 of 4')).toBeVisible();
  // The straight line through them: the test taps without error.
  await expect(where.getByText(/^18\.40/).first()).toBeVisible();
  // Two seconds on the frame has gone on by itself.
  await page.clock.runFor(2000);
  const frame = Math.floor((cuts[3] ?? 0) + 2 * RUNS_AT);
  const shown = where.getByText(/^frame /);
  await expect(async () => {
    const counted = Number(
      /frame ([\d,]+)/.exec((await shown.textContent()) ?? '')?.[1]?.replace(',', ''),
    );
    expect(Math.abs(counted - frame)).toBeLessThanOrEqual(2);
  }).toPass();
  await expect(
    region(page, 'Cut to tap next').getByText(cuts[4]?.toLocaleString('en') ?? ''),
  ).toBeVisible();
  await page.keyboard.press('Insert');
  await page.keyboard.press('End');
  await expect(page.getByText('The pass is over. Is it kept?')).toBeVisible();
  await page.getByRole('button', { name: 'Keep it' }).click();
  const row = region(page, 'Passes').getByRole('row', { name: /rehearsal/ });
  await expect(row).toContainText('18.40');
  await expect(row).toContainText('keep');
  // Another pass begins from nothing.
  await expect(page.getByText('Not known yet where the film is.')).toBeVisible();
});

test('a tap at a cut that is gone is refused with words, and a double tap counts once', async ({
  page,
}) => {
  const cuts = await beside(page);
  for (const nth of [0, 1, 2]) await tapAt(page, cuts, nth);
  const where = region(page, 'Where the film is');
  await expect(where.getByText('3 of 3')).toBeVisible();
  await page.clock.runFor(100);
  await page.keyboard.press('Space');
  await expect(page.getByText(/two taps within 0\.10 s: the first is kept/)).toBeVisible();
  await page.clock.runFor(1500);
  await page.keyboard.press('ArrowLeft');
  await page.keyboard.press('ArrowLeft');
  await page.keyboard.press('ArrowLeft');
  await page.keyboard.press('Space');
  await expect(page.getByText(/comes before the cut at/)).toBeVisible();
  await expect(where.getByText('3 of 3')).toBeVisible();
});

test('the counter of the machine finds the film, and Escape goes back to the chart', async ({
  page,
}) => {
  await beside(page);
  await page.getByRole('textbox', { name: 'What the counter says' }).fill('200');
  await page.keyboard.press('Enter');
  await expect(
    region(page, 'Where the film is').getByText(/^frame (19\d|20\d|21\d)/),
  ).toBeVisible();
  // The examiner waits by a clock of its own.
  await page.clock.resume();
  const { violations } = await new AxeBuilder({ page })
    .include('section[aria-label="Run the mix"]')
    .analyze();
  expect(violations.map(({ id, nodes }) => [id, nodes[0]?.html])).toEqual([]);
  await page.getByRole('button', { name: /Back to the chart/ }).click();
  await expect(page.getByRole('group', { name: /^The chart of v1/ })).toBeVisible();
});
