// A teacher's evening: a film for each team from a template, a roster by keys alone, what
// is wrong at its place, and the sheet for the wall.

import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Page } from '@playwright/test';
import { expect, test } from './film_test';

async function begin(page: Page, title: string, as: string): Promise<void> {
  await page.getByRole('button', { name: 'Begin a new film' }).click();
  const card = page.getByRole('dialog', { name: 'A new film' });
  await card.getByRole('textbox', { name: 'What is it called?' }).fill(title);
  await card.getByRole('combobox', { name: /What does it begin as/ }).selectOption({ label: as });
  await card.getByRole('button', { name: 'Begin the film' }).click();
  await expect(page.getByRole('heading', { name: `Rolls of ${title}` })).toBeVisible();
  await page.goto('/');
}

const roster = (page: Page) => page.getByRole('region', { name: 'Class roster' });

test('a class of three, planned with its lower bound', async ({ page, bench }) => {
  await expect(roster(page).getByText('Several films, one bench, one splicer')).toBeVisible();
  await begin(page, 'The Kite', 'Class film on two rolls');
  await begin(page, 'The Well', 'The Kite');
  await begin(page, 'Bread', 'Club reel, scan only');
  const films = page.getByRole('region', { name: 'On the shelf' });
  await expect(films.getByRole('link', { name: /The Kite/ })).toContainText('1 scene');
  await expect(films.getByRole('link', { name: /The Well/ })).toContainText('1 version, v1');
  await expect(films.getByRole('link', { name: /Bread/ })).toContainText('Regular 8');
  await expect(films.getByRole('link', { name: /Bread/ })).toContainText('no version');

  // By keys: the button, then the first field.
  await roster(page).getByRole('button', { name: 'Make a class roster' }).focus();
  await page.keyboard.press('Enter');
  await expect(roster(page).getByRole('textbox', { name: 'How many?' })).toBeFocused();
  // Nothing is proved: nobody cuts, and it says so.
  await expect(roster(page).getByRole('group', { name: 'Not planned yet' })).toContainText(
    'The Kite, cut: waits for “scan proved”',
  );
  await expect(roster(page).getByTitle(/: cut/)).toHaveCount(0);

  for (const film of ['Bread', 'The Kite', 'The Well']) {
    const from = roster(page).getByRole('textbox', { name: `${film}: scan proved from session` });
    await from.focus();
    await page.keyboard.type('2');
    await page.keyboard.press('Tab');
    await expect(roster(page).getByText(`${film}, cut: waits`)).toHaveCount(0);
  }
  await expect(roster(page).getByRole('status', { name: /no plan needs fewer/ })).toBeVisible();
  await expect(roster(page).getByTitle(/: cut/)).toHaveCount(3);
  await roster(page)
    .getByRole('button', { name: /lower bound/ })
    .click();
  const sum = page.getByRole('dialog', { name: 'The sum of lower bound' });
  await expect(sum).toContainText('the bench, in use for 7:30 h');
  await page.keyboard.press('Escape');

  // What is wrong stands at its place, and is put back.
  const hours = roster(page).getByRole('textbox', { name: 'Hours' }).nth(3);
  await hours.fill('soon');
  await hours.press('Enter');
  await expect(roster(page).getByText(/cannot read "soon" as hours/)).toBeVisible();
  await roster(page).getByRole('button', { name: 'Put the last change back' }).click();
  await expect(hours).toHaveValue('1:30');
  await expect(roster(page).getByTitle(/: cut/)).toHaveCount(3);

  // It is kept in the folder of the shelf, and printed.
  await page.reload();
  await expect(roster(page).getByTitle(/: cut/)).toHaveCount(3);
  const address = await roster(page)
    .getByRole('link', { name: 'Print the roster' })
    .getAttribute('href');
  const sheet = await page.request.get(address ?? '');
  expect((await sheet.body()).subarray(0, 5).toString()).toBe('%PDF-');
  const kept = await readFile(join(bench.shelf, 'roster.json'), 'utf8');
  expect(JSON.parse(kept).form.films).toHaveLength(3);
});
