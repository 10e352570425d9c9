// What is found with the film in the hand: the halves of a strip of regular 8, and joins
// that were there before anybody cut.

import { join } from 'node:path';
import type { Page } from '@playwright/test';
import { expect, FILM, slip, test } from './film_test';
import { command } from './program';

const inHand = async (page: Page, roll: string) => {
  await page.getByRole('button', { name: 'In the hand…' }).click();
  return page.getByRole('dialog', { name: `${roll} in the hand` });
};

test.describe('a strip of regular 8', () => {
  test('is two halves that cannot be cut before they are slit', async ({ page, bench }) => {
    const dir = join(bench.shelf, 'pier');
    await command('new', dir, '--title', 'The Pier', '--gauge', 'regular8');
    for (const roll of ['R4a', 'R4b']) {
      await command('roll', 'paper', dir, roll, '--frames', '2000');
    }
    await page.goto('/film/pier/rolls?roll=R4b');
    const sheet = await inHand(page, 'R4b');
    await expect(sheet.getByRole('textbox', { name: 'name of the strip' })).toHaveValue('R4');
    await sheet.getByRole('button', { name: 'They are one strip' }).click();
    await expect(sheet).toContainText(
      'R4b is side B of strip R4, run second; the other half is R4a.',
    );
    await expect(slip(sheet, 'It cannot be cut yet.')).toContainText('not slit');
    await expect(sheet.getByRole('img', { name: /R4b lies beside, runs up/ })).toBeVisible();

    await sheet.getByRole('button', { name: 'Take R4a into the hand' }).click();
    await expect(page).toHaveURL(/roll=R4a/);
    const can = page
      .getByRole('navigation', { name: 'Rolls' })
      .getByRole('button', { name: /R4a/ });
    await expect(can).toContainText('half A, not slit');

    const other = await inHand(page, 'R4a');
    await other.getByRole('button', { name: 'It has been slit' }).click();
    await expect(other).toContainText('It can be cut like any other roll.');
    await page.keyboard.press('Escape');
    await expect(can).toContainText('half A, slit');
    // Undone like everything else.
    await page.keyboard.press('Control+z');
    await expect(can).toContainText('half A, not slit');
  });
});

test.describe('a join that was there before', () => {
  test.use({ onShelf: 'roll' });

  test('is drawn on the film, listed with the breaks, and reached by keys', async ({ page }) => {
    await page.goto(`${FILM}/rolls?roll=R1&frame=70`);
    await expect(page.getByRole('list', { name: /^Takes of R1/ })).toBeVisible();
    const sheet = await inHand(page, 'R1');
    await sheet.locator('label', { hasText: 'tape' }).click();
    await sheet.getByRole('button', { name: 'Write it down' }).click();
    await expect(sheet.getByRole('button', { name: 'There is no join at 70' })).toBeVisible();
    await page.keyboard.press('Escape');
    await expect(page.getByRole('img', { name: /48 frames, tape join at 70/ })).toBeVisible();
    const card = page.getByRole('region', { name: 'Take card' });
    await expect(card.getByRole('heading', { name: 'tape join at 70' })).toBeVisible();
    await expect(page.getByRole('list', { name: 'Marks' })).toContainText('join found');

    await page.goto(`${FILM}/rolls?roll=R1&frame=55&look=breaks`);
    const changes = page.getByRole('list', { name: 'Where the film of R1 changes' });
    await expect(changes.getByRole('button', { name: /^70 tape join/ })).toBeVisible();
    await page.getByRole('region', { name: 'Light table with R1' }).focus();
    await page.keyboard.press('ArrowRight');
    const said = page.getByRole('region', { name: 'The change at 70', exact: true });
    await expect(said).toContainText('A tape join lies between 69 and 70');
    await said.getByRole('button', { name: 'Begin a take here' }).click();
    await expect(changes.getByRole('button', { name: /^70 tape join/ })).toContainText('it stands');
  });
});
