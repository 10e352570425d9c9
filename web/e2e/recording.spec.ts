// Recording in the Dubbing room with the real program and a pretended microphone: each second
// is on the disk as it comes, passes are kept, one is laid, and a page that closes loses nothing.

import { readdir } from 'node:fs/promises';
import { join } from 'node:path';
import type { Page } from '@playwright/test';
import config from '../playwright.config';
import { expect, FILM, slip, test } from './film_test';

const film = config.projects?.find((one) => one.name === 'film')?.use?.launchOptions;
test.use({
  onShelf: 'cut',
  permissions: ['microphone'],
  launchOptions: {
    ...film,
    args: [
      ...(film?.args ?? []),
      '--use-fake-ui-for-media-stream',
      '--use-fake-device-for-media-stream',
    ],
  },
});

async function atTheCard(page: Page): Promise<void> {
  await page.goto(`${FILM}/dubbing`);
  await page.getByRole('button', { name: 'Rule the columns' }).click();
  await expect(page.getByRole('button', { name: 'Column music' })).toBeVisible();
  await page.getByRole('radio', { name: 'Record', exact: true }).check({ force: true });
  // The caution for the ears stands before the first run.
  await page.getByRole('button', { name: 'Record voice, pass 1' }).click();
  await page.getByRole('button', { name: 'Record voice, pass 1' }).click();
}

test('what is recorded when the page closes is told next time and kept as a sound', async ({
  page,
  context,
  bench,
}) => {
  await atTheCard(page);
  const half = async () =>
    (await readdir(join(bench.shelf, 'boat', 'sounds')).catch(() => [])).filter((name) =>
      name.endsWith('.wav.part'),
    );
  await expect.poll(half).toEqual(['recording-1.wav.part']);
  await expect(page.getByText(/^Recording\. Kept up to second/)).toBeVisible();
  await page.close();
  const next = await context.newPage();
  await expect(async () => {
    await next.goto(`${FILM}/dubbing`);
    await next.getByRole('radio', { name: 'Record', exact: true }).check({ force: true });
    await expect(slip(next, /left half: voice, pass 1/)).toBeVisible({ timeout: 2000 });
  }).toPass();
  await next.getByRole('button', { name: 'Keep it as a sound' }).click();
  await expect(next.getByRole('button', { name: 'Lay it where it was recorded' })).toBeVisible();
  expect(await half()).toEqual([]);
});

/** Records the pass that is next, until some of it is on the disk. */
async function pass(page: Page, name: string): Promise<void> {
  const stop = page.getByRole('button', { name: 'Stop', exact: true }).last();
  await expect(page.getByText(/^Recording\. Kept up to second/)).toBeVisible();
  await stop.click();
  await expect(page.getByRole('listitem').filter({ hasText: name })).toBeVisible();
}

test('two passes are kept, one is chosen, and names count on after the page was closed', async ({
  page,
  context,
}) => {
  await atTheCard(page);
  await pass(page, 'voice, pass 1');
  await page.getByRole('button', { name: 'Record voice, pass 2' }).click();
  await pass(page, 'voice, pass 2');
  const first = page.getByRole('listitem').filter({ hasText: 'voice, pass 1' });
  const second = page.getByRole('listitem').filter({ hasText: 'voice, pass 2' });
  // Both begin where the rule stood: it goes back there when a pass is over.
  await first.getByRole('button', { name: 'Lay it where it was recorded' }).click();
  const chart = page.getByRole('group', { name: /^The chart of v1/ });
  await expect(chart.getByRole('button', { name: /^voice, pass 1, voice, in 0/ })).toBeVisible();
  await expect(page.getByText('Where it was.')).toBeVisible();
  await page.getByRole('radio', { name: 'Record', exact: true }).check({ force: true });
  await expect(first.getByRole('button', { name: 'Laid' })).toBeDisabled();
  await second.getByRole('button', { name: 'Take this pass instead' }).click();
  await expect(chart.getByRole('button', { name: /^voice, pass 2, voice, in 0/ })).toBeVisible();
  await expect(chart.getByRole('button', { name: /^voice, pass 1/ })).toHaveCount(0);
  await page.close();
  const next = await context.newPage();
  await next.goto(`${FILM}/dubbing`);
  await next.getByRole('radio', { name: 'Record', exact: true }).check({ force: true });
  await expect(next.getByRole('button', { name: 'Record voice, pass 3' })).toBeVisible();
});
