// Breaks as evidence: walked through by one key, decided on, and never undone by a
// new reading; the roll watched through, with notes that fall on its frames.

import { copyFile, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Page } from '@playwright/test';
import { expect, FILM, SCAN, slip, test } from './film_test';

const changes = (page: Page) => page.getByRole('list', { name: 'Where the film of R1 changes' });
const change = (page: Page, at: number) =>
  changes(page)
    .getByRole('button')
    .filter({ hasText: new RegExp(`^${at} `) });
const said = (page: Page, at: number) =>
  page.getByRole('region', { name: `The change at ${at}`, exact: true });
const takes = (page: Page) => page.getByRole('list', { name: /^Takes of R1/ }).getByRole('button');

test.use({ onShelf: 'roll' });

test('breaks are walked through, moved, made one and two again, and no new reading undoes it', async ({
  page,
  bench,
}) => {
  await test.step('the first that nobody has looked at, by one key', async () => {
    await page.goto(`${FILM}/rolls`);
    await expect(takes(page)).toHaveCount(16);
    await page.keyboard.press('F4');
    await expect(said(page, 55)).toContainText('15 breaks to look at');
    // The last frame before it and the first after lie side by side.
    await expect(said(page, 55).getByRole('button', { name: /^54 last before/ })).toBeVisible();
    await expect(said(page, 55).getByRole('button', { name: /^55 first after/ })).toBeVisible();
    await expect(said(page, 55).getByRole('listitem').first()).toContainText('picture changes');
    const strength = said(page, 55).getByRole('button', { name: /^strength of the break/ });
    await strength.click();
    await expect(page.getByRole('dialog', { name: /strength of the break/ })).toContainText(
      'a break is told from',
    );
    await page.keyboard.press('Escape');
  });

  await test.step('one key lets it stand and leads to the next', async () => {
    await page.getByRole('region', { name: 'Light table with R1' }).focus();
    await page.keyboard.press('Enter');
    await expect(change(page, 55)).toContainText('it stands');
    await expect(said(page, 103)).toContainText('14 breaks to look at');
  });

  await test.step('it is moved to the frame one steps to', async () => {
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('F6');
    await expect(change(page, 105)).toContainText('it stands');
    await expect(change(page, 103)).toContainText('taken back');
    await expect(said(page, 105)).toContainText('The reading saw no break here. Somebody set it.');
  });

  await test.step('two takes become one, and another two again', async () => {
    await page.keyboard.press('ArrowRight');
    await expect(said(page, 143)).toBeVisible();
    await page.keyboard.press('Delete');
    await expect(change(page, 143)).toContainText('taken back');
    await change(page, 103).click();
    await said(page, 103).getByRole('button', { name: 'Begin a take here' }).click();
    await expect(change(page, 103)).toContainText('it stands');
  });

  const decided = async () => {
    await expect(change(page, 55)).toContainText('it stands');
    await expect(change(page, 103)).toContainText('it stands');
    await expect(change(page, 105)).toContainText('it stands');
    await expect(change(page, 143)).toContainText('taken back');
    await expect(said(page, 55)).toContainText('12 breaks to look at');
  };

  await test.step('all of it is kept', async () => {
    await page.goto(`${FILM}/rolls?look=breaks&frame=55`);
    await decided();
  });

  await test.step('a new reading makes pictures, and leaves every decision', async () => {
    await rm(join(bench.shelf, 'boat', 'workprints'), { recursive: true });
    await page.goto(`${FILM}/rolls?look=breaks&frame=55`);
    await slip(page, 'The pictures of R1 are gone.').getByRole('button').first().click();
    await expect(slip(page, 'The pictures of R1 are gone.')).toBeHidden();
    await expect(said(page, 55).getByRole('listitem').first()).toContainText('picture changes');
    await decided();
  });
});

test('what the reading found of the transfer is counted, and each count opens its sum', async ({
  page,
}) => {
  await page.goto(`${FILM}/rolls`);
  const count = (name: RegExp) => page.getByRole('button', { name });
  await expect(count(/^frames of the file: 686 file frames/)).toBeVisible();
  // Five pictures of the first take stand twice in the file.
  await count(/^doublings of the machine: 5 doubled/).click();
  const sum = page.getByRole('dialog', { name: 'The sum of doublings of the machine' });
  await expect(sum.getByRole('row')).toHaveCount(7);
  await expect(sum).toContainText('left out of the count');
  await page.keyboard.press('Escape');
  const card = page.getByRole('region', { name: 'Take card' });
  await expect(card.getByRole('heading', { name: 'the scan: doubled' })).toHaveCount(5);
});

test('a roll is watched through, and notes fall on its frames while it runs', async ({ page }) => {
  await page.goto(`${FILM}/rolls`);
  await page.getByRole('button', { name: 'Watch R1 through' }).click();
  await expect(page.getByRole('button', { name: 'Run at 18 f/s' })).toBeVisible();
  await page.keyboard.press('Space');
  await expect(page.getByRole('button', { name: 'Stop' })).toBeVisible();
  await page.waitForFunction(
    () => Number(document.querySelector('.plate')?.textContent?.match(/(\d+)\s*frames/)?.[1]) > 5,
  );
  await page.keyboard.press('Enter');
  const notes = page.getByRole('region', { name: 'Notes' });
  await expect(notes.getByRole('textbox', { name: 'Your words' })).toBeFocused();
  const on = /R1·(\d+)/.exec((await notes.textContent()) ?? '')?.[1] ?? '';
  expect(Number(on)).toBeGreaterThan(5);
  await page.keyboard.type('the gulls are too near');
  await page.keyboard.press('Control+Enter');
  // It runs on behind the note.
  await expect(notes.getByRole('listitem')).toContainText(`R1·${on}`);
  await expect(page.getByRole('button', { name: 'Stop' })).toBeVisible();
  await page.keyboard.press('Space');
  await page.getByRole('button', { name: 'Back to the roll' }).click();
  await expect(takes(page)).toHaveCount(16);
  await page.goto(`${FILM}/rolls?roll=R1&frame=${on}`);
  const card = page.getByRole('region', { name: 'Take card' });
  await expect(card.getByRole('article')).toContainText('the gulls are too near');
});

test('a note on the table is signed by who writes, and another leaves it alone', async ({
  page,
}) => {
  await page.goto(`${FILM}/rolls?roll=R1&frame=40`);
  const table = page.getByRole('region', { name: 'Light table with R1' });
  const notes = page.getByRole('region', { name: 'Take card' }).getByRole('article');
  const keep = async (words: string, who: string | null) => {
    await table.focus();
    await page.keyboard.press('F2');
    const sheet = page.getByRole('dialog', { name: /^Note on R1/ });
    await sheet.getByRole('textbox', { name: 'Your words' }).fill(words);
    if (who !== null) await sheet.getByRole('textbox', { name: 'Who writes' }).fill(who);
    else await expect(sheet).toContainText('Signed Ida.');
    await sheet.getByRole('button', { name: 'Keep' }).click();
    await expect(sheet).toBeHidden();
  };
  await keep('the gulls are too near', 'Ida');
  await expect(notes.filter({ hasText: 'too near' })).toBeVisible();
  // The browser keeps the name.
  await page.reload();
  await expect(notes.filter({ hasText: 'too near' })).toBeVisible();
  await keep('and here too far', null);
  await expect(notes.filter({ hasText: 'too far' }).getByText('Rewrite')).toBeVisible();

  await page.evaluate(() => localStorage.setItem('onestrand.who-writes', 'Mara'));
  await page.goto(`${FILM}/screening?roll=R1&frame=40`);
  await expect(page.getByRole('region', { name: 'Notes', exact: true })).toContainText('Ida');
  await page.goto(`${FILM}/rolls?roll=R1&frame=40`);
  await expect(notes.filter({ hasText: 'too near' })).toBeVisible();
  await expect(notes.getByText('Rewrite')).toHaveCount(0);
});

test('a shelf of scans is read in one go, and one that is no film keeps no other', async ({
  page,
  bench,
}) => {
  await copyFile(SCAN, join(bench.media, 'R7.mp4'));
  await writeFile(join(bench.media, 'letter.mp4'), 'no film\n');
  await page.goto(`${FILM}/rolls`);
  await page.getByRole('button', { name: 'Add a scan' }).click();
  const sheet = page.getByRole('dialog', { name: 'Add a scan' });
  await sheet.getByRole('button', { name: 'scans', exact: true }).click();
  for (const name of [/^letter/, /^R7/, /^camera_roll_b/]) {
    await sheet.getByRole('button', { name }).click();
  }
  await sheet.locator('label', { hasText: 'each a roll of its own' }).click();
  await expect(sheet).toContainText('They will be letter, R7, camera_roll_b.');
  await sheet.getByRole('button', { name: 'Read 3 rolls' }).click();
  const told = slip(page, '2 of 3 rolls have been read.');
  await expect(told).toBeVisible({ timeout: 60_000 });
  const summedUp = async () => {
    await expect(told.getByRole('row').filter({ hasText: 'R7' })).toContainText(
      '681 frames, 9 ft 33 fr, 16 takes, 15 breaks. Signs: ',
    );
    await expect(told.getByRole('row').filter({ hasText: 'letter.mp4' })).toContainText('not read');
  };
  await summedUp();
  // It is the program that keeps it, until somebody puts it away.
  await page.reload();
  await summedUp();
  await told.getByRole('button', { name: 'Put away' }).click();
  await expect(told).toBeHidden();
  await page.reload();
  await expect(page.getByRole('list', { name: /^Takes of/ })).toBeVisible();
  await expect(told).toBeHidden();
});

test('limits of signs are moved, signs are told anew at once, and put back', async ({ page }) => {
  await page.goto(`${FILM}/rolls?roll=R1&frame=60`);
  const card = page.getByRole('region', { name: 'Take card' });
  await expect(card).toContainText('2 of 16');
  const told = () => card.getByRole('heading', { name: /^sign: soft/ }).count();
  const before = await told();
  const move = async (value: string) => {
    await card.getByRole('button', { name: 'Limits of signs' }).click();
    const sheet = page.getByRole('dialog', { name: 'From where on signs are told' });
    await expect(sheet.getByRole('listitem')).toHaveCount(13);
    await expect(sheet).not.toContainText(/\b(good|bad)\b/i);
    const soft = sheet.getByRole('listitem').first();
    if (value) {
      await soft.getByRole('textbox').fill(value);
      await soft.getByRole('textbox').press('Enter');
    } else await soft.getByRole('button', { name: /^Put soft back/ }).click();
    await expect(soft.getByRole('textbox')).toHaveValue(value || '0.7');
    await sheet.getByRole('button', { name: 'Put away' }).last().click();
  };
  await move('1');
  await expect.poll(told).toBeGreaterThan(before);
  await move('');
  await expect.poll(told).toBe(before);
});
