// The programme of a shelf: films and an interval in order, paper, and the ledger written.

import AxeBuilder from '@axe-core/playwright';
import type { Page } from '@playwright/test';
import { expect, test, TITLE } from './film_test';

test.use({ onShelf: 'cut' });

const sheet = (page: Page) => page.getByRole('region', { name: 'Programme' });

test('a programme is put together, reckoned, printed and written into the ledger', async ({
  page,
}) => {
  await page.goto('/');
  await sheet(page).getByRole('button', { name: 'Make a programme' }).click();
  const rows = sheet(page).getByRole('list').first().getByRole('listitem');
  await test.step('a film, an interval, the film again', async () => {
    for (const [button, count] of [
      ['Put it in', 1],
      ['An interval', 2],
      ['Put it in', 3],
    ] as const) {
      await sheet(page).getByRole('button', { name: button }).click();
      await expect(rows).toHaveCount(count);
    }
    await expect(rows.nth(0)).toContainText(TITLE);
    // 105 frames of Super 8, 72 to the foot.
    await expect(rows.nth(0)).toContainText('1 ft 33 fr');
    await expect(rows.nth(1)).toContainText('Interval');
  });
  await test.step('lens and screen give the throw, and stay', async () => {
    await sheet(page).getByRole('textbox', { name: 'Lens, mm' }).fill('20');
    await sheet(page).getByRole('textbox', { name: 'Picture across' }).fill('1.2m');
    await page.keyboard.press('Enter');
    // 20 · (1200 ÷ 5.31 + 1), as in the trade's tables.
    await expect(sheet(page)).toContainText('4.54');
    await page.reload();
    await expect(sheet(page)).toContainText('4.54');
    await expect(rows).toHaveCount(3);
  });
  await test.step('what was changed last is put back', async () => {
    await rows.nth(1).getByRole('button', { name: 'Take out' }).click();
    await expect(rows).toHaveCount(2);
    await sheet(page).getByRole('button', { name: 'Put the last change back' }).click();
    await expect(rows).toHaveCount(3);
  });
  const { violations } = await new AxeBuilder({ page })
    .include('section[aria-label="Programme"], [aria-labelledby]')
    .analyze();
  expect(violations.map(({ id, nodes }) => [id, nodes[0]?.html])).toEqual([]);
  await test.step('on paper', async () => {
    const link = sheet(page).getByRole('link', { name: 'Print the programme' });
    const answer = await page.request.get((await link.getAttribute('href')) ?? '');
    expect(answer.headers()['content-type']).toBe('application/pdf');
  });
  await test.step('shown: the ledger of the original has it', async () => {
    await sheet(page).getByRole('textbox', { name: 'By', exact: true }).fill('Ida');
    await sheet(page)
      .getByRole('button', { name: /^It was shown/ })
      .click();
    await expect(sheet(page)).toContainText('It stands in the ledgers of the originals.');
  });
});
