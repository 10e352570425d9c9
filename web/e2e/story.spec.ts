// From the empty shelf to the printed sheet, as somebody would do it with the
// mouse who has never seen the page before.

import { readFile } from 'node:fs/promises';
import type { Page } from '@playwright/test';
import { expect, SCAN, slip, test, TITLE } from './film_test';

const card = (page: Page) => page.getByRole('region', { name: 'Take card' });
const rows = (page: Page) =>
  page.getByRole('grid', { name: 'Pieces in their order' }).getByRole('rowgroup').getByRole('row');
const takes = (page: Page) => page.getByRole('list', { name: /^Takes of R1/ }).getByRole('button');

async function beginFilm(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Begin a new film' }).click();
  await page.getByRole('textbox', { name: 'What is it called?' }).fill(TITLE);
  await page.getByRole('button', { name: 'Begin the film' }).click();
  await expect(page.getByRole('heading', { name: `Rolls of ${TITLE}` })).toBeVisible();
}

async function bringRollIn(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Add a scan' }).first().click();
  const sheet = page.getByRole('dialog', { name: 'Add a scan' });
  await sheet.getByRole('button', { name: 'scans', exact: true }).click();
  await sheet.getByRole('button', { name: /camera_roll_b/ }).click();
  await sheet.getByRole('textbox', { name: /Length on the bench/ }).fill('9ft33');
  const seen = page.getByRole('progressbar', { name: /R1/ }).waitFor();
  await sheet.getByRole('button', { name: 'Bring R1 in' }).click();
  await seen;
  // What stands in shot_changes.csv: 15 splices, so 16 takes.
  await expect(takes(page)).toHaveCount(16);
  await expect(page.getByText('15 boundaries, 16 takes', { exact: false })).toBeVisible();
  await expect(page.getByRole('heading', { name: 'R1 agrees with the ruler' })).toBeVisible();
  for (const range of ['0–54', '55–102', '103–142', '585–595', '631–680']) {
    await expect(takes(page).filter({ hasText: range })).toHaveCount(1);
  }
}

async function nameTake(page: Page, nth: number, setup: string, action: string): Promise<void> {
  await takes(page).nth(nth).click();
  await card(page).getByRole('button', { name: 'Fill in' }).click();
  await card(page).getByLabel('scene, letter').fill(setup);
  await card(page).getByRole('textbox', { name: 'take', exact: true }).fill('1');
  await card(page).getByRole('textbox', { name: 'action' }).fill(action);
  await card(page).getByRole('button', { name: 'Keep' }).click();
  await expect(card(page).getByRole('heading', { name: `${setup}-T1`, exact: true })).toBeVisible();
  await expect(takes(page).nth(nth)).toContainText(`${setup}-T1`);
}

/** Lays a take in from its table, whole or from one frame to another. */
async function layIn(page: Page, range: string, from?: string, to?: string): Promise<void> {
  await page.getByRole('button', { name: 'Lay in', exact: true }).click();
  const sheet = page.getByRole('dialog', { name: /^Lay in/ });
  await sheet.getByRole('row').filter({ hasText: range }).click();
  if (from) await sheet.getByRole('textbox', { name: /^from frame/ }).fill(from);
  if (to) await sheet.getByRole('textbox', { name: 'to frame' }).fill(to);
  await sheet.getByRole('button', { name: /^Lay .* in / }).click();
  await expect(sheet).toBeHidden();
}

test('a film is begun, brought in, cut, refused, mended, run, noted, printed, found again', async ({
  page,
}) => {
  await test.step('a new production, and its first roll', async () => {
    await beginFilm(page);
    await bringRollIn(page);
  });

  await test.step('two takes get their names', async () => {
    await nameTake(page, 0, '1', 'the landing');
    await nameTake(page, 2, '2', 'she looks up');
    await card(page).locator('label', { hasText: 'circled' }).click();
    await expect(takes(page).nth(2)).toContainText('circled');
  });

  await test.step('a cut of three pieces, in the order in which they were laid in', async () => {
    await card(page).getByRole('button', { name: 'Lay in' }).click();
    await expect(rows(page)).toHaveCount(1);
    await expect(rows(page).nth(0)).toContainText('2-T1');
    await layIn(page, 'R1·0 to 54');
    await layIn(page, 'R1·103 to 142', '129', '142');
    await expect(rows(page)).toHaveCount(3);
    await expect(rows(page).nth(1)).toContainText('1-T1');
    await expect(rows(page).nth(2)).toContainText('R1·129 to 142');
  });

  await test.step('the strand check refuses at the place, and one click mends', async () => {
    const refused = slip(page, '14 frames are wanted in 1 and 3.');
    await expect(refused).toContainText('The film has them once.');
    await expect(rows(page).nth(1)).toContainText('14 frames twice');
    await refused.getByRole('button', { name: /^End 1 at R1·128/ }).click();
    await expect(slip(page, 'This cut can be made.')).toBeVisible();
    await expect(rows(page).nth(0)).toContainText('R1·103 to 128');
  });

  await test.step('undo takes it back, redo makes it again', async () => {
    await page.getByRole('button', { name: 'Undo' }).click();
    await expect(rows(page).nth(0)).toContainText('R1·103 to 142');
    await expect(slip(page, '14 frames are wanted in 1 and 3.')).toBeVisible();
    await page.getByRole('button', { name: 'Redo' }).click();
    await expect(rows(page).nth(0)).toContainText('R1·103 to 128');
    await expect(slip(page, 'This cut can be made.')).toBeVisible();
    // 26 + 55 + 14 frames, in every unit.
    await expect(page.getByRole('button', { name: /^length of v1: 1 ft 23 fr/ })).toBeVisible();
    await expect(page.getByRole('button', { name: /^frames of v1: 95 frames/ })).toBeVisible();
  });

  await test.step('it is run, and what was shown is counted', async () => {
    await page.getByRole('link', { name: 'Screening' }).click();
    await page.getByRole('button', { name: 'Run at 18 f/s' }).click();
    await expect(page.getByRole('button', { name: 'Stop' })).toBeVisible();
    await expect(page.getByRole('button', { name: 'Run at 18 f/s' })).toBeVisible();
    const counted = page.getByRole('status').filter({ hasText: /\d+ shown, \d+ dropped/ });
    const [shown, dropped] = ((await counted.textContent()) ?? '').match(/\d+/g) ?? [];
    expect(Number(shown)).toBeGreaterThan(0);
    expect(Number(shown) + Number(dropped)).toBe(95);
  });

  await test.step('a note falls on a frame', async () => {
    await page.keyboard.press('Home');
    for (let press = 0; press < 5; press++) await page.keyboard.press('ArrowDown');
    await page.getByRole('button', { name: 'Note on this frame' }).click();
    const notes = page.getByRole('region', { name: 'Notes' });
    await expect(notes).toContainText('On R1·108');
    await notes.getByRole('textbox', { name: 'Your words' }).fill('too dark here');
    await notes.getByRole('button', { name: 'Keep the note' }).click();
    await expect(notes.getByRole('listitem')).toContainText('R1·108');
    await expect(notes.getByRole('listitem')).toContainText('too dark here');
  });

  await test.step('the sheet is looked at, and is a PDF', async () => {
    await page.getByRole('link', { name: 'Cutting' }).click();
    await page.getByRole('button', { name: 'Print sheets' }).click();
    const sheets = page.getByRole('dialog', { name: 'Sheets of v1' });
    const pages = sheets.getByRole('img', { name: /^Page \d of \d of the pull list/ });
    await expect(pages.first()).toBeVisible();
    await expect
      .poll(() => pages.first().evaluate((image: HTMLImageElement) => image.naturalHeight))
      .toBeGreaterThan(500);
    await expect(sheets).not.toContainText('NOT PROVED');
    const saving = page.waitForEvent('download');
    await sheets.getByRole('link', { name: 'Save as PDF' }).click();
    const saved = await readFile(await (await saving).path());
    expect(saved.subarray(0, 5).toString()).toBe('%PDF-');
    await page.keyboard.press('Escape');
  });

  await test.step('loaded anew, all of it is there', async () => {
    await page.reload();
    await expect(rows(page)).toHaveCount(3);
    await expect(rows(page).nth(0)).toContainText('R1·103 to 128');
    await expect(rows(page).nth(1)).toContainText('1-T1 The landing');
    await page.getByRole('link', { name: 'Rolls' }).click();
    await expect(takes(page).nth(0)).toContainText('1-T1');
    await expect(takes(page).nth(2)).toContainText('2-T1');
    await page.getByRole('link', { name: 'Screening' }).click();
    await expect(page.getByRole('region', { name: 'Notes' })).toContainText('too dark here');
    await page.getByRole('link', { name: /To the shelf/ }).click();
    await expect(page.getByRole('link', { name: new RegExp(TITLE) })).toContainText('1 version');
  });
});

test('a file dropped on the shelf that lies in a chosen folder is used where it lies', async ({
  page,
  bench,
}) => {
  const bytes = (await readFile(SCAN)).toString('base64');
  const carried = await page.evaluateHandle((given) => {
    const file = Uint8Array.from(atob(given), (letter) => letter.charCodeAt(0));
    const transfer = new DataTransfer();
    transfer.items.add(new File([file], 'camera_roll_b.mp4', { type: 'video/mp4' }));
    return transfer;
  }, bytes);
  await page
    .getByRole('region', { name: 'The shelf', exact: true })
    .dispatchEvent('drop', { dataTransfer: carried });
  const asked = page.getByRole('dialog', { name: 'A new film' });
  await expect(asked).toContainText('camera_roll_b.mp4 will be its first roll.');
  await asked.getByRole('textbox', { name: 'What is it called?' }).fill(TITLE);
  await asked.getByRole('button', { name: 'Begin the film' }).click();

  const sheet = page.getByRole('dialog', { name: 'Add a scan' });
  await expect(sheet).toContainText('camera_roll_b.mp4');
  await sheet.getByRole('button', { name: 'Bring R1 in' }).click();
  await expect(takes(page)).toHaveCount(16);
  // It was found in the folder, not copied.
  await page.getByRole('button', { name: 'About R1' }).click();
  await expect(page.getByRole('dialog', { name: 'What R1 is' })).toContainText(bench.media);
});
