// The program is ended as a power cut would end it, while one works. The page
// says so, keeps what was typed, and comes back by itself.

import type { Page } from '@playwright/test';
import { expect, FILM, test } from './film_test';

test.use({ onShelf: 'cut' });

const bar = (page: Page) => page.getByRole('contentinfo').getByText(/Not connected since/);
const rows = (page: Page) =>
  page.getByRole('grid', { name: 'Pieces in their order' }).getByRole('rowgroup').getByRole('row');
const card = (page: Page) => page.getByRole('region', { name: 'Take card' });

/** What the program has written down of its changes, the oldest first. */
async function journal(page: Page): Promise<string[]> {
  const answer = await page.request.get('/api/films/boat/journal');
  const lines = (await answer.json()) as { words: string; state: string }[];
  return lines.map((line) => `${line.state}: ${line.words}`).reverse();
}

test('the bar says so, what is changed meanwhile waits and is sent once', async ({
  page,
  program,
}) => {
  await page.goto(`${FILM}/rolls`);
  await expect(card(page).getByRole('heading', { name: '1-T1' })).toBeVisible();
  const before = await journal(page);

  await program.kill();
  await expect(bar(page)).toBeVisible();
  await expect(bar(page)).toContainText(/Not connected since \d/);
  await expect(bar(page)).toContainText('What was kept is safe');
  await card(page).locator('label', { hasText: 'hold' }).click();
  await expect(bar(page)).toContainText('one change waits here');
  await expect(card(page).getByRole('radio', { name: 'hold' })).toBeChecked();

  await program.again();
  await expect(bar(page)).toBeHidden();
  await expect.poll(() => journal(page)).toHaveLength(before.length + 1);
  await expect(card(page).getByRole('radio', { name: 'hold' })).toBeChecked();
  await page.reload();
  await expect(card(page).getByRole('radio', { name: 'hold' })).toBeChecked();
});

test('killed while one edits: all that was acknowledged is there, and nothing twice', async ({
  page,
  program,
}) => {
  await page.goto(`${FILM}/cutting`);
  await rows(page).nth(1).click();
  await expect(rows(page).nth(1)).toContainText('R1·110 to 139');
  const before = await journal(page);

  let acknowledged = 0;
  page.on('response', (answer) => {
    if (answer.url().endsWith('/changes') && answer.ok()) acknowledged += 1;
  });
  const edit = async () => {
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Enter');
  };
  for (let edits = 0; edits < 5; edits++) await edit();
  await expect.poll(() => acknowledged).toBeGreaterThan(0);
  // In the midst of it, while more is typed.
  await Promise.all([program.kill(), edit().then(edit).then(edit)]);
  const had = acknowledged;
  await expect(bar(page)).toBeVisible();
  await expect(rows(page).nth(1)).toContainText('R1·118 to 139');

  await program.again();
  await expect(bar(page)).toBeHidden();
  await expect(page.getByRole('button', { name: 'Keep', exact: true })).toBeHidden();
  await expect(rows(page).nth(1)).toContainText('R1·118 to 139');
  const after = await journal(page);
  expect(after.length).toBeGreaterThanOrEqual(before.length + had);
  expect(after.length).toBeLessThanOrEqual(before.length + 8);
  await page.reload();
  await expect(rows(page).nth(1)).toContainText('R1·118 to 139');
});

test('an answer that was lost on its way: the change is sent again and made once', async ({
  page,
}) => {
  await page.goto(`${FILM}/cutting`);
  await rows(page).nth(1).click();
  await expect(rows(page).nth(1)).toContainText('R1·110 to 139');
  const before = await journal(page);
  const keys: string[] = [];
  await page.route('**/changes', async (route) => {
    keys.push((route.request().postDataJSON() as { key: string }).key);
    // The first reaches the program, and its answer never comes.
    if (keys.length > 1) return route.continue();
    await route.fetch();
    await route.abort('connectionreset');
  });
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('Enter');
  await expect.poll(() => keys.length).toBe(2);
  expect(keys[1]).toBe(keys[0]);
  await expect(bar(page)).toBeHidden();
  await expect.poll(() => journal(page)).toHaveLength(before.length + 1);
  await expect(rows(page).nth(1)).toContainText('R1·111 to 139');
});

test('started anew on a machine that forgot: the page says that it is not known', async ({
  page,
  program,
  bench,
}) => {
  await page.goto(`${FILM}/cutting`);
  await expect(rows(page)).toHaveCount(3);
  await program.kill();
  await expect(bar(page)).toBeVisible();
  await program.again(bench.state('another state'));
  const foot = page.getByRole('contentinfo');
  await expect(foot).toContainText('does not know this browser yet');
  await expect(foot).toContainText('Open the address that it has printed');

  // Let in again in another window, this one comes back by itself.
  const second = await page.context().newPage();
  await second.goto(program.address);
  await expect(foot).not.toContainText('does not know this browser yet');
  await expect(bar(page)).toBeHidden();
  await page.getByRole('button', { name: 'Lift 2' }).click();
  await expect(rows(page)).toHaveCount(2);
});
