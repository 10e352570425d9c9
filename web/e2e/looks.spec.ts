// Each screen, in both palettes, in three windows and with words twice as large:
// axe finds no fault, nothing is cut off, nothing lies over anything else. The
// pictures of all screens lie in `test-results/screens` afterwards, for eyes.

import { spawnSync } from 'node:child_process';
import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Page } from '@playwright/test';
import { seen, tooSmall } from './eyes';
import { faults } from './faults';
import { expect, FILM, type OnShelf, SCAN, slip, test, TITLE } from './film_test';
import { LOOKS_OF_SCRIPT } from './looks_of_script';
import { LOOKS_OF_TITLES } from './looks_of_titles';
import { type Bench, command, type Program } from './program';

const SCREENS = fileURLToPath(new URL('../test-results/screens', import.meta.url));
const WINDOWS = [
  { width: 1280, height: 800 },
  { width: 1920, height: 1080 },
  { width: 1440, height: 900 },
];

interface There {
  readonly page: Page;
  readonly bench: Bench;
  readonly program: Program;
}

interface ScreenOf {
  readonly name: string;
  readonly onShelf: OnShelf;
  /** Whether the notes in the margin are there: what is pressed has room for a hand. */
  readonly notes?: boolean;
  /** Leads there from the shelf. */
  readonly reach: (there: There) => Promise<void>;
}

const rows = (page: Page) =>
  page.getByRole('grid', { name: 'Pieces in their order' }).getByRole('rowgroup').getByRole('row');

/** A cut as long as a sheet, with words as people write them. */
async function laySheet({ bench }: There, pieces: readonly string[]): Promise<void> {
  const sheet = join(bench.dir, 'sheet.csv');
  const said = 'position,roll,in,out,slate,join,note\n';
  await writeFile(sheet, said + pieces.map((piece, at) => `${at + 1},${piece}\n`).join(''));
  await command('cut', 'import', join(bench.shelf, 'boat'), sheet, '--name', 'second trial');
}

const FOURTEEN = [
  'R1,4,50,1-T1,,the landing; nobody is there yet but the gulls',
  'R1,110,140,2-T1,,she looks up',
  'R1,65,100,1-T2,cement,the landing once more',
  ...[150, 210, 262, 330, 390, 432, 466, 536, 560, 604, 640].map(
    (first, at) => `R1,${first},${first + 10},,,${at % 2 ? 'the rope comes off' : 'he waits'}`,
  ),
];

async function laid(there: There, pieces: readonly string[]): Promise<void> {
  await laySheet(there, pieces);
  await there.page.goto(`${FILM}/cutting?cut=second+trial`);
  await expect(rows(there.page).first()).toBeVisible();
}

async function scanOf({ page, bench }: There, name: string, times: number): Promise<void> {
  const path = join(bench.media, name);
  if (times === 0) await writeFile(path, 'no film\n');
  else {
    const loops = ['-stream_loop', String(times - 1), '-i', SCAN, '-c', 'copy', path];
    expect(spawnSync('ffmpeg', ['-v', 'error', ...loops]).status).toBe(0);
  }
  await page.goto(`${FILM}/rolls`);
  await page.getByRole('button', { name: 'Add a scan' }).first().click();
  await page.getByRole('button', { name: 'scans', exact: true }).click();
  await page.getByRole('button', { name: new RegExp(`^${name}`) }).click();
}

/** Where v1 is on the bench already, as after words were enlarged, it is not begun again. */
async function atBench(page: Page, ticks: number): Promise<void> {
  await page.goto(`${FILM}/bench`);
  const begin = page.getByRole('button', { name: 'Begin v1' });
  const tick = page.locator('.buttons .tick');
  await expect(begin.or(tick)).toBeVisible();
  if (await tick.isVisible()) return;
  await begin.click();
  for (let done = 0; done < ticks; done++) {
    await expect(tick).toBeVisible();
    const answer = page.waitForResponse((one) => one.url().endsWith('/bench'));
    await tick.click();
    await answer;
    await page.waitForTimeout(600);
  }
}

const act = (page: Page) => page.getByRole('region', { name: 'The next act' });

const BENCH_SCREENS: readonly ScreenOf[] = [
  {
    name: 'bench, a roll goes on',
    onShelf: 'cut',
    reach: async ({ page }) => {
      await atBench(page, 0);
      await expect(act(page)).toContainText('R1');
    },
  },
  {
    name: 'bench, further on',
    onShelf: 'cut',
    reach: async ({ page }) => {
      await atBench(page, 6);
      await expect(act(page)).toBeVisible();
    },
  },
  {
    name: 'bench, what happened',
    onShelf: 'cut',
    reach: async ({ page }) => {
      await atBench(page, 1);
      await page.getByRole('button', { name: 'Something else happened' }).click();
      await page.getByRole('button', { name: 'Frames are torn' }).click();
      await expect(page.locator('dialog section.slip')).toBeVisible();
    },
  },
  {
    name: 'bench, one back',
    onShelf: 'cut',
    reach: async ({ page }) => {
      await atBench(page, 1);
      await page.getByRole('button', { name: 'One back' }).click();
      await expect(page.getByRole('button', { name: 'Strike it out' })).toBeVisible();
    },
  },
  {
    name: 'bench, log',
    onShelf: 'cut',
    reach: async ({ page }) => {
      await atBench(page, 3);
      await page.getByRole('button', { name: 'Log' }).click();
      await expect(page.getByRole('dialog', { name: 'What was done to make v1' })).toBeVisible();
    },
  },
  {
    name: 'bench, the whole work',
    onShelf: 'cut',
    reach: async ({ page }) => {
      await atBench(page, 3);
      await page.getByRole('button', { name: /^The whole work/ }).click();
      await expect(page.getByRole('dialog', { name: 'The whole work on v1' })).toBeVisible();
    },
  },
];

const screens: readonly ScreenOf[] = [
  {
    name: 'shelf, empty',
    onShelf: 'nothing',
    reach: ({ page }) => expect(page.getByText('No film stands here yet.')).toBeVisible(),
  },
  {
    name: 'shelf, a film and a length',
    onShelf: 'cut',
    reach: async ({ page }) => {
      await page.getByRole('textbox', { name: 'Type a length' }).fill('37ft60');
      await expect(page.getByText('2,724')).toBeVisible();
      await expect(page.getByRole('link', { name: new RegExp(TITLE) })).toBeVisible();
    },
  },
  ...LOOKS_OF_SCRIPT,
  ...LOOKS_OF_TITLES,
  {
    name: 'shelf, class roster',
    onShelf: 'cut',
    reach: async ({ page, bench }) => {
      await command('new', join(bench.shelf, 'kite'), '--title', 'The Kite');
      await page.reload();
      await page.getByRole('button', { name: 'Make a class roster' }).click();
      await expect(page.getByRole('heading', { name: 'Session 1' })).toBeVisible();
      await expect(page.getByRole('group', { name: 'Not planned yet' })).toBeVisible();
    },
  },
  {
    name: 'shelf, new film',
    onShelf: 'nothing',
    reach: async ({ page }) => {
      await page.getByRole('button', { name: 'Begin a new film' }).click();
      await expect(page.getByRole('dialog', { name: 'A new film' })).toBeVisible();
    },
  },
  {
    name: 'rolls, empty',
    onShelf: 'nothing',
    reach: async ({ page }) => {
      await page.getByRole('button', { name: 'Begin a new film' }).click();
      await page.getByRole('textbox', { name: 'What is it called?' }).fill(TITLE);
      await page.keyboard.press('Enter');
      await expect(page.getByText('Drop a transfer here, or add a scan.')).toBeVisible();
    },
  },
  {
    name: 'rolls, bring a scan in',
    onShelf: 'roll',
    reach: async (there) => {
      await scanOf(there, 'a second roll of the same summer.mp4', 1);
      await expect(there.page.getByRole('button', { name: 'Bring R2 in' })).toBeEnabled();
    },
  },
  {
    name: 'rolls, a roll on paper',
    onShelf: 'roll',
    reach: async ({ page }) => {
      await page.goto(`${FILM}/rolls`);
      await page.getByRole('button', { name: 'On paper' }).click();
      await expect(page.getByRole('dialog', { name: 'A roll on paper' })).toBeVisible();
    },
  },
  {
    name: 'rolls, reading',
    onShelf: 'roll',
    reach: async (there) => {
      await scanOf(there, 'long.mp4', 40);
      await there.page.getByRole('button', { name: 'Bring R2 in' }).click();
      await expect(there.page.getByRole('img', { name: 'Film from frame 0' })).toBeVisible();
    },
  },
  {
    name: 'rolls, not read',
    onShelf: 'roll',
    reach: async (there) => {
      await scanOf(there, 'letter.mp4', 0);
      await there.page.getByRole('button', { name: 'Bring R2 in' }).click();
      await expect(there.page.locator('section.slip.refused')).toBeVisible();
    },
  },
  {
    name: 'rolls, a roll',
    onShelf: 'cut',
    reach: async ({ page }) => {
      await page.goto(`${FILM}/rolls?roll=R1&frame=260`);
      await expect(page.getByRole('region', { name: 'Take card' })).toContainText('6 of 16');
    },
  },
  {
    name: 'rolls, near by',
    onShelf: 'cut',
    reach: async ({ page }) => {
      await page.goto(`${FILM}/rolls?roll=R1&frame=260&look=near`);
      await expect(page.getByRole('img', { name: 'The frame in the gate: R1 260' })).toBeVisible();
    },
  },
  {
    name: 'rolls, card filled in',
    onShelf: 'cut',
    reach: async ({ page }) => {
      await page.goto(`${FILM}/rolls?roll=R1&frame=110`);
      await page.getByRole('button', { name: 'Fill in' }).click();
      await expect(page.getByRole('textbox', { name: 'note' })).toHaveValue('too dark');
    },
  },
  {
    name: 'rolls, what a roll is',
    onShelf: 'cut',
    reach: async ({ page }) => {
      await page.goto(`${FILM}/rolls`);
      await page.getByRole('button', { name: 'About R1' }).click();
      await expect(page.getByRole('dialog', { name: 'What R1 is' })).toBeVisible();
    },
  },
  {
    name: 'rolls, a break looked at',
    onShelf: 'roll',
    reach: async ({ page }) => {
      await page.goto(`${FILM}/rolls?roll=R1&look=breaks&frame=55`);
      await expect(page.getByRole('region', { name: 'The change at 55' })).toBeVisible();
    },
  },
  {
    name: 'rolls, a note on the table',
    onShelf: 'roll',
    reach: async ({ page }) => {
      await page.goto(`${FILM}/rolls?roll=R1&frame=260`);
      await expect(page.getByRole('region', { name: 'Take card' })).toContainText('6 of 16');
      await page.getByRole('button', { name: 'Note on this frame' }).click();
      await expect(page.getByRole('textbox', { name: 'Who writes' })).toBeVisible();
    },
  },
  {
    name: 'rolls, in the hand',
    onShelf: 'cut',
    reach: async ({ page }) => {
      await page.goto(`${FILM}/rolls?roll=R1&frame=260`);
      await page.getByRole('button', { name: 'In the hand' }).click();
      const sheet = page.getByRole('dialog', { name: 'R1 in the hand' });
      await sheet.getByRole('textbox', { name: 'a hundred frames, in mm' }).fill('419.5');
      await sheet.getByRole('button', { name: 'Measure' }).first().click();
      await expect(sheet.getByRole('button', { name: /^shrinkage/ })).toBeVisible();
      await sheet.getByRole('button', { name: 'Write it down' }).click();
      await expect(sheet.getByRole('button', { name: 'There is no join at 260' })).toBeVisible();
    },
  },
  {
    name: 'rolls, limits of signs',
    onShelf: 'cut',
    reach: async ({ page }) => {
      await page.goto(`${FILM}/rolls`);
      await page.getByRole('button', { name: 'Limits of signs' }).click();
      const sheet = page.getByRole('dialog', { name: 'From where on signs are told' });
      await expect(sheet.getByRole('listitem')).toHaveCount(13);
    },
  },
  {
    name: 'rolls, reels and cans',
    onShelf: 'cut',
    reach: async ({ page }) => {
      await page.goto(`${FILM}/rolls`);
      await page.getByRole('button', { name: 'Reels and cans' }).click();
      const sheet = page.getByRole('dialog', { name: 'Reels and cans' });
      await sheet.getByRole('button', { name: 'Write a reel or can down' }).click();
      await sheet.getByRole('textbox', { name: /^wound on it/ }).fill('R1');
      await sheet.getByRole('button', { name: 'Keep' }).click();
      await expect(sheet.getByRole('row').filter({ hasText: 'Can 1' })).toContainText('9 ft');
    },
  },
  {
    name: 'rolls, a reel is written',
    onShelf: 'cut',
    reach: async ({ page }) => {
      await page.goto(`${FILM}/rolls`);
      await page.getByRole('button', { name: 'Reels and cans' }).click();
      await page.getByRole('button', { name: 'Write a reel or can down' }).click();
      await expect(page.getByRole('textbox', { name: 'kept in' })).toBeVisible();
    },
  },
  {
    name: 'rolls, a log with faults',
    onShelf: 'roll',
    reach: async ({ page }) => {
      await page.goto(`${FILM}/rolls`);
      await page.getByRole('button', { name: 'Bring a log in' }).click();
      const bad = 'roll,slate,take,in,out\nR9,3,1,0,10\nR1,3,1,50,40\n';
      await page
        .getByLabel('The file')
        .setInputFiles({ name: 'log.csv', mimeType: 'text/csv', buffer: Buffer.from(bad) });
      await expect(slip(page, '2 things to put right in log.csv.')).toBeVisible();
    },
  },
  {
    name: 'rolls, several scans',
    onShelf: 'roll',
    reach: async (there) => {
      await scanOf(there, 'R7.mp4', 1);
      await there.page.getByRole('button', { name: /^camera_roll_b/ }).click();
      await there.page.locator('label', { hasText: 'each a roll of its own' }).click();
      await expect(there.page.getByRole('button', { name: 'Read 2 rolls' })).toBeEnabled();
    },
  },
  {
    name: 'cutting, no version',
    onShelf: 'roll',
    reach: async ({ page }) => {
      await page.goto(`${FILM}/cutting`);
      await expect(page.getByRole('button', { name: 'Begin version v1' })).toBeVisible();
    },
  },
  {
    name: 'cutting, empty version',
    onShelf: 'roll',
    reach: async ({ page }) => {
      await page.goto(`${FILM}/cutting`);
      await page.getByRole('button', { name: 'Begin version v1' }).click();
      await expect(page.getByRole('button', { name: 'Lay a take in' })).toBeVisible();
    },
  },
  {
    name: 'cutting, proved',
    onShelf: 'cut',
    reach: async (there) => {
      await laid(there, FOURTEEN);
      await expect(slip(there.page, 'This cut can be made.')).toBeVisible();
    },
  },
  {
    name: 'cutting, refused',
    onShelf: 'cut',
    reach: async (there) => {
      await laid(there, [...FOURTEEN, 'R1,120,136,2-T1,,she looks up once more']);
      await expect(slip(there.page, '16 frames are wanted in 2 and 15.')).toBeVisible();
    },
  },
  {
    name: 'cutting, two strips on trial',
    onShelf: 'cut',
    reach: async (there) => {
      await laid(there, FOURTEEN);
      await there.page.locator('label', { hasText: 'Two strips' }).click();
      await rows(there.page).nth(2).click();
      await there.page.keyboard.press('ArrowUp');
      await expect(rows(there.page).nth(2)).toContainText('on trial');
    },
  },
  {
    name: 'cutting, laid over',
    onShelf: 'cut',
    reach: async (there) => {
      await laid(there, FOURTEEN);
      await there.page.locator('label', { hasText: 'Laid over' }).click();
    },
  },
  {
    name: 'cutting, lay in',
    onShelf: 'cut',
    reach: async (there) => {
      await laid(there, FOURTEEN);
      await there.page.getByRole('button', { name: 'Lay in', exact: true }).click();
      await expect(there.page.getByRole('row').filter({ hasText: '2-T1' }).first()).toBeVisible();
    },
  },
  {
    name: 'cutting, a piece is written',
    onShelf: 'cut',
    reach: async (there) => {
      await laid(there, FOURTEEN);
      await there.page.getByRole('button', { name: /^Write 2/ }).click();
      await expect(there.page.getByRole('dialog', { name: 'Piece 2' })).toBeVisible();
    },
  },
  {
    name: 'cutting, several pieces held',
    onShelf: 'cut',
    reach: async (there) => {
      await laid(there, FOURTEEN);
      await rows(there.page).nth(1).click();
      await rows(there.page)
        .nth(3)
        .click({ modifiers: ['Shift'] });
      await there.page.getByRole('button', { name: 'Joins', exact: true }).click();
      await expect(there.page.getByRole('dialog', { name: 'Joins of 2 to 4' })).toBeVisible();
    },
  },
  {
    name: 'cutting, a piece is divided',
    onShelf: 'cut',
    reach: async (there) => {
      await laid(there, FOURTEEN);
      await there.page.getByRole('button', { name: 'Divide' }).click();
      await expect(there.page.getByRole('dialog', { name: 'Divide piece 2' })).toBeVisible();
    },
  },
  {
    name: 'cutting, another take',
    onShelf: 'cut',
    reach: async (there) => {
      await laid(there, FOURTEEN);
      await there.page.getByRole('button', { name: 'Another take' }).click();
      await expect(there.page.getByRole('dialog', { name: 'Another take for 2' })).toBeVisible();
    },
  },
  {
    name: 'cutting, versions',
    onShelf: 'cut',
    reach: async (there) => {
      await laid(there, FOURTEEN);
      await there.page.getByRole('button', { name: 'version second trial' }).click();
      await expect(there.page.getByRole('dialog', { name: 'Versions' })).toBeVisible();
    },
  },
  {
    name: 'cutting, two versions beside each other',
    onShelf: 'cut',
    reach: async (there) => {
      await laid(there, FOURTEEN);
      await there.page.getByRole('button', { name: 'version second trial' }).click();
      await there.page.getByRole('button', { name: 'Compare it' }).click();
      const beside = there.page.getByRole('dialog', { name: /^From v1 to/ });
      await expect(beside.getByRole('row').nth(2)).toBeVisible();
    },
  },
  {
    name: 'cutting, a change list to print',
    onShelf: 'cut',
    reach: async (there) => {
      await laid(there, FOURTEEN);
      await there.page.getByRole('button', { name: 'version second trial' }).click();
      await there.page.getByRole('button', { name: 'Compare it' }).click();
      await there.page.getByRole('button', { name: 'Print the change list' }).click();
      await expect(there.page.getByRole('img', { name: /^Page 1 of/ })).toBeVisible();
    },
  },
  {
    name: 'cutting, on the action',
    onShelf: 'cut',
    reach: async ({ page, bench }) => {
      const film = join(bench.shelf, 'boat');
      const marks = ['--mark', '20=112', '--mark', '40=131', '--keep'];
      await command('match', film, '--from', '1-T1', '--to', '2-T1', ...marks);
      await page.goto(`${FILM}/cutting?cut=v1&join=1`);
      await page.getByRole('button', { name: /on the action$/i }).click();
      const sheet = page.getByRole('dialog', { name: /^Cut on the action/ });
      await expect(sheet.getByRole('radio', { name: /^first: / })).toBeAttached();
    },
  },
  {
    name: 'cutting, two moments are marked',
    onShelf: 'cut',
    reach: async ({ page }) => {
      await page.goto(`${FILM}/cutting?cut=v1&join=1`);
      await page.getByRole('button', { name: /on the action$/i }).click();
      await page.getByRole('button', { name: 'Mark two moments' }).first().click();
      await expect(page.getByText('The first of two moments.')).toBeVisible();
    },
  },
  {
    name: 'bench, nothing to begin',
    onShelf: 'roll',
    reach: async ({ page }) => {
      await page.goto(`${FILM}/bench`);
      await expect(page.getByText('No version has been proved yet.')).toBeVisible();
    },
  },
  {
    name: 'bench, a version to begin',
    onShelf: 'cut',
    reach: async ({ page }) => {
      await page.goto(`${FILM}/bench`);
      await expect(page.getByRole('button', { name: 'Begin v1' })).toBeEnabled();
    },
  },
  ...BENCH_SCREENS,
  {
    name: 'screening, nothing',
    onShelf: 'roll',
    reach: async ({ page }) => {
      await page.goto(`${FILM}/screening`);
      await expect(page.getByText('Nothing is cut. Run a roll instead?')).toBeVisible();
    },
  },
  {
    name: 'screening, running',
    onShelf: 'cut',
    reach: async ({ page }) => {
      await page.goto(`${FILM}/screening?roll=R1`);
      await page.getByRole('button', { name: 'Run at 18 f/s' }).click();
      await expect(page.getByRole('status').filter({ hasText: 'shown' })).toBeVisible();
    },
  },
  {
    name: 'screening, notes',
    onShelf: 'cut',
    notes: true,
    reach: async ({ page }) => {
      await page.goto(`${FILM}/screening`);
      await expect(page.getByRole('img', { name: 'The screen: R1 10' })).toBeVisible();
      for (const words of ['the gull is gone here', 'too dark; is there another take of it?']) {
        await page.keyboard.press('PageDown');
        await page.getByRole('button', { name: 'Note on this frame' }).click();
        await page.getByRole('textbox', { name: 'Your words' }).fill(words);
        await page.getByRole('button', { name: 'Keep the note' }).click();
        await expect(page.getByRole('listitem').filter({ hasText: words })).toBeVisible();
      }
      await page.keyboard.press('ArrowUp');
      await page.getByRole('button', { name: 'Note on this frame' }).click();
      await expect(page.getByRole('textbox', { name: 'Your words' })).toBeFocused();
    },
  },
  {
    name: 'screening, notes side by side',
    onShelf: 'cut',
    reach: async ({ page }) => {
      await page.goto(`${FILM}/screening`);
      await expect(page.getByRole('img', { name: 'The screen: R1 10' })).toBeVisible();
      for (const [who, words] of [
        ['Ida', 'begins too late'],
        ['Mara', 'I like the hold before she comes; leave it as it is for now'],
        ['Bram', 'too dark; is there another take of it?'],
      ] as const) {
        await page.evaluate((name) => localStorage.setItem('onestrand.who-writes', name), who);
        await page.reload();
        await expect(page.getByRole('img', { name: 'The screen: R1 10' })).toBeVisible();
        if (who === 'Bram') await page.keyboard.press('PageDown');
        await page.getByRole('button', { name: 'Note on this frame' }).click();
        await page.getByRole('textbox', { name: 'Your words' }).fill(words);
        await page.getByRole('button', { name: 'Keep the note' }).click();
        await expect(page.getByRole('listitem').filter({ hasText: words })).toBeVisible();
      }
      await page.getByRole('button', { name: 'Side by side' }).click();
      await expect(page.getByRole('columnheader', { name: 'Mara' })).toBeVisible();
    },
  },
  {
    name: 'screening, pace',
    onShelf: 'cut',
    reach: async (there) => {
      await laySheet(there, FOURTEEN);
      await there.page.goto(`${FILM}/screening?cut=second+trial`);
      await there.page.getByRole('button', { name: 'Pace' }).click();
      await expect(there.page.getByRole('dialog', { name: /^Pace of version/ })).toBeVisible();
    },
  },
  {
    name: 'screening, as the strip will run',
    onShelf: 'cut',
    reach: async ({ page }) => {
      await page.goto(`${FILM}/screening?strip=18.37`);
      await expect(page.getByRole('img', { name: /^The screen: R1 10\. Tape/ })).toBeVisible();
    },
  },
  {
    name: 'screening, reel',
    onShelf: 'cut',
    reach: async ({ page }) => {
      await page.goto(`${FILM}/screening`);
      await page.getByRole('button', { name: 'Reel', exact: true }).click();
      await expect(page.getByRole('region', { name: 'Reel 1 of 1' })).toBeVisible();
    },
  },
  {
    name: 'screening, throw',
    onShelf: 'cut',
    reach: async ({ page }) => {
      await page.goto(`${FILM}/screening`);
      await page.getByRole('button', { name: 'Throw', exact: true }).click();
      await expect(
        page.getByRole('img', { name: /^From the side: the lens 4\.54 m/ }),
      ).toBeVisible();
    },
  },
  {
    name: 'screening, runs of the originals',
    onShelf: 'cut',
    reach: async ({ page }) => {
      await page.goto(`${FILM}/screening`);
      await page.getByRole('button', { name: 'Ledger of the originals' }).click();
      await page.getByRole('textbox', { name: 'Note' }).fill('the join at the head is weak');
      await page.getByRole('button', { name: 'Write it down' }).click();
      await expect(page.getByRole('button', { name: /^Strike off/ })).toBeVisible();
    },
  },
  {
    name: 'sheets',
    onShelf: 'cut',
    reach: async ({ page }) => {
      await page.goto(`${FILM}/cutting`);
      await page.getByRole('button', { name: 'Print sheets' }).click();
      await expect(page.getByRole('img', { name: /^Page 1 of/ })).toBeVisible();
    },
  },
  {
    name: 'sheets of rolls',
    onShelf: 'cut',
    reach: async ({ page }) => {
      await page.goto(`${FILM}/rolls`);
      await page.getByRole('button', { name: 'Print sheets' }).click();
      await expect(page.getByRole('img', { name: /^Page 1 of \d of the log sheet/ })).toBeVisible();
    },
  },
  {
    name: 'all keys',
    onShelf: 'cut',
    reach: async ({ page }) => {
      await page.goto(`${FILM}/cutting`);
      await expect(rows(page)).toHaveCount(3);
      await page.keyboard.press('Shift+?');
      await expect(page.getByRole('dialog', { name: 'All keys' })).toBeVisible();
    },
  },
  {
    name: 'not connected',
    onShelf: 'cut',
    reach: async ({ page, program }) => {
      await page.goto(`${FILM}/rolls`);
      await expect(page.getByRole('heading', { name: '1-T1' })).toBeVisible();
      await program.kill();
      await expect(page.getByText(/Not connected since/)).toBeVisible();
    },
  },
];

async function picture(page: Page, name: string): Promise<void> {
  await mkdir(SCREENS, { recursive: true });
  await page.screenshot({ path: join(SCREENS, `${name}.png`), animations: 'disabled' });
}

/** The page has settled: fonts are there, and what was measured is drawn. */
async function settle(page: Page): Promise<void> {
  await page.evaluate(async () => {
    await document.fonts.ready;
    for (let drawn = 0; drawn < 3; drawn++) {
      await new Promise((done) => requestAnimationFrame(done));
    }
  });
}

for (const screen of screens) {
  test.describe(screen.name, () => {
    test.use({ onShelf: screen.onShelf });
    test.beforeEach(({ page }) => page.emulateMedia({ reducedMotion: 'reduce' }));

    test('both palettes, three windows', async ({ page, bench, program }) => {
      await screen.reach({ page, bench, program });
      const found: string[] = [];
      for (const window of WINDOWS) {
        await page.setViewportSize(window);
        await settle(page);
        const faulty = await seen(page);
        if (screen.notes) faulty.push(...(await tooSmall(page, 'Notes')));
        found.push(...faulty.map((one) => `${window.width} × ${window.height}: ${one}`));
        if (window.width !== 1440) await picture(page, `${screen.name}, ${window.width}`);
      }
      for (const palette of ['light', 'dark']) {
        await page.evaluate(
          (bench) => (document.documentElement.dataset['bench'] = bench),
          palette,
        );
        await settle(page);
        found.push(...(await faults(page)).map((fault) => `${palette}: ${fault}`));
        await picture(page, `${screen.name}, ${palette}`);
      }
      expect(found).toEqual([]);
    });

    test('words twice as large', async ({ page, bench, program }) => {
      await page.addInitScript(() => {
        const enlarge = () => (document.documentElement.style.fontSize = '200%');
        if (document.documentElement) return enlarge();
        new MutationObserver((_, watch) => {
          if (!document.documentElement) return;
          enlarge();
          watch.disconnect();
        }).observe(document, { childList: true });
      });
      await page.reload();
      await screen.reach({ page, bench, program });
      await settle(page);
      await picture(page, `${screen.name}, large`);
      expect(await seen(page)).toEqual([]);
    });
  });
}
