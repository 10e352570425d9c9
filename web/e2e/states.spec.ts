// Each room empty, waiting, failed and partial: what stands there then, and the
// way out of it.

import { spawnSync } from 'node:child_process';
import { mkdir, readdir, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Page, Route } from '@playwright/test';
import { expect, FILM, SCAN, slip, test, TITLE } from './film_test';
import { command } from './program';

const rows = (page: Page) =>
  page.getByRole('grid', { name: 'Pieces in their order' }).getByRole('rowgroup').getByRole('row');
const takes = (page: Page) => page.getByRole('list', { name: /^Takes of R/ }).getByRole('button');

/** An answer that is held back until it is let go. */
async function holdBack(page: Page, address: string): Promise<() => void> {
  let letGo = () => {};
  const held = new Promise<void>((resolve) => (letGo = resolve));
  await page.route(address, async (route) => {
    await held;
    await route.continue();
  });
  return letGo;
}

/** Answers so until it is called off. */
async function answer(page: Page, address: string, status: number): Promise<() => Promise<void>> {
  const document = { code: 'test.broken', message: 'the disk does not answer', hint: 'look at it' };
  const refuse = (route: Route) => route.fulfill({ status, json: { ...document, details: null } });
  await page.route(address, refuse);
  return () => page.unroute(address, refuse);
}

test.describe('empty', () => {
  test('the shelf, a film without rolls, without versions, without pieces', async ({ page }) => {
    await expect(page.getByText('No film stands here yet.')).toBeVisible();
    await expect(page.getByText('0 films')).toBeVisible();

    await page.getByRole('button', { name: 'Begin a new film' }).click();
    await page.getByRole('textbox', { name: 'What is it called?' }).fill(TITLE);
    await page.keyboard.press('Enter');
    await expect(
      page.getByRole('heading', { name: 'Drop a transfer here, or add a scan.' }),
    ).toBeVisible();
    await expect(page.getByRole('region', { name: 'The scan and the ruler' })).toBeVisible();

    await page.getByRole('link', { name: 'Screening' }).click();
    await expect(page.getByText('Nothing is cut, and there is no roll yet.')).toBeVisible();
    await page.getByRole('button', { name: 'Bring a roll in' }).click();
    await expect(page).toHaveURL(/\/rolls/);

    await page.getByRole('link', { name: 'Cutting' }).click();
    await expect(page.getByText('Bring a take here')).toBeVisible();
    await expect(page.getByRole('heading', { name: 'No join yet' })).toBeVisible();
    await page.getByRole('button', { name: 'Begin version v1' }).click();
    await expect(page.getByRole('button', { name: 'version v1' })).toBeVisible();
    await page.getByRole('button', { name: 'Lay a take in' }).click();
    await expect(page.getByRole('dialog', { name: 'Lay in at the head' })).toBeVisible();
  });

  test.describe('with a roll', () => {
    test.use({ onShelf: 'roll' });
    test('nothing is cut: a roll is run instead', async ({ page }) => {
      await page.goto(`${FILM}/screening`);
      await expect(page.getByText('Nothing is cut. Run a roll instead?')).toBeVisible();
      await page.getByRole('button', { name: 'Run R1' }).click();
      await expect(page.getByRole('combobox', { name: 'on the screen' })).toHaveValue('roll R1');
      await expect(page.getByRole('img', { name: 'The screen: R1 0' })).toBeVisible();
    });
  });
});

test.describe('on the way', () => {
  test.use({ onShelf: 'cut' });

  test('the shelf and the film say so when it takes long', async ({ page }) => {
    const shelf = await holdBack(page, '**/api/shelf');
    await page.goto('/');
    await expect(page.getByText('The shelf is being looked at.')).toBeVisible();
    shelf();
    await expect(page.getByRole('link', { name: new RegExp(TITLE) })).toBeVisible();

    const film = await holdBack(page, '**/api/films/boat');
    await page.getByRole('link', { name: new RegExp(TITLE) }).click();
    await expect(page.getByText('The film is being opened.')).toBeVisible();
    film();
    await expect(takes(page)).toHaveCount(16);
  });

  test('a roll, a version, a sheet', async ({ page }) => {
    const roll = await holdBack(page, '**/rolls/R1');
    await page.goto(`${FILM}/rolls`);
    await expect(page.getByText('Fetching the log of R1.')).toBeVisible();
    roll();
    await expect(takes(page)).toHaveCount(16);

    const cut = await holdBack(page, '**/cuts/v1');
    await page.goto(`${FILM}/cutting`);
    await expect(page.getByText('The cutting sheet is on its way.')).toBeAttached();
    cut();
    await expect(rows(page)).toHaveCount(3);

    const sheet = await holdBack(page, '**/sheets/pull-list?*');
    await page.getByRole('button', { name: 'Print sheets' }).click();
    await expect(page.getByText('The sheet is being set.')).toBeVisible();
    sheet();
    await expect(page.getByRole('img', { name: /^Page 1 of/ })).toBeVisible();
  });

  test('the lever is pulled before there is film to run: it runs when it has come', async ({
    page,
  }) => {
    for (const [wish, address] of [
      ['roll=R1', '**/rolls/R1'],
      ['cut=v1', '**/cuts/v1'],
    ] as const) {
      const film = await holdBack(page, address);
      await page.goto(`${FILM}/screening?${wish}`);
      await page.getByRole('button', { name: 'Run at 18 f/s' }).click();
      await expect(page.getByRole('status').filter({ hasText: 'threading' })).toBeVisible();
      const stop = page.getByRole('button', { name: 'Stop' });
      await expect(stop).toBeVisible();
      await page.getByRole('region', { name: 'The screen' }).focus();
      await page.keyboard.press('Space');
      await expect(stop).toHaveCount(0);
      await page.keyboard.press('Space');
      film();
      await expect(page.getByRole('status').filter({ hasText: 'shown' })).toBeVisible();
    }
  });

  test('a scan that is read: counted, watched, stopped', async ({ page, bench }) => {
    // Twelve times the roll, so that there is time to look.
    const long = join(bench.media, 'long.mp4');
    const made = spawnSync('ffmpeg', [
      ...['-v', 'error', '-stream_loop', '11', '-i', SCAN],
      ...['-c', 'copy', long],
    ]);
    expect(made.status).toBe(0);
    await page.goto(`${FILM}/rolls`);
    await page.getByRole('button', { name: 'Add a scan' }).click();
    await page.getByRole('button', { name: 'scans', exact: true }).click();
    await page.getByRole('button', { name: /^long/ }).click();
    await page.getByRole('button', { name: 'Bring R2 in' }).click();
    const table = page.getByRole('region', { name: 'Light table with R2' });
    await expect(table.getByRole('progressbar')).toBeVisible();
    await expect(table).toContainText(/[1-9][\d,]* of 8,232 frames/);
    await expect(table.getByRole('img', { name: 'Film from frame 0' })).toBeVisible();

    // The other roll can be used meanwhile.
    await page.getByRole('navigation', { name: 'Rolls' }).getByText('R1', { exact: true }).click();
    await expect(takes(page)).toHaveCount(16);
    await page.getByRole('navigation', { name: 'Rolls' }).getByText('R2', { exact: true }).click();
    await table.getByRole('button', { name: 'Stop' }).click();
    await expect(slip(page, 'The reading of R2 was stopped.')).toContainText(
      'Your scan has not been touched.',
    );
    await slip(page, 'The reading of R2 was stopped.')
      .getByRole('button', { name: 'Put away' })
      .click();
    await expect(takes(page)).toHaveCount(16);
  });
});

test.describe('failed', () => {
  test.use({ onShelf: 'cut' });

  test('the shelf', async ({ page }) => {
    await answer(page, '**/api/shelf', 500);
    await page.goto('/');
    await expect(slip(page, 'That did not work.')).toContainText('The disk does not answer.');
    await expect(slip(page, 'That did not work.')).toContainText('Look at it.');
  });

  test('a film that is not there, and one that cannot be opened', async ({ page }) => {
    await page.goto('/film/not-there/rolls');
    const refused = slip(page, 'This film cannot be opened.');
    await expect(refused).toBeVisible();
    await refused.getByRole('link', { name: 'To the shelf' }).click();
    await expect(page.getByRole('heading', { name: 'Begin here' })).toBeVisible();
    await answer(page, '**/api/films/boat', 500);
    await page.getByRole('link', { name: new RegExp(TITLE) }).click();
    await expect(refused).toContainText('The disk does not answer. Look at it.');
  });

  test('the log of a roll; tried once more it is there', async ({ page }) => {
    const well = await answer(page, '**/rolls/R1', 500);
    await page.goto(`${FILM}/rolls`);
    const refused = slip(page, 'The log of R1 cannot be shown.');
    await expect(refused).toContainText('The disk does not answer. Look at it.');
    await well();
    await refused.getByRole('button', { name: 'Try once more' }).click();
    await expect(takes(page)).toHaveCount(16);
  });

  test('a version; tried once more it is there', async ({ page }) => {
    const well = await answer(page, '**/cuts/v1', 500);
    await page.goto(`${FILM}/cutting`);
    const refused = slip(page, 'v1 cannot be shown.');
    await expect(refused).toContainText('The disk does not answer. Look at it.');
    await well();
    await refused.getByRole('button', { name: /^Try/ }).click();
    await expect(rows(page)).toHaveCount(3);
  });

  test('a screening; tried again it is threaded', async ({ page }) => {
    const well = await answer(page, '**/cuts/v1', 500);
    await page.goto(`${FILM}/screening`);
    const refused = slip(page, 'That did not work.');
    await expect(refused).toContainText('The disk does not answer. Look at it.');
    await well();
    await refused.getByRole('button', { name: 'Try again' }).click();
    await expect(page.getByRole('img', { name: 'The screen: R1 10' })).toBeVisible();
  });

  test('pictures that do not come: the film stands, and says so', async ({ page }) => {
    await answer(page, '**/rolls/R1/run?*', 500);
    await page.goto(`${FILM}/screening`);
    await page.getByRole('button', { name: 'Run at 18 f/s' }).click();
    await expect(slip(page, 'The pictures do not come.')).toBeVisible();
  });

  test('what cannot be kept stays as it was typed', async ({ page }) => {
    const well = await answer(page, '**/changes', 422);
    await page.goto(`${FILM}/rolls`);
    const card = page.getByRole('region', { name: 'Take card' });
    await card.getByRole('button', { name: 'Fill in' }).click();
    await card.getByRole('textbox', { name: 'action' }).fill('the landing, at noon');
    await card.getByRole('button', { name: 'Keep' }).click();
    const refused = slip(card, 'This was not kept.');
    await expect(refused).toContainText('The disk does not answer. Look at it.');
    await expect(card).toContainText('the landing, at noon');

    await page.getByRole('link', { name: 'Cutting' }).click();
    await rows(page).nth(1).click();
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Enter');
    await expect(page.getByText('The disk does not answer.')).toBeVisible();
    await expect(rows(page).nth(1)).toContainText('on trial');
    await well();
    await page.keyboard.press('Enter');
    await expect(rows(page).nth(1)).not.toContainText('on trial');
    await expect(rows(page).nth(1)).toContainText('R1·111 to 139');
  });

  test('a sheet; tried again it is printed', async ({ page }) => {
    const well = await answer(page, '**/sheets/pull-list?*', 500);
    await page.goto(`${FILM}/cutting`);
    await page.getByRole('button', { name: 'Print sheets' }).click();
    const refused = slip(page, 'The sheet could not be printed.');
    await expect(refused).toContainText('The disk does not answer. Look at it.');
    await well();
    await refused.getByRole('button', { name: 'Try again' }).click();
    await expect(page.getByRole('img', { name: /^Page 1 of/ })).toBeVisible();
  });

  test('a file that is no film', async ({ page, bench }) => {
    await writeFile(join(bench.media, 'letter.mp4'), 'Dear Ida, the boat leaves at ten past.\n');
    await page.goto(`${FILM}/rolls`);
    await page.getByRole('button', { name: 'Add a scan' }).click();
    await page.getByRole('button', { name: 'scans', exact: true }).click();
    await page.getByRole('button', { name: /^letter/ }).click();
    await page.getByRole('button', { name: 'Bring R2 in' }).click();
    const refused = page.locator('section.slip.refused');
    await expect(refused).toBeInViewport({ ratio: 1 });
    await expect(refused).toContainText('This is text, not a film or picture file');
    await expect(refused).toContainText('Your scan has not been touched.');
  });

  test('a version that the strand check refuses is printed for notes only', async ({
    page,
    bench,
  }) => {
    const twice = join(bench.dir, 'twice.csv');
    await writeFile(twice, 'position,roll,in,out\n1,R1,10,50\n2,R1,30,60\n');
    await command('cut', 'import', join(bench.shelf, 'boat'), twice, '--name', 'v2');
    await page.goto(`${FILM}/cutting?cut=v2`);
    await expect(rows(page)).toHaveCount(2);
    await page.getByRole('button', { name: 'Print sheets' }).click();
    const refused = slip(page, /The strand check does not let this version pass/);
    await expect(refused).toBeVisible();
    await page.locator('label', { hasText: 'Lined for notes' }).click();
    await expect(page.getByRole('img', { name: /^Page 1 of 1 of the lined sheet/ })).toBeVisible();
    await expect(refused).toHaveCount(0);
    await page.locator('label', { hasText: 'Cutting sheet' }).click();
    await refused.getByRole('button', { name: 'Look at the place' }).click();
    await expect(page.getByRole('dialog')).toBeHidden();
    await expect(slip(page, '20 frames are wanted in 1 and 2.')).toBeVisible();
  });
});

test.describe('partial', () => {
  test.use({ onShelf: 'cut' });

  test('a roll known on paper only is logged, cut and printed, and says so', async ({ page }) => {
    await page.goto(`${FILM}/rolls`);
    await page.getByRole('button', { name: 'On paper' }).click();
    const sheet = page.getByRole('dialog', { name: 'A roll on paper' });
    await sheet.getByRole('textbox', { name: 'How long it is' }).fill('50ft0');
    await expect(sheet).toContainText('3,600 frames');
    await sheet.getByRole('button', { name: 'Add R2' }).click();
    await expect(page.getByRole('heading', { name: 'R2 is known on paper only' })).toBeVisible();
    await expect(page.getByRole('button', { name: /^R2 3,600 fr .*on paper/ })).toBeVisible();
    await page.locator('label', { hasText: 'near by' }).click();
    await expect(page.getByText(/its frames are counted, none is seen/)).toBeVisible();
    await expect(page.getByRole('button', { name: 'Run', exact: true })).toBeDisabled();

    // It begins as one take; others are set by hand, since nothing is seen.
    await expect(page.getByRole('button', { name: /^R2 3,600 fr 1 take on paper/ })).toBeVisible();
    const breakHere = page.getByRole('button', { name: /^Break here/ });
    await expect(breakHere).toBeDisabled();
    await page.getByRole('region', { name: 'Light table with R2' }).focus();
    await page.keyboard.press('PageDown');
    await breakHere.click();
    await expect(page.getByRole('button', { name: /^R2 3,600 fr 2 takes on paper/ })).toBeVisible();

    await page.goto(`${FILM}/cutting`);
    await page.getByRole('button', { name: 'Lay in', exact: true }).click();
    await page.getByRole('textbox', { name: 'find a take' }).fill('R2');
    await page.getByRole('button', { name: /^Lay .* in after/ }).click();
    await expect(rows(page)).toHaveCount(4);
    await expect(slip(page, 'This cut can be made.')).toContainText('its scan is not proved');
    await page.getByRole('button', { name: 'Print sheets' }).click();
    await expect(slip(page, 'These sheets say NOT PROVED across the head.')).toBeVisible();
  });

  test('frames that the transfer does not show are hatched and counted', async ({
    page,
    bench,
  }) => {
    // Single pictures, of which five are missing.
    const pictures = join(bench.media, 'pictures');
    await mkdir(pictures);
    const made = spawnSync('ffmpeg', [
      ...['-v', 'error', '-i', SCAN, '-frames:v', '60'],
      join(pictures, 'frame%04d.png'),
    ]);
    expect(made.status).toBe(0);
    for (const name of ['0021', '0022', '0023', '0024', '0025']) {
      await rm(join(pictures, `frame${name}.png`));
    }
    await command('roll', 'add', join(bench.shelf, 'boat'), 'R2', pictures);
    await page.goto(`${FILM}/rolls?roll=R2`);
    await expect(page.getByRole('button', { name: /^R2 60 fr .*5 not seen/ })).toBeVisible();
    await expect(page.getByText('5 counted, not seen')).toBeVisible();
    await page.goto(`${FILM}/rolls?roll=R2&frame=21&look=near`);
    await expect(page.getByRole('img', { name: /frame in the gate: R2 21/i })).toBeVisible();
    await expect(page.getByText(/not seen/).first()).toBeVisible();
  });

  test('pictures that were thrown away are made again from the scan', async ({ page, bench }) => {
    const prints = join(bench.shelf, 'boat', 'workprints');
    for (const name of await readdir(prints)) await rm(join(prints, name), { recursive: true });
    await page.goto(`${FILM}/rolls`);
    const asks = slip(page, 'The pictures of R1 are gone. Make them again from the scan?');
    await asks.getByRole('button', { name: 'Make them again' }).click();
    await expect(asks).toBeHidden();
    await expect(page.getByRole('button', { name: 'Run', exact: true })).toBeEnabled();
    await expect(page.getByRole('button', { name: /^R1 681 fr 16 takes$/ })).toBeVisible();
  });
});
