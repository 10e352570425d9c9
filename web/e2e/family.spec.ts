// Family reels on the shelf, with the real program: shots through two drawn gates are parted by
// camera, their order told by a hair that grows, and a soft print told from what it was made of.

import { execFileSync } from 'node:child_process';
import { join } from 'node:path';
import AxeBuilder from '@axe-core/playwright';
import type { Page } from '@playwright/test';
import { seen } from './eyes';
import { expect, SCAN, test } from './film_test';
import { command } from './program';

const GATES = [
  'scale=480:360,drawbox=0:120:5:30:0x14120f:fill,drawbox=300:0:40:3:0x14120f:fill,drawbox=476:40:4:90:0x14120f:fill,drawbox=90:356:70:4:0x14120f:fill',
  'scale=486:356,drawbox=0:220:3:60:0x14120f:fill,drawbox=100:0:60:4:0x14120f:fill,drawbox=483:250:3:50:0x14120f:fill,drawbox=330:352:90:4:0x14120f:fill',
];
const BORDER = 'pad=640:480:(ow-iw)/2:(oh-ih)/2:0x14120f,noise=alls=5:allf=t:all_seed=4,setsar=1';
const PRINTED =
  'gblur=1.4,drawbox=0:0:8:ih:black:fill,drawbox=iw-9:0:9:ih:black:fill,drawbox=0:0:iw:7:black:fill,drawbox=0:ih-8:iw:8:black:fill,';

/** First and last picture, gate, length of the hair. */
type Drawn = readonly [number, number, number, number];
const SHOTS: readonly Drawn[] = [
  [62, 100, 0, 60],
  [3, 50, 1, 0],
  [150, 190, 0, 20],
  [262, 320, 1, 0],
  [334, 380, 0, 40],
];

function draw(shots: readonly Drawn[], printed: string, to: string): void {
  const parts = shots.map(([first, last, gate, hair], n) => {
    const grown = hair ? `,drawbox=200:0:4:${hair}:0x100e0c:fill` : '';
    return `movie=${SCAN},select='between(n\\,${first}\\,${last})',setpts=N/18/TB,crop=iw*0.7:ih*0.7,${GATES[gate]}${grown},${printed}${BORDER}[p${n}]`;
  });
  const names = shots.map((_, n) => `[p${n}]`).join('');
  const graph = `${parts.join(';')};${names}concat=n=${shots.length},fps=18,setpts=N/18/TB`;
  const words = ['-filter_complex', graph, '-r', '18', '-c:v', 'mjpeg', '-q:v', '2', to];
  execFileSync('ffmpeg', ['-v', 'error', '-nostdin', '-y', ...words]);
}

const sheet = (page: Page) => page.getByRole('region', { name: 'Family reels' });

test('nothing was scanned: it says what to do', async ({ page }) => {
  await page.goto('/');
  await sheet(page).getByRole('button', { name: 'Look at family reels' }).click();
  await expect(sheet(page)).toContainText('No reel on this shelf has been scanned yet');
});

test.describe('with reels on the shelf', () => {
  test.beforeEach(async ({ bench, films }) => {
    void films;
    const dir = join(bench.shelf, 'attic');
    const scans = [join(bench.dir, 'reel.mkv'), join(bench.dir, 'print.mkv')] as const;
    draw(SHOTS, '', scans[0]);
    draw(SHOTS, PRINTED, scans[1]);
    await command('new', dir, '--title', 'The attic', '--gauge', 'super8', '--speed', '18');
    await command('roll', 'add', dir, 'R1', scans[0]);
    await command('roll', 'add', dir, 'R2', scans[1]);
  });

  test('cameras, order and copies, by the keys alone', async ({ page }) => {
    await page.goto('/');
    await sheet(page).getByRole('button', { name: 'Look at family reels' }).press('Enter');
    await sheet(page)
      .getByRole('checkbox', { name: /The attic, R2/ })
      .press('Space');
    await sheet(page).getByRole('button', { name: 'Whose camera, which order?' }).press('Enter');
    const a = sheet(page).getByRole('region', { name: 'Camera A' });
    await expect(a).toContainText('3 shots have this outline', { timeout: 60_000 });
    await expect(sheet(page).getByRole('region', { name: 'Camera B' })).toContainText('2 shots');
    await expect(a.getByRole('img', { name: /gate of camera A.*hair/ })).toBeVisible();
    const names = a.getByRole('list').getByText(/^R1·/);
    await expect(names.first()).toContainText('R1·8');
    await expect(names.last()).toContainText('R1·0');

    await sheet(page).getByRole('button', { name: 'Compare them' }).press('Enter');
    await expect(sheet(page)).toContainText(/attic\/R1 is nearer the original/i, {
      timeout: 60_000,
    });
    await expect(sheet(page)).toContainText('What that rests on');
    expect(await seen(page), 'as an eye sees it').toEqual([]);
    const { violations } = await new AxeBuilder({ page }).analyze();
    expect(violations.map(({ id, nodes }) => [id, nodes[0]?.html])).toEqual([]);
  });
});
