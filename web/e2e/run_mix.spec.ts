// Running the mix beside a projector, with the real program and a clock that the test turns.

import type { Page } from '@playwright/test';
import { expect, FILM, test } from './film_test';

test.use({ onShelf: 'cut' });

const region = (page: Page, name: string) => page.getByRole('region', { name, exact: true });

/** The room with the run open, on a clock that stands until it is turned. */
async function beside(page: Page): Promise<void> {
  await page.clock.install();
  await page.goto(`${FILM}/dubbing`);
  const chart = page.getByRole('group', { name: /^The chart of v1/ });
  await expect(chart).toBeVisible();
  await chart.focus();
  await page.clock.pauseAt(new Date(Date.now() + 3_600_000));
  await page.keyboard.press('F9');
  await expect(region(page, 'Run the mix')).toBeVisible();
  await expect(page.getByText('Not known yet where the film is.')).toBeVisible();
}

test('the counter of the machine finds the film, and Escape goes back to the chart', async ({
  page,
}) => {
  await beside(page);
  await page.getByRole('textbox', { name: 'What the counter says' }).fill('60');
  await page.keyboard.press('Enter');
  await expect(region(page, 'Where the film is').getByText(/^frame (59|6\d)/)).toBeVisible();
  await page.getByRole('button', { name: /Back to the chart/ }).click();
  await expect(page.getByRole('group', { name: /^The chart of v1/ })).toBeVisible();
});
