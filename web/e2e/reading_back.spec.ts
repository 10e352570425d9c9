// Film read back with the real program: the photograph of a loose strip is given, its name
// comes with the frames beside it, and one goes there on the roll's table; a cut reel's scan
// is laid beside its version. Strip and reel are put together out of the scan by FFmpeg.

import { execFileSync } from 'node:child_process';
import { join } from 'node:path';
import AxeBuilder from '@axe-core/playwright';
import type { Locator, Page } from '@playwright/test';
import { seen } from './eyes';
import { expect, FILM, SCAN, slip, test } from './film_test';

test.use({ onShelf: 'cut' });

/** The scan's frames before which a picture stands twice, as `onestrand read` tells. */
const TWICE = [12, 18, 27, 45, 51];
/** The picture of the file that shows a frame. */
const picture = (frame: number) => frame + TWICE.filter((at) => at <= frame).length;

function ffmpeg(...words: readonly string[]): void {
  execFileSync('ffmpeg', ['-v', 'error', '-nostdin', '-y', ...words]);
}

/** Nine frames on a light box, at 30 pixels a millimetre by the gauge's figures. */
function photograph(first: number, to: string, lying = ''): string {
  const taken = `trim=start_frame=${picture(first)}:end_frame=${picture(first) + 9}`;
  const frame = 'scale=174:120,pad=239:127:44:3:black,drawbox=15:46:27:34:white:fill';
  const laid = 'tile=1x9,pad=1600:1200:(ow-iw)/2:(oh-ih)/2:0xe6e6e6';
  ffmpeg('-i', SCAN, '-vf', `${taken},${frame},${laid}${lying}`, '-frames:v', '1', to);
  return to;
}

/**
 * A cut reel out of the scan, frame by frame as `onestrand read` numbers them: each piece is
 * parted where a picture stands twice, so that every frame comes once.
 */
function reelOf(pieces: readonly (readonly [number, number])[], to: string): void {
  const whole = pieces.flatMap(([first, end]) => {
    const inside = TWICE.filter((at) => at > first && at < end);
    const bounds = [first, ...inside, end];
    return bounds.slice(1).map((bound, n) => [bounds[n] ?? first, bound] as const);
  });
  const parts = whole.map(
    ([first, end], n) =>
      `movie=${SCAN},trim=start_frame=${picture(first)}:end_frame=${picture(end - 1) + 1},` +
      `setpts=N/18/TB[p${n}]`,
  );
  const names = whole.map((_, n) => `[p${n}]`).join('');
  const graph = `${parts.join(';')};${names}concat=n=${whole.length},fps=18,setpts=N/18/TB`;
  ffmpeg('-filter_complex', graph, '-r', '18', '-c:v', 'mjpeg', '-q:v', '3', to);
}

async function prove(page: Page): Promise<Locator> {
  await page.goto(`${FILM}/rolls`);
  await page.getByRole('button', { name: 'Read film back' }).click();
  await page.getByRole('button', { name: 'A cut reel instead' }).click();
  const sheet = page.getByRole('dialog', { name: 'Prove a cut reel' });
  await sheet.getByRole('button', { name: /reel\.mkv/ }).click();
  await sheet.getByRole('button', { name: 'Lay it beside v1' }).click();
  return sheet;
}

async function give(page: Page, file: string): Promise<void> {
  const chosen = page.waitForEvent('filechooser');
  // By the keys alone.
  await page.getByRole('button', { name: /^(Choose a|Another) photograph$/ }).focus();
  await page.keyboard.press('Enter');
  await (await chosen).setFiles(file);
}

test('a loose strip gets its name, and one goes there', async ({ page, bench }) => {
  const strip = photograph(330, join(bench.dir, 'strip.jpg'), ',rotate=200*PI/180:c=0xe6e6e6');
  const upright = photograph(466, join(bench.dir, 'upright.jpg'));
  const none = join(bench.dir, 'none.jpg');
  ffmpeg('-f', 'lavfi', '-i', 'color=gray:s=1600x1200', '-frames:v', '1', none);

  await page.goto(`${FILM}/rolls`);
  const opener = page.getByRole('button', { name: 'Read film back' });
  await opener.focus();
  await page.keyboard.press('Enter');
  const sheet = page.getByRole('dialog', { name: 'Name a loose strip' });
  await expect(sheet).toContainText('cotton gloves');
  await expect(sheet).toContainText('fire service');
  expect(await seen(page), 'as an eye sees it').toEqual([]);

  await give(page, none);
  await expect(slip(sheet, /no film/)).toContainText('light box');

  await give(page, upright);
  // Hardly anything moves there: the span is told some frames longer than the strip.
  const still = slip(sheet, /R1·4[56]\d–4[78]\d/);
  await expect(still).toContainText('heads up, seen from the side');
  await expect(still).toContainText('Nothing moves enough in the shot');

  await give(page, strip);
  const named = slip(sheet, /R1·330–338/);
  await expect(named).toContainText(/Sure to \d\d of 100: 9 frames were seen/);
  await expect(named).toContainText('heads down');
  await expect(named).toContainText('seen from the side the roll was scanned from');
  const frames = named.getByRole('list', { name: /^Frames of R1/ }).getByRole('img');
  await expect(frames).toHaveCount(9);
  for (const frame of await frames.all()) {
    const wide = () => frame.evaluate((img: HTMLImageElement) => img.naturalWidth);
    await expect.poll(wide).toBeGreaterThan(0);
  }
  expect(await seen(page), 'as an eye sees it').toEqual([]);
  expect((await new AxeBuilder({ page }).include('dialog').analyze()).violations).toEqual([]);

  await named.getByRole('button', { name: 'Go to R1·330' }).press('Enter');
  await expect(sheet).toHaveCount(0);
  await expect(page).toHaveURL(/roll=R1/);
  await expect(page).toHaveURL(/frame=330/);
});

test('a scan of the cut reel is laid beside its version', async ({ page, bench }) => {
  // v1 is 10–50, 110–140, 65–100; of the second three frames are left out.
  const pieces = [
    [10, 50],
    [110, 120],
    [123, 140],
    [65, 100],
  ] as const;
  reelOf(pieces, join(bench.media, 'reel.mkv'));
  const sheet = await prove(page);
  await expect(slip(sheet, /The reel is not v1/)).toBeVisible();
  await expect(sheet.getByText(/3 frames of the version are not on the reel/)).toBeVisible();
  await expect(sheet.getByText('v1 is not on the bench')).toBeVisible();
  expect(await seen(page), 'as an eye sees it').toEqual([]);
});

test('acts that nobody ticked come into the log of the bench', async ({ page, bench }) => {
  const pieces = [
    [10, 50],
    [110, 141],
  ] as const;
  // The second piece was cut a frame late, and the third is not joined on yet.
  reelOf(pieces, join(bench.media, 'reel.mkv'));
  await page.goto(`${FILM}/bench`);
  await page.getByRole('button', { name: 'Begin v1' }).click();
  await expect(page.getByRole('region', { name: 'The next act' })).toBeVisible();

  const sheet = await prove(page);
  const log = slip(sheet, 'The reel has 2 runs of film, the log of the bench has none.');
  await expect(log).toContainText(/acts were never ticked: \d cuts, 2 joins/);
  await log.getByText('What is written').click();
  await expect(log.getByRole('list')).toContainText('Cut before R1·141.');
  expect(await seen(page), 'as an eye sees it').toEqual([]);
  expect((await new AxeBuilder({ page }).include('dialog').analyze()).violations).toEqual([]);
  await log.getByRole('button', { name: 'Write them into the log' }).press('Enter');
  await expect(slip(sheet, 'Written into the log of the bench.')).toBeVisible();

  await page.goto(`${FILM}/bench`);
  await expect(page.getByRole('group', { name: 'Done so far' })).toContainText(/joins\s*2/);
});
