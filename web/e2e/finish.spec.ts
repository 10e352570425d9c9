// The digital finish in the Screening room: asked for by key, stopped, and made to its end.

import { readdir, stat } from 'node:fs/promises';
import { join } from 'node:path';
import type { Page } from '@playwright/test';
import { expect, FILM, slip, test } from './film_test';

test.use({ onShelf: 'long cut' });

const card = (page: Page) => page.getByRole('dialog', { name: /^Digital finish/ });

for (const look of ['light', 'dark'] as const) {
  test(`a finish is stopped, asked for again and made, ${look} bench`, async ({ page, bench }) => {
    await page.emulateMedia({ colorScheme: look });
    await page.goto(`${FILM}/screening?cut=v1`);
    await expect(page.getByRole('button', { name: 'Finish', exact: true })).toBeVisible();
    await page.keyboard.press('Shift+F8');
    await expect(card(page)).toContainText('420 frames, each once');
    const make = card(page).getByRole('button', { name: 'Make the finish' });
    // The folder is the one that was named when the program was started.
    await expect(card(page).getByRole('combobox', { name: 'In the folder' })).toHaveValue(
      bench.media,
    );

    await test.step('long work is seen, and stopped', async () => {
      await card(page).getByRole('checkbox', { name: 'Weave taken out' }).check();
      await card(page).getByRole('checkbox', { name: 'Flicker evened' }).check();
      await make.click();
      await expect(card(page).getByRole('progressbar')).toBeVisible();
      await card(page).getByRole('button', { name: 'Stop', exact: true }).click();
      await expect(
        slip(card(page), 'Stopped. What is made in whole parts stays made.'),
      ).toBeVisible();
      const made = await readdir(bench.media);
      expect(made.filter((name) => name.startsWith('boat-v1'))).toEqual([]);
    });

    await test.step('asked for again, without them, it is made and named with its place', async () => {
      await card(page).getByRole('checkbox', { name: 'Weave taken out' }).uncheck();
      await card(page).getByRole('checkbox', { name: 'Flicker evened' }).uncheck();
      await card(page).getByRole('checkbox', { name: 'A list of all frames' }).check();
      await make.click();
      const done = slip(card(page), 'The finish is made.');
      await expect(done).toBeVisible({ timeout: 60_000 });
      const film = join(bench.media, 'boat-v1.mp4');
      await expect(done).toContainText(`${film}: 420 frames`);
      await expect(done).toContainText('as planned, not cut yet');
      expect((await stat(film)).size).toBeGreaterThan(100_000);
      const made = (await readdir(bench.media)).filter((name) => name.includes('boat-v1'));
      expect(made.sort()).toEqual(['boat-v1.frames.csv', 'boat-v1.mp4']);
    });

    await test.step('a name that is taken is refused at once', async () => {
      await make.click();
      await expect(card(page)).toContainText('Something stands under that name already');
    });
  });
}
