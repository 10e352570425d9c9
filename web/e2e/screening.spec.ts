// The screening room beyond the screen: notes of several people, the ledger of
// runs, the pace, and the finished strip as it will run.

import type { Page } from '@playwright/test';
import { expect, FILM, test } from './film_test';

test.use({ onShelf: 'cut' });

const notes = (page: Page) => page.getByRole('region', { name: 'Notes', exact: true });
const picture = (page: Page, name: string | RegExp) => page.getByRole('img', { name });

/** Writes a note on the frame on the screen; who writes is said first where it is asked. */
async function write(page: Page, words: string, who?: string): Promise<void> {
  await page.getByRole('button', { name: 'Note on this frame' }).click();
  await page.getByRole('textbox', { name: 'Your words' }).fill(words);
  if (who) await page.getByRole('textbox', { name: 'Who writes' }).fill(who);
  await page.getByRole('button', { name: 'Keep the note' }).click();
  await expect(notes(page).getByRole('listitem').filter({ hasText: words })).toBeVisible();
}

async function signAs(page: Page, who: string): Promise<void> {
  await page.getByRole('button', { name: 'Note on this frame' }).click();
  await page.getByRole('button', { name: 'Another name' }).click();
  await page.getByRole('textbox', { name: 'Who writes' }).fill(who);
  await page.keyboard.press('Enter');
  await expect(notes(page)).toContainText(`Signed ${who}.`);
  await page.getByRole('button', { name: 'Not now' }).click();
}

test('notes of two people stand side by side and lead back to their frames', async ({ page }) => {
  await page.goto(`${FILM}/screening`);
  await expect(picture(page, 'The screen: R1 10')).toBeVisible();
  await write(page, 'begins too late', 'Ida');
  await page.keyboard.press('End');
  await write(page, 'a good end');

  await test.step('the browser knows who writes, and another takes the seat', async () => {
    await page.reload();
    await expect(notes(page)).toContainText('a good end');
    await signAs(page, 'Mara');
    await page.keyboard.press('Home');
    await expect(picture(page, 'The screen: R1 10')).toBeVisible();
    await write(page, 'I like it as it is');
  });

  await test.step('each note says who wrote it; another’s is not rewritten', async () => {
    const item = (words: string) => notes(page).getByRole('listitem').filter({ hasText: words });
    await expect(item('begins too late')).toContainText('Ida, ');
    await expect(item('I like it')).toContainText('Mara, ');
    await expect(item('begins too late').getByRole('button', { name: /^Rewrite/ })).toHaveCount(0);
    await item('I like it')
      .getByRole('button', { name: /^Rewrite/ })
      .click();
    await page.getByRole('textbox', { name: 'Your words' }).fill('I like the hold');
    await page.keyboard.press('Control+Enter');
    await expect(item('I like the hold')).toContainText('Mara, ');
  });

  await test.step('side by side: a row for each frame, a column for each writer', async () => {
    await page.getByRole('region', { name: 'The screen' }).focus();
    await page.keyboard.press('F2');
    const table = page.getByRole('table');
    await expect(table.getByRole('columnheader')).toHaveText(['Frame', 'Ida', 'Mara']);
    const rows = table.getByRole('rowgroup').nth(1).getByRole('row');
    await expect(rows).toHaveCount(2);
    await expect(rows.nth(0)).toContainText('R1·10');
    await expect(rows.nth(0)).toContainText('no. 1');
    await expect(rows.nth(0).getByRole('cell').nth(0)).toContainText('begins too late');
    await expect(rows.nth(0).getByRole('cell').nth(1)).toContainText('I like the hold');
    await expect(rows.nth(1)).toContainText('R1·99');
    await expect(rows.nth(1).getByRole('cell').nth(1)).toBeEmpty();
  });

  await test.step('whose notes are shown is chosen', async () => {
    await page.getByRole('checkbox', { name: 'Mara' }).uncheck();
    await expect(page.getByRole('columnheader')).toHaveText(['Frame', 'Ida']);
    await page.getByRole('checkbox', { name: 'Mara' }).check();
  });

  await test.step('by keys from row to row, and Enter goes to the frame', async () => {
    const rows = page.getByRole('table').getByRole('rowheader').getByRole('button');
    await rows.nth(0).focus();
    await page.keyboard.press('ArrowDown');
    await expect(rows.nth(1)).toBeFocused();
    await page.keyboard.press('Enter');
    await expect(picture(page, 'The screen: R1 99')).toBeVisible();
    await expect(page.getByRole('region', { name: 'The screen' })).toBeFocused();
    await page.keyboard.press('F2');
    await page.keyboard.press('Escape');
    await expect(picture(page, 'The screen: R1 99')).toBeVisible();
  });
});

test('a note on a frame that the version does not show is listed with the reason', async ({
  page,
}) => {
  await page.goto(`${FILM}/screening?roll=R1&frame=52`);
  await expect(picture(page, 'The screen: R1 52')).toBeVisible();
  await write(page, 'the gull is here');
  await page.goto(`${FILM}/screening?cut=v1`);
  const item = notes(page).getByRole('listitem').filter({ hasText: 'the gull is here' });
  await expect(item).toContainText('R1·52');
  await expect(item).toContainText('1-T1');
  await expect(item).toContainText('It lies 3 frames after the last frame of no. 1.');
  await item.getByRole('button', { name: /run the roll there/ }).click();
  await expect(picture(page, 'The screen: R1 52')).toBeVisible();
});

test('runs of an original are written down, struck off, and taken back', async ({ page }) => {
  await page.goto(`${FILM}/screening`);
  await expect(notes(page)).toContainText('The original was never run: R1.');
  await page.getByRole('button', { name: 'Ledger of the originals' }).click();
  const card = page.getByRole('dialog', { name: 'Ledger of the originals' });
  await expect(card).toContainText('Each run of an original wears it');
  await card.getByRole('textbox', { name: 'On' }).fill('2026-03-03');
  await card.getByRole('radio', { name: 'viewer' }).check({ force: true });
  await card.getByRole('textbox', { name: 'By' }).fill('Ida');
  await card.getByRole('textbox', { name: 'Note' }).fill('the join at the head is weak');
  await card.getByRole('button', { name: 'Write it down' }).click();
  await expect(card.getByRole('listitem')).toContainText('through the viewer, by Ida');
  await expect(card).toContainText('The originals were run: R1 once.');
  await card.getByRole('textbox', { name: 'On' }).fill('the third');
  await card.getByRole('button', { name: 'Write it down' }).click();
  await expect(card.getByRole('alert')).toContainText('is no day');
  await card.getByRole('textbox', { name: 'On' }).fill('2026-03-04');
  await card.getByRole('radio', { name: 'cut', exact: true }).check({ force: true });
  await card.getByRole('textbox', { name: 'Times' }).fill('12');
  await card.getByRole('button', { name: 'Write it down' }).click();
  await expect(card).toContainText('R1: run once (once in a viewer), cut 12 times');
  await card.getByRole('button', { name: /^Strike off cut/ }).click();
  await expect(card.getByRole('listitem')).toHaveCount(1);
  await card.getByRole('button', { name: /^Strike off/ }).click();
  await expect(card.getByRole('listitem')).toHaveCount(0);
  await page.keyboard.press('Escape');
  await page.keyboard.press('Control+z');
  await expect(notes(page)).toContainText('The originals were run: R1 once.');
  await page.reload();
  await expect(notes(page)).toContainText('The originals were run: R1 once.');
});

test('a reel is made up by keys, and its labels agree', async ({ page }) => {
  await page.goto(`${FILM}/screening`);
  await expect(picture(page, 'The screen: R1 10')).toBeVisible();
  await page.keyboard.press('Shift+F4');
  const card = page.getByRole('dialog', { name: 'Reel' });
  const reel = card.getByRole('region', { name: 'Reel 1 of 1' });
  await expect(reel).toContainText('50 ft reel, 75 mm across');
  await card.getByRole('radio', { name: 'heads out' }).check({ force: true });
  await expect(reel.getByText('HEADS OUT')).toHaveCount(2);
  await card.getByRole('textbox', { name: 'Head leader' }).fill('60ft');
  await expect(reel).toContainText('200 ft reel');
  await card.getByRole('combobox', { name: 'Only these reels' }).fill('50ft');
  await expect(card).toContainText('It does not go on these reels.');
  await card.getByRole('combobox', { name: 'Only these reels' }).fill('my grey one');
  await expect(card).toContainText(/no reel "my grey one" is known/i);
  await page.keyboard.press('Escape');
  await expect(page.getByRole('region', { name: 'The screen' })).toBeFocused();
});

test('the throw is worked out from two of three, and its caution is told once', async ({
  page,
}) => {
  await page.goto(`${FILM}/screening`);
  await expect(picture(page, 'The screen: R1 10')).toBeVisible();
  await page.keyboard.press('Shift+F9');
  const card = page.getByRole('dialog', { name: 'Throw' });
  await expect(card.getByRole('button', { name: /^throw: 4\.54/ })).toBeVisible();
  const caution = card.getByRole('group', { name: /^Take care: hot lamps/ });
  await caution.getByRole('button', { name: 'I have read it' }).click();
  await expect(caution).toHaveCount(0);
  await card.getByRole('radio', { name: 'the lens' }).check({ force: true });
  await card.getByRole('textbox', { name: 'From lens to screen' }).fill('4,54');
  await expect(card.getByText('20').first()).toBeVisible();
  await card.getByRole('textbox', { name: 'Width of the picture' }).fill('wide');
  await expect(card).toContainText('This cannot be worked out.');
  await page.reload();
  await expect(picture(page, 'The screen: R1 10')).toBeVisible();
  await page.keyboard.press('Shift+F9');
  await expect(card.getByRole('textbox', { name: 'Lens, mm' })).toBeVisible();
  await expect(caution).toHaveCount(0);
});

test('the pace is a picture with its figures, and a bar leads to its piece', async ({ page }) => {
  await page.goto(`${FILM}/screening`);
  await expect(picture(page, 'The screen: R1 10')).toBeVisible();
  await page.keyboard.press('F4');
  const card = page.getByRole('dialog', { name: 'Pace of version v1' });
  // 40, 30 and 35 frames at 18 a second.
  await expect(card).toContainText('1.94 s');
  await expect(card).toContainText('Shortest, no. 2');
  const bars = card.getByRole('list', { name: /^Pieces/ }).getByRole('button');
  await expect(bars).toHaveCount(3);
  await expect(bars.nth(1)).toHaveAccessibleName('no. 2, 2-T1, 1.7 seconds, the shortest');
  await expect(card).toContainText('mean of 3 pictures together');
  await card.getByRole('textbox', { name: /^Pictures to each place/ }).fill('9');
  await expect(card).toContainText('Write a number from 2 to 3.');
  await card.getByRole('textbox', { name: /^Pictures to each place/ }).fill('2');
  await expect(card).toContainText('mean of 2 pictures together');
  await card.getByRole('radio', { name: 'measured' }).check({ force: true });
  await card.getByRole('textbox', { name: /^Measured speed/ }).fill('20');
  await page.keyboard.press('Enter');
  await expect(card).toContainText('1.75 s');
  await bars.nth(0).focus();
  await page.keyboard.press('ArrowDown');
  await expect(bars.nth(1)).toBeFocused();
  await page.keyboard.press('Enter');
  await expect(picture(page, 'The screen: R1 110')).toBeVisible();
});

test('the finished strip runs at the measured speed with its joins drawn', async ({ page }) => {
  await page.goto(`${FILM}/screening`);
  await expect(picture(page, 'The screen: R1 10')).toBeVisible();
  await page.keyboard.press('F7');
  const strip = page.getByRole('region', { name: 'The finished strip as it will run' });
  await expect(strip).toContainText('4 joins');
  await expect(strip).toContainText('mark 12 of 105 frames');
  await expect(strip).toContainText('18 frames after each join');
  await expect(page.getByRole('button', { name: 'As the strip will run' })).toHaveAttribute(
    'aria-pressed',
    'true',
  );
  await expect(strip).toContainText('the join with the head leader');
  await strip.getByRole('textbox', { name: /^Measured speed/ }).fill('18,37');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('button', { name: 'Run at 18.37 f/s' })).toBeVisible();
  expect(page.url()).toContain('strip=18.37');

  await test.step('marks lie on two frames on either side of a join, and nowhere else', async () => {
    const stage = page.getByRole('region', { name: 'The screen' });
    await stage.focus();
    for (let press = 0; press < 37; press += 1) await page.keyboard.press('ArrowDown');
    await expect(picture(page, 'The screen: R1 47')).toBeVisible();
    await expect(strip).toContainText('No join marks this frame.');
    const clean = await shown(page);
    await page.keyboard.press('ArrowDown');
    await expect(picture(page, /^The screen: R1 48\. Tape over this frame/)).toBeVisible();
    await expect(strip).toContainText('its edge in sight, the join of no. 1 and 2');
    const marked = await shown(page);
    await page.keyboard.press('F7');
    await expect(strip).toHaveCount(0);
    await expect(picture(page, 'The screen: R1 48')).toBeVisible();
    // The shade takes light from the whole picture; one frame to the next does not.
    await expect.poll(async () => marked / (await shown(page))).toBeLessThan(0.9);
    const bare = await shown(page);
    expect(Math.abs(clean - bare)).toBeLessThan(bare * 0.1);
  });

  await test.step('loaded anew it is as it was left, and the clock runs at its speed', async () => {
    await page.goto(`${FILM}/screening?strip=18.37`);
    // End has nowhere to go before the film is in the gate.
    await expect(picture(page, /^The screen: R1/)).toBeVisible();
    await page.getByRole('region', { name: 'The screen' }).focus();
    await page.keyboard.press('End');
    await expect(picture(page, /^The screen: R1 99/)).toBeVisible();
    // 104 frames at 18.37 are 5.66 s, at 18 they would be 5.78 s.
    await expect(page.getByRole('region', { name: 'The screen' })).toContainText('0:05.7');
    await expect(page.getByRole('region', { name: 'The screen' })).toContainText('at 18.37');
  });
});

/** How light the middle of the canvas is: at its sides nothing is thrown, more or less. */
function shown(page: Page): Promise<number> {
  return page.locator('.stage canvas').evaluate((canvas: HTMLCanvasElement) => {
    const { width, height } = canvas;
    const [wide, high] = [Math.round(width * 0.4), Math.round(height * 0.6)];
    const [left, top] = [Math.round(width * 0.3), Math.round(height * 0.2)];
    const data = canvas.getContext('2d')?.getImageData(left, top, wide, high).data ?? [];
    let sum = 0;
    for (let at = 0; at < data.length; at += 4) sum += (data[at] ?? 0) + (data[at + 1] ?? 0);
    return sum / (wide * high);
  });
}
