// The whole story once more, by keys alone: nothing here touches the mouse. Where
// a key leads is found as a person finds it: by Tab, and by what the key line says.

import type { Page } from '@playwright/test';
import { expect, slip, test, TITLE } from './film_test';

const card = (page: Page) => page.getByRole('region', { name: 'Take card' });
const rows = (page: Page) =>
  page.getByRole('grid', { name: 'Pieces in their order' }).getByRole('rowgroup').getByRole('row');
const takes = (page: Page) => page.getByRole('list', { name: /^Takes of R1/ }).getByRole('button');

/** What has the focus, as a screen reader would name it. */
function focused(page: Page): Promise<string> {
  return page.evaluate(() => {
    const at = document.activeElement;
    if (!at || at === document.body) return '';
    const labels = 'labels' in at ? [...((at as HTMLInputElement).labels ?? [])] : [];
    const named = labels.map((label) => label.textContent ?? '').join(' ');
    const said = at.getAttribute('aria-label') ?? (named || at.textContent) ?? '';
    return said.replace(/\s+/g, ' ').trim();
  });
}

/** Tab until something of this name has the focus; fails when Tab never leads there. */
async function tabTo(page: Page, name: RegExp, key = 'Tab'): Promise<void> {
  const met: string[] = [];
  for (let press = 0; press < 80; press++) {
    await page.keyboard.press(key);
    const at = await focused(page);
    if (name.test(at)) return;
    met.push(at);
  }
  throw new Error(`${key} never led to ${name}; it led to: ${[...new Set(met)].join(' · ')}`);
}

async function press(page: Page, ...keys: readonly string[]): Promise<void> {
  for (const key of keys) await page.keyboard.press(key);
}

/** From the table: opens the card, writes slate and action, keeps it. */
async function nameTake(page: Page, setup: string, action: string): Promise<void> {
  await press(page, 'Enter');
  await expect(card(page).getByLabel('scene, letter')).toBeFocused();
  await page.keyboard.type(setup);
  await tabTo(page, /^take$/);
  await page.keyboard.type('1');
  await tabTo(page, /^action$/);
  await page.keyboard.type(action);
  await press(page, 'Control+Enter');
  await expect(card(page).getByRole('heading', { name: `${setup}-T1`, exact: true })).toBeVisible();
}

test('the whole story by keys', async ({ page }) => {
  await test.step('a new production', async () => {
    await tabTo(page, /^Begin a new film$/);
    await press(page, 'Enter');
    await tabTo(page, /^What is it called\?/);
    await page.keyboard.type(TITLE);
    await press(page, 'Enter');
    await expect(page.getByRole('heading', { name: `Rolls of ${TITLE}` })).toBeVisible();
  });

  await test.step('the first roll', async () => {
    await tabTo(page, /^Add a scan$/);
    await press(page, 'Enter');
    await expect(page.getByRole('dialog', { name: 'Add a scan' })).toBeVisible();
    await tabTo(page, /^camera_roll_b/);
    await press(page, 'Space');
    await tabTo(page, /^Length on the bench/);
    await page.keyboard.type('9ft33');
    await tabTo(page, /^Bring R1 in/);
    await press(page, 'Enter');
    await expect(takes(page)).toHaveCount(16);
  });

  await test.step('two takes get their names', async () => {
    await nameTake(page, '1', 'the landing');
    await press(page, 'ArrowRight', 'ArrowRight');
    await nameTake(page, '2', 'she looks up');
    await expect(takes(page).nth(0)).toContainText('1-T1');
    await expect(takes(page).nth(2)).toContainText('2-T1');
  });

  await test.step('one steps by frame, ten, second, foot and take', async () => {
    const at = page.getByRole('button', { name: /^Break here/ });
    await press(page, 'Home', 'ArrowDown', 'Shift+ArrowDown');
    await expect(at).toContainText('114');
    await press(page, 'Control+ArrowDown');
    await expect(at).toContainText('132');
    await press(page, 'PageDown');
    await expect(at).toContainText('204');
    await press(page, 'PageUp', 'Home');
    await expect(page.getByRole('button', { name: /^Mend the break/ })).toBeVisible();
  });

  await test.step('a break is made and mended', async () => {
    await press(page, 'ArrowDown', 'Insert');
    await expect(takes(page)).toHaveCount(17);
    await press(page, 'Delete');
    await expect(takes(page)).toHaveCount(16);
    await press(page, 'ArrowLeft', 'ArrowRight');
  });

  await test.step('a cut of three pieces', async () => {
    await press(page, 'Shift+Enter');
    await expect(rows(page)).toHaveCount(1);
    await expect(rows(page).nth(0)).toContainText('2-T1');
    for (const [found, from, to] of [
      ['landing', '', ''],
      ['looks', '129', '142'],
    ] as const) {
      await press(page, 'Insert');
      await expect(page.getByRole('textbox', { name: 'find a take' })).toBeFocused();
      await page.keyboard.type(found);
      if (from) {
        await tabTo(page, /^from frame/);
        await page.keyboard.type(from);
        await tabTo(page, /^to frame/);
        await page.keyboard.type(to);
      }
      await press(page, 'Enter');
      await expect(page.getByRole('dialog', { name: /^Lay in/ })).toBeHidden();
    }
    await expect(rows(page)).toHaveCount(3);
    await expect(rows(page).nth(1)).toContainText('1-T1');
    await expect(rows(page).nth(2)).toContainText('R1·129 to 142');
  });

  await test.step('refused, and mended', async () => {
    await expect(slip(page, '14 frames are wanted in 1 and 3.')).toBeVisible();
    await tabTo(page, /^End 1 at R1·128/);
    await press(page, 'Enter');
    await expect(slip(page, '14 frames are wanted in 1 and 3.')).toBeHidden();
    await expect(rows(page).nth(0)).toContainText('R1·103 to 128');
    // Nothing is refused any more; what is left is asked.
    await expect(slip(page, /3 stands for 14 frames/)).toBeVisible();
  });

  await test.step('undo and redo', async () => {
    await press(page, 'Control+z');
    await expect(rows(page).nth(0)).toContainText('R1·103 to 142');
    await press(page, 'Control+Shift+z');
    await expect(rows(page).nth(0)).toContainText('R1·103 to 128');
  });

  await test.step('a join is nudged on either side, kept, put back, run across', async () => {
    await press(page, 'Control+Home', 'Tab', 'ArrowRight');
    await expect(page.getByRole('heading', { name: 'Join 1 | 2' })).toBeVisible();
    await press(page, 'ArrowDown', 'ArrowDown', 'Enter');
    await expect(rows(page).nth(1)).toContainText('R1·2 to 54');
    await press(page, 'ArrowLeft', 'ArrowUp');
    await expect(rows(page).nth(0)).toContainText('R1·103 to 127');
    await press(page, 'Escape');
    await expect(rows(page).nth(0)).toContainText('R1·103 to 128');
    await press(page, 'Space');
    const across = page.getByText(/before the join|after the join/);
    await expect(across).toBeVisible();
    await press(page, 'Space');
    await expect(across).toBeHidden();
  });

  await test.step('a piece is moved and moved back, lifted and brought back', async () => {
    await press(page, 'ArrowRight', 'Control+ArrowUp');
    await expect(rows(page).nth(0)).toContainText('R1·2 to 54');
    await press(page, 'Control+ArrowDown');
    await expect(rows(page).nth(0)).toContainText('R1·103 to 128');
    await expect(rows(page).nth(1)).toContainText('R1·2 to 54');
    await press(page, 'Delete');
    await expect(rows(page)).toHaveCount(2);
    await press(page, 'Control+z');
    await expect(rows(page)).toHaveCount(3);
    await expect(rows(page).nth(1)).toContainText('R1·2 to 54');
  });

  await test.step('the sheet is looked at and put away', async () => {
    await tabTo(page, /^Print sheets/, 'Shift+Tab');
    await press(page, 'Enter');
    const sheets = page.getByRole('dialog', { name: 'Sheets of v1' });
    await expect(sheets.getByRole('img', { name: /^Page 1 of/ })).toBeVisible();
    const saving = page.waitForEvent('download');
    await tabTo(page, /^Save as PDF/);
    await press(page, 'Enter');
    expect((await saving).suggestedFilename()).toMatch(/\.pdf$/);
    await press(page, 'Escape');
    await expect(sheets).toBeHidden();
  });

  await test.step('it is run, and a note falls on a frame', async () => {
    await tabTo(page, /^Screening$/);
    await press(page, 'Enter');
    await expect(page.getByRole('img', { name: /^The screen: R1/ })).toBeVisible();
    await press(page, 'Home', 'ArrowDown', 'ArrowDown', 'ArrowDown', 'Enter');
    await expect(page.getByRole('textbox', { name: 'Your words' })).toBeFocused();
    await page.keyboard.type('too dark here');
    await press(page, 'Control+Enter');
    const note = page.getByRole('region', { name: 'Notes' }).getByRole('listitem');
    await expect(note).toContainText('R1·106');
    await press(page, 'Home', 'Space');
    await expect(page.getByRole('button', { name: 'Stop' })).toBeVisible();
    const counted = page.getByRole('status').filter({ hasText: /\d+ shown, \d+ dropped/ });
    await expect(counted).toBeVisible();
    await press(page, 'Space');
    await expect(page.getByRole('button', { name: 'Run at 18 f/s' })).toBeVisible();
  });

  await test.step('loaded anew, all of it is there', async () => {
    await press(page, 'F5');
    await expect(page.getByRole('region', { name: 'Notes' })).toContainText('too dark here');
    await tabTo(page, /^Cutting$/);
    await press(page, 'Enter');
    await expect(rows(page)).toHaveCount(3);
    await expect(rows(page).nth(0)).toContainText('R1·103 to 128');
    await expect(rows(page).nth(1)).toContainText('R1·2 to 54');
    await tabTo(page, /^Rolls$/);
    await press(page, 'Enter');
    await expect(takes(page).nth(2)).toContainText('2-T1');
    // The room has its keys at once, without a step on the way.
    await press(page, 'Enter');
    await expect(card(page).getByLabel('scene, letter')).toBeFocused();
    await press(page, 'Escape');
  });

  await test.step('the sheet of all keys opens and closes', async () => {
    await press(page, 'Shift+?');
    const all = page.getByRole('dialog', { name: 'All keys' });
    await expect(all).toBeVisible();
    await expect(all).toContainText('one foot on');
    await press(page, 'Escape');
    await expect(all).toBeHidden();
  });
});
