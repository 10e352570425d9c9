// A microphone that is refused: the Dubbing room says what to do, and nothing is lost.

import config from '../playwright.config';
import { expect, FILM, slip, test } from './film_test';

const film = config.projects?.find((one) => one.name === 'film')?.use?.launchOptions;
test.use({
  onShelf: 'cut',
  launchOptions: {
    ...film,
    args: [
      ...(film?.args ?? []),
      '--use-fake-device-for-media-stream',
      '--deny-permission-prompts',
    ],
  },
});

test('a microphone that is refused is told, with the next step', async ({ page }) => {
  await page.goto(`${FILM}/dubbing`);
  await page.getByRole('button', { name: 'Rule the columns' }).click();
  await expect(page.getByRole('button', { name: 'Column music' })).toBeVisible();
  await page.getByRole('radio', { name: 'Record', exact: true }).check({ force: true });
  const record = page.getByRole('button', { name: 'Record voice, pass 1' });
  // The caution for the ears stands before the first run.
  await record.click();
  await record.click();
  const refused = slip(page, /microphone/i);
  await expect(refused).toBeVisible();
  await expect(refused.getByText(/allow the microphone, and start again/)).toBeVisible();
  await expect(record).toBeEnabled();
});
