// The cutting sheet with several pieces at once: held, moved, lifted, joined; one
// divided, another take in its place; versions assembled, named and noted.

import { readFile } from 'node:fs/promises';
import type { Page } from '@playwright/test';
import { expect, FILM, test } from './film_test';

test.use({ onShelf: 'cut' });

const rows = (page: Page) =>
  page
    .getByRole('grid', { name: 'Pieces in their order' })
    .locator('[role="rowgroup"] [role="row"]');
/** The film of each row, as `R1·10 to 49`. */
const films = async (page: Page) => {
  const texts = await rows(page).locator('.film').allTextContents();
  return texts.map((text) => text.trim());
};
const HELD_TOGETHER = ['R1·110 to 139', 'R1·65 to 99'];

test('several pieces are held by keys, moved together, joined and lifted, and all is taken back', async ({
  page,
}) => {
  await page.goto(`${FILM}/cutting?cut=v1&join=1`);
  await expect(rows(page)).toHaveCount(3);
  expect(await films(page)).toEqual(['R1·10 to 49', ...HELD_TOGETHER]);

  await test.step('held from the second to the third, and said', async () => {
    await rows(page).nth(1).click();
    await page.keyboard.press('Control+Shift+ArrowDown');
    await expect(page.getByText('2 pieces held: 0 ft 65 fr, 3.6 s.')).toBeVisible();
    await expect(rows(page).nth(1)).toHaveAttribute('aria-selected', 'true');
    await expect(rows(page).nth(2)).toHaveAttribute('aria-selected', 'true');
    await expect(rows(page).nth(0)).toHaveAttribute('aria-selected', 'false');
  });
  await test.step('moved before the first', async () => {
    await page.keyboard.press('Control+ArrowUp');
    await expect.poll(() => films(page)).toEqual([...HELD_TOGETHER, 'R1·10 to 49']);
    await expect(page.getByText('2 pieces held')).toBeVisible();
  });
  await test.step('joined otherwise', async () => {
    await page.keyboard.press('F2');
    const joins = page.getByRole('dialog', { name: 'Joins of 1 to 2' });
    await joins.getByRole('button', { name: 'weld' }).click();
    await expect(page.getByLabel('weld join of 1 | 2')).toBeVisible();
    await expect(page.getByLabel('weld join of 2 | 3')).toBeVisible();
  });
  await test.step('lifted', async () => {
    await page.keyboard.press('Delete');
    await expect.poll(() => films(page)).toEqual(['R1·10 to 49']);
  });
  await test.step('three steps back', async () => {
    for (let step = 0; step < 3; step += 1) await page.keyboard.press('Control+z');
    await expect.poll(() => films(page)).toEqual(['R1·10 to 49', ...HELD_TOGETHER]);
    await expect(page.getByLabel('weld join of 1 | 2')).toHaveCount(0);
  });
  await test.step('Shift and the mouse hold a stretch, Esc lets go', async () => {
    await rows(page).nth(0).click();
    await rows(page)
      .nth(2)
      .click({ modifiers: ['Shift'] });
    await expect(page.getByText('3 pieces held')).toBeVisible();
    await page.keyboard.press('Escape');
    await expect(page.getByText('3 pieces held')).toHaveCount(0);
  });
});

test('a piece is divided and another take laid between; another take stands for a piece', async ({
  page,
}) => {
  await page.goto(`${FILM}/cutting?cut=v1&join=1`);
  await expect(rows(page)).toHaveCount(3);
  await rows(page).nth(1).click();

  await test.step('divided at the frame that the arrows lead to', async () => {
    await page.keyboard.press('Control+Insert');
    const card = page.getByRole('dialog', { name: 'Divide piece 2' });
    const field = card.getByLabel('the second part begins at');
    await expect(field).toHaveValue('125');
    await field.press('Shift+ArrowUp');
    await field.press('ArrowDown');
    await expect(field).toHaveValue('116');
    await field.fill('110');
    await expect(card.getByText('Write a frame from 111 to 139.')).toBeVisible();
    await expect(card.getByRole('button', { name: 'Divide here' })).toBeDisabled();
    await field.fill('116');
    await card.getByRole('button', { name: 'Divide and lay a take between' }).click();
    await expect
      .poll(() => films(page))
      .toEqual(['R1·10 to 49', 'R1·110 to 115', 'R1·116 to 139', 'R1·65 to 99']);
  });
  await test.step('another take is laid between the two parts', async () => {
    const dialogue = page.getByRole('dialog', { name: 'Lay in after 2' });
    await dialogue.getByLabel('find a take').fill('1-T2');
    await dialogue.getByLabel('from frame, the whole take if left empty').fill('56');
    await dialogue.getByLabel('to frame').fill('60');
    await dialogue.getByRole('button', { name: /^Lay 1-T2 in after 2/ }).click();
    await expect.poll(async () => (await films(page))[2]).toBe('R1·56 to 60');
  });
  await test.step('another take for the first piece, as long and as far in as that was', async () => {
    await rows(page).nth(0).click();
    await page.keyboard.press('ArrowLeft');
    await page.getByRole('button', { name: 'Another take' }).click();
    const dialogue = page.getByRole('dialog', { name: 'Another take for 1' });
    await expect(dialogue.getByRole('row').nth(1)).toContainText('1-T2');
    await dialogue.getByRole('button', { name: /^Put 1-T2 in its place/ }).click();
    await expect.poll(async () => (await films(page))[0]).toBe('R1·63 to 102');
  });
});

test('a version is assembled from the circled takes, named and noted', async ({ page }) => {
  await page.goto(`${FILM}/cutting?cut=v1`);
  await expect(rows(page)).toHaveCount(3);
  const version = page.getByRole('button', { name: /^version/ });
  await version.click();
  const card = page.getByRole('dialog', { name: 'Versions' });
  await card.getByLabel('name of the new one').fill('assembly');
  await card.getByRole('button', { name: 'Assemble the circled takes' }).click();
  await expect(version).toContainText('assembly');
  // The takes of the log that say yes, whole.
  await expect.poll(() => films(page)).toEqual(['R1·0 to 54', 'R1·103 to 142']);
  await version.click();
  await card.getByLabel('name', { exact: true }).fill('evening');
  await card.getByLabel('note', { exact: true }).fill('for the club');
  await card.getByRole('button', { name: 'Keep name and note' }).click();
  await expect(version).toContainText('evening');
  await expect(card.getByRole('button', { name: /^evening/ })).toContainText('for the club');
  await page.keyboard.press('Escape');
  await expect(card).toBeHidden();
  await page.reload();
  await expect(version).toContainText('evening');
});

test('a join runs as it was and as it is on trial', async ({ page }) => {
  await page.goto(`${FILM}/cutting?cut=v1&join=1`);
  await expect(rows(page)).toHaveCount(3);
  await page
    .getByRole('region', { name: /^Light table/ })
    .or(page.getByLabel(/^Light table/))
    .first()
    .focus();
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('Shift+Space');
  const running = page.getByLabel('film running across the join');
  await expect(running).toBeVisible();
  await expect(page.getByText(/^as the sheet has it, /)).toBeVisible();
  await expect(page.getByText(/^on trial, .*the join/)).toBeVisible();
  await page.getByRole('button', { name: 'Before, after' }).click();
  await expect(page.getByText(/^as the sheet has it, /)).toHaveCount(0);
  await page.keyboard.press('Escape');
  await expect(running).toHaveCount(0);
});

test('two versions stand beside each other, and a question is answered once', async ({ page }) => {
  await page.goto(`${FILM}/cutting?cut=v1&join=1`);
  await expect(rows(page)).toHaveCount(3);
  const version = page.getByRole('button', { name: /^version/ });
  await version.click();
  await page
    .getByRole('dialog', { name: 'Versions' })
    .getByRole('button', { name: 'Begin it as v1 stands' })
    .click();
  await expect(version).toContainText('v2');
  await expect(rows(page)).toHaveCount(3);

  await test.step('the second is lifted and the first divided with a frame less', async () => {
    await rows(page).nth(1).click();
    await page.keyboard.press('Delete');
    await expect(rows(page)).toHaveCount(2);
    await rows(page).nth(0).click();
    await page.keyboard.press('Control+Insert');
    const card = page.getByRole('dialog', { name: 'Divide piece 1' });
    await card.getByLabel('the second part begins at').fill('30');
    await card.getByRole('button', { name: 'Divide here' }).click();
    await expect(rows(page)).toHaveCount(3);
    for (let press = 0; press < 8; press += 1) await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Enter');
    await expect.poll(() => films(page)).toEqual(['R1·10 to 29', 'R1·38 to 49', 'R1·65 to 99']);
  });

  await test.step('the hop is asked, answered, kept over a reload, and asked again', async () => {
    const asked = page.getByRole('heading', { name: /1-T1 is joined to itself across 8 frames/ });
    await expect(asked).toBeVisible();
    await page.getByRole('button', { name: 'Leave it so' }).click();
    await expect(page.getByText('left so')).toBeVisible();
    await expect(page.getByRole('button', { name: 'Leave it so' })).toHaveCount(0);
    await page.reload();
    await expect(page.getByText('left so')).toBeVisible();
    await page.getByRole('button', { name: 'Ask again' }).click();
    await expect(page.getByRole('button', { name: 'Leave it so' })).toBeVisible();
  });

  await test.step('beside each other, then as a change list', async () => {
    await version.click();
    await page
      .getByRole('dialog', { name: 'Versions' })
      .getByRole('button', { name: 'Compare it' })
      .click();
    const beside = page.getByRole('dialog', { name: 'From v1 to v2' });
    await expect(beside).toContainText('67 frames stay as they lie, 38 go out.');
    await expect(beside.getByRole('row').filter({ hasText: 'lifted' })).toContainText('2-T1');
    await beside.locator('label', { hasText: 'Change list' }).click();
    const list = beside.getByRole('grid', { name: 'Change list' });
    await expect(list.getByRole('row').nth(1)).toContainText('R1·30 to 37');
    await expect(list.getByRole('row').nth(2)).toContainText('R1·110 to 139');
  });

  await test.step('the change list is looked at, kept as PDF and table, and put away', async () => {
    const beside = page.getByRole('dialog', { name: 'From v1 to v2' });
    await beside.getByRole('button', { name: 'Print the change list' }).click();
    const printed = page.getByRole('dialog', { name: 'Change list from v1 to v2' });
    const first = printed.getByRole('img', { name: /^Page 1 of \d of the change list/ });
    await expect
      .poll(() => first.evaluate((image) => (image as HTMLImageElement).naturalWidth))
      .toBeGreaterThan(0);
    await expect(printed.getByRole('button', { name: 'Print', exact: true })).toBeEnabled();
    const kept = async (name: string) => {
      const begun = page.waitForEvent('download');
      await printed.getByRole('link', { name }).click();
      const file = await begun;
      return { name: file.suggestedFilename(), text: await readFile(await file.path(), 'latin1') };
    };
    const paper = await kept('Save as PDF');
    expect(paper.name).toBe('v1-to-v2-change-list.pdf');
    expect(paper.text.slice(0, 5)).toBe('%PDF-');
    const table = await kept('Save as a table (CSV)');
    expect(table.name).toBe('v1-to-v2-change-list.csv');
    const lines = table.text.trimEnd().split('\r\n');
    expect(lines).toHaveLength(3);
    expect(lines[1]).toContain(',R1,30,38,');
    expect(lines[2]).toContain(',R1,110,140,');
    await printed.getByRole('button', { name: 'Put away' }).click();
    await expect(printed).toBeHidden();
    await expect(beside.getByRole('button', { name: 'Print the change list' })).toBeFocused();
    await beside.getByRole('button', { name: 'Lay v1 on the sheet' }).click();
    await expect(version).toContainText('v1');
  });
});

test('by keys alone a question is left so with a note, the note changed, and it is asked again', async ({
  page,
}) => {
  await page.goto(`${FILM}/cutting?cut=v1&join=1`);
  await expect(rows(page)).toHaveCount(3);
  await test.step('a piece is joined to itself with eight frames less', async () => {
    await rows(page).nth(0).click();
    await page.keyboard.press('Control+Insert');
    const card = page.getByRole('dialog', { name: 'Divide piece 1' });
    await card.getByLabel('the second part begins at').fill('30');
    await card.getByRole('button', { name: 'Divide here' }).click();
    await expect(rows(page)).toHaveCount(4);
    for (let press = 0; press < 8; press += 1) await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Enter');
    await expect.poll(() => films(page)).toContain('R1·38 to 49');
  });

  const leave = page.getByRole('button', { name: 'Leave it so' });
  const line = page.getByLabel('why it is meant so');
  const left = page.getByRole('group', { name: /^Left so: 1-T1 is joined to itself/ });
  await test.step('F6 goes to what is said of the join, and why is written', async () => {
    await expect(leave).toBeVisible();
    const table = page.getByLabel(/^Light table/);
    await table.focus();
    await page.keyboard.press('F6');
    await expect(leave).toBeFocused();
    await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
    await expect(line).toBeFocused();
    await page.keyboard.type('she blinks');
    await page.keyboard.press('Enter');
    await expect(left).toContainText('she blinks');
    await expect(table).toBeFocused();
  });
  await test.step('it is there after a reload, is put back with Esc, and changed', async () => {
    await page.reload();
    await expect(left).toContainText('she blinks');
    const change = left.getByRole('button', { name: 'Change the note' });
    await change.press('Enter');
    await expect(line).toHaveValue('she blinks');
    await line.fill('no');
    await page.keyboard.press('Escape');
    await expect(left).toContainText('she blinks');
    await change.press('Enter');
    await line.fill('she blinks twice');
    await page.keyboard.press('Enter');
    await expect(left).toContainText('she blinks twice');
  });
  await test.step('nudged by a frame it is still answered, and is asked again', async () => {
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Enter');
    await expect.poll(() => films(page)).not.toContain('R1·38 to 49');
    await expect(left).toContainText('she blinks twice');
    // A press while the nudge is still being kept finds the button greyed: it is pressed again.
    await expect(async () => {
      if ((await left.count()) > 0) {
        await left.getByRole('button', { name: 'Ask again' }).press('Enter', { timeout: 2000 });
      }
      await expect(leave).toBeVisible({ timeout: 3000 });
    }).toPass();
    await expect(left).toHaveCount(0);
  });
});

test('two moments are marked by keys, and the join is put on the action', async ({ page }) => {
  await page.goto(`${FILM}/cutting?cut=v1&join=1`);
  await expect(rows(page)).toHaveCount(3);
  await page.getByRole('region', { name: 'Light table: join 1 | 2' }).focus();
  await page.keyboard.press('F4');
  const sheet = page.getByRole('dialog', { name: 'Cut on the action, 1 to 2' });
  await expect(sheet.getByLabel('and enter')).toHaveValue('R1.103');

  await test.step('both strips are brought to a moment, twice', async () => {
    await sheet.getByRole('button', { name: 'Mark two moments' }).first().click();
    const here = sheet.getByRole('list', { name: /^1-T1 about/ });
    const there = sheet.getByRole('list', { name: /^2-T1 about/ });
    const step = async (keys: readonly string[]) => {
      for (const key of keys) await page.keyboard.press(key);
    };
    const name = await here.getAttribute('aria-label');
    const from = Number(/·(\d+)$/.exec(name ?? '')?.[1]);
    await step(
      Array.from({ length: Math.abs(from - 20) }, () => (from > 20 ? 'ArrowUp' : 'ArrowDown')),
    );
    await expect(here).toHaveAttribute('aria-label', '1-T1 about R1·20');
    const other = Number(/·(\d+)$/.exec((await there.getAttribute('aria-label')) ?? '')?.[1]);
    await step(['ArrowRight']);
    await step(
      Array.from({ length: Math.abs(other - 112) }, () => (other > 112 ? 'ArrowUp' : 'ArrowDown')),
    );
    await expect(there).toHaveAttribute('aria-label', '2-T1 about R1·112');
    await step(['Enter']);
    await expect(sheet.getByText('The second of two moments.')).toBeVisible();
    await expect(sheet.getByRole('status').filter({ hasText: 'another moment' })).toBeVisible();
    await step([
      'Shift+ArrowDown',
      'Shift+ArrowDown',
      'ArrowLeft',
      'Shift+ArrowDown',
      'Shift+ArrowDown',
    ]);
    await step(['Enter']);
    await expect(sheet.getByText('By your two marks: both run at one pace.')).toBeVisible();
  });

  const first = sheet.getByRole('radio', { name: /^first: R1·\d+, then R1·\d+, to the frame/ });
  await test.step('the chosen cut runs, on and backwards', async () => {
    await first.focus();
    await page.keyboard.press('Space');
    await expect(sheet.getByText(/(before|after) the join$/)).toBeVisible();
    await page.keyboard.press('Shift+Space');
    await expect(sheet.getByText(/(before|after) the join$/)).toBeVisible();
    await page.keyboard.press('Shift+Space');
    await expect(sheet.getByText(/(before|after) the join$/)).toHaveCount(0);
  });
  await test.step('Enter cuts there, as the sheet said; it is taken back', async () => {
    const said = /^first: R1·(\d+), then R1·(\d+)/.exec(
      (await first.getAttribute('aria-label')) ?? '',
    );
    await first.focus();
    await page.keyboard.press('Enter');
    await expect(sheet).toHaveCount(0);
    const now = [`R1·10 to ${said?.[1]}`, `R1·${said?.[2]} to 139`, 'R1·65 to 99'];
    await expect.poll(() => films(page)).toEqual(now);
    // The line of the cut lies where the marks say: 92 frames on.
    expect(Number(said?.[2]) - Number(said?.[1])).toBe(93);
    await page.keyboard.press('Control+z');
    await expect.poll(() => films(page)).toEqual(['R1·10 to 49', ...HELD_TOGETHER]);
  });
  await test.step('the marks are kept, and known from the other take as well', async () => {
    await page.reload();
    await page.getByRole('region', { name: 'Light table: join 1 | 2' }).focus();
    await page.keyboard.press('F4');
    await expect(sheet.getByText('By your two marks')).toBeVisible();
    await sheet.getByRole('button', { name: 'Take the marks away' }).click();
    await expect(sheet.getByText('By your two marks')).toHaveCount(0);
  });
});
