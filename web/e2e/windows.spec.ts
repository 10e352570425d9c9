// Two windows on one film: nothing of either is lost.

import type { Page } from '@playwright/test';
import { expect, FILM, slip, test } from './film_test';

test.use({ onShelf: 'cut' });

async function another(page: Page, path: string): Promise<Page> {
  const second = await page.context().newPage();
  await second.goto(path);
  return second;
}

const card = (page: Page) => page.getByRole('region', { name: 'Take card' });
const rows = (page: Page) =>
  page.getByRole('grid', { name: 'Pieces in their order' }).getByRole('rowgroup').getByRole('row');

test('what one window changes is seen in the other', async ({ page }) => {
  await page.goto(`${FILM}/cutting`);
  const second = await another(page, `${FILM}/cutting`);
  await expect(rows(page)).toHaveCount(3);
  await expect(rows(second)).toHaveCount(3);

  await rows(second).nth(1).click();
  await second.getByRole('button', { name: 'Lift 2' }).click();
  await expect(rows(second)).toHaveCount(2);
  await expect(rows(page)).toHaveCount(2);
  await expect(rows(page).nth(1)).toContainText('1-T2');

  await page.getByRole('button', { name: 'Undo' }).click();
  await expect(rows(page)).toHaveCount(3);
  await expect(rows(second)).toHaveCount(3);
  await expect(rows(second).nth(1)).toContainText('2-T1');
});

test('the same take typed in both: the later is told and keeps what it typed', async ({ page }) => {
  await page.goto(`${FILM}/rolls`);
  const second = await another(page, `${FILM}/rolls`);
  const action = (of: Page) => card(of).getByRole('textbox', { name: 'action' });
  for (const of of [page, second]) {
    await card(of).getByRole('button', { name: 'Fill in' }).click();
    await expect(action(of)).toHaveValue('the landing');
  }

  await action(page).fill('the landing, at dawn');
  await action(second).fill('the landing, empty');
  await card(page).getByRole('button', { name: 'Keep' }).click();
  await expect(card(page)).toContainText('the landing, at dawn');

  const told = slip(card(second), /Another window has changed this take/);
  await expect(told).toBeVisible();
  await expect(told).toContainText('There now: the landing, at dawn');
  await expect(told).toContainText('Yours: the landing, empty');
  await expect(action(second)).toHaveValue('the landing, empty');

  await told.getByRole('button', { name: 'Keep mine' }).click();
  await expect(told).toBeHidden();
  await expect(card(page)).toContainText('the landing, empty');
  await page.reload();
  await expect(card(page)).toContainText('the landing, empty');
});

test('a piece on trial is not lost when the other window changes the version', async ({ page }) => {
  await page.goto(`${FILM}/cutting`);
  const second = await another(page, `${FILM}/cutting`);
  await expect(rows(second)).toHaveCount(3);

  // Piece 2 begins three frames later, on trial.
  await rows(page).nth(1).click();
  for (let press = 0; press < 3; press++) await page.keyboard.press('ArrowDown');
  await expect(rows(page).nth(1)).toContainText('R1·113 to 139');

  await rows(second).nth(2).click();
  await second.getByRole('button', { name: 'Lift 3' }).click();
  await expect(rows(second)).toHaveCount(2);

  const told = slip(page, /Another window has changed/);
  await expect(told).toBeVisible();
  await told.getByRole('button', { name: 'Keep mine again' }).click();
  await expect(told).toBeHidden();
  for (const of of [page, second]) {
    await expect(rows(of)).toHaveCount(2);
    await expect(rows(of).nth(1)).toContainText('R1·113 to 139');
  }
});

test('both windows change at once, again and again, and every change is there', async ({
  page,
}) => {
  await page.goto(`${FILM}/rolls`);
  const second = await another(page, `${FILM}/rolls`);
  await expect(card(second)).toContainText('1-T1');
  // Each names takes of its own, on the same roll, as fast as it can.
  const name = async (of: Page, first: number, setups: readonly string[]) => {
    for (const [nth, setup] of setups.entries()) {
      await of
        .getByRole('list', { name: /^Takes of R1/ })
        .getByRole('button')
        .nth(first + nth)
        .click();
      await card(of).getByRole('button', { name: 'Fill in' }).click();
      await card(of).getByLabel('scene, letter').fill(setup);
      await card(of).getByRole('textbox', { name: 'take', exact: true }).fill('1');
      await card(of).getByRole('button', { name: 'Keep' }).click();
      await expect(
        card(of).getByRole('heading', { name: `${setup}-T1`, exact: true }),
      ).toBeVisible();
    }
  };
  await Promise.all([
    name(page, 3, ['3', '3A', '3B', '3C']),
    name(second, 7, ['4', '4A', '4B', '4C']),
  ]);
  for (const of of [page, second]) {
    const takes = of.getByRole('list', { name: /^Takes of R1/ });
    for (const setup of ['3', '3A', '3B', '3C', '4', '4A', '4B', '4C']) {
      await expect(takes.getByRole('button', { name: new RegExp(`^${setup}-T1`) })).toBeVisible();
    }
  }
});
