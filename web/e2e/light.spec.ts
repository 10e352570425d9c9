// The Light card of the Screening room: things marked in two shots, points kept and taken back.

import type { Locator, Page } from '@playwright/test';
import { expect, FILM, test } from './film_test';

test.use({ onShelf: 'cut' });

const card = (page: Page) => page.getByRole('dialog', { name: 'Light' });
const marks = (page: Page) => card(page).getByRole('region', { name: 'Marks' });

/** Drags over a part of a picture, as shares of its sides. */
async function drag(
  page: Page,
  picture: Locator,
  from: readonly [number, number],
  to: readonly [number, number],
): Promise<void> {
  await picture.scrollIntoViewIfNeeded();
  const box = await picture.boundingBox();
  if (!box) throw new Error('no picture');
  const at = ([x, y]: readonly [number, number]) =>
    [box.x + x * box.width, box.y + y * box.height] as const;
  await page.mouse.move(...at(from));
  await page.mouse.down();
  await page.mouse.move(...at(to), { steps: 4 });
  await page.mouse.up();
}

test('a thing marked in two shots gives points, which are kept and taken back', async ({
  page,
}) => {
  await page.goto(`${FILM}/screening`);
  await page.getByRole('button', { name: 'Light', exact: true }).click();
  await expect(card(page)).toContainText('No shot has a light of its own yet');
  const pieces = card(page).getByRole('region', { name: /^Shots of/ });
  await pieces.getByRole('button').nth(1).click();
  const pictures = marks(page).getByRole('application');
  await expect(pictures).toHaveCount(2);
  await page
    .getByRole('combobox', { name: 'Thing to mark' })
    .or(page.getByRole('textbox', { name: 'Thing to mark' }))
    .fill('sky');

  await test.step('by hand on one, by keys on the other', async () => {
    await drag(page, pictures.first(), [0.4, 0.4], [0.6, 0.55]);
    await expect(pictures.first()).toHaveAccessibleName(/sky lies 40 per cent from the left/);
    await pictures.nth(1).focus();
    await page.keyboard.press('Enter');
    await page.keyboard.press('ArrowRight');
    await expect(pictures.nth(1)).toHaveAccessibleName(/sky lies 46 per cent from the left/);
  });

  const matched = card(page).getByRole('region', { name: 'Matched' });
  await expect(matched.getByRole('img', { name: /as it was scanned$/ })).toHaveCount(2);
  await expect(matched).toContainText('It is held.');
  await expect(matched).toContainText('how far it may be off is not known');

  await test.step('kept, and taken back', async () => {
    await card(page).getByRole('textbox', { name: 'Reason' }).fill('one evening');
    await card(page).getByRole('button', { name: 'Keep these points' }).click();
    const kept = card(page).getByRole('region', { name: 'Grading card' });
    await expect(kept.getByRole('listitem')).toHaveCount(2);
    await expect(kept).toContainText('one evening');
    const file = page.waitForEvent('download');
    await kept.getByRole('button', { name: 'ASC CDL' }).click();
    expect((await file).suggestedFilename()).toBe('light.ccc');
    await card(page).getByRole('button', { name: 'Take it back' }).click();
    await expect(kept).toContainText('No shot has a light of its own yet');
  });
});
