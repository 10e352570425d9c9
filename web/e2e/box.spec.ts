// The archive box made from the page, held against its checksums, and a bit that changed found.

import { readdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import AxeBuilder from '@axe-core/playwright';
import type { Page } from '@playwright/test';
import { expect, FILM, test } from './film_test';

test.use({ onShelf: 'cut' });

const card = (page: Page) => page.getByRole('dialog', { name: 'Archive box' });

async function opened(page: Page): Promise<void> {
  await page.goto(`${FILM}/screening`);
  await page.getByRole('button', { name: 'Archive box' }).click();
  await expect(card(page).getByRole('textbox', { name: 'Called' })).toHaveValue(/-box$/);
}

test('what is known of a film is said with how it is known, and struck off again', async ({
  page,
}) => {
  await opened(page);
  await expect(card(page)).toContainText('Nothing is said yet.');
  await card(page).getByRole('textbox', { name: 'What is said' }).fill('1961, in summer');
  await card(page).getByRole('radio', { name: 'guessed' }).press('Space');
  await card(page)
    .getByRole('textbox', { name: /^Who says so/ })
    .fill('the leaves');
  await card(page).getByRole('button', { name: 'Write it down' }).click();
  const said = card(page).getByRole('listitem').filter({ hasText: '1961, in summer' });
  await expect(said).toContainText('guessed: the leaves');
  const { violations } = await new AxeBuilder({ page }).include('dialog[open]').analyze();
  expect(violations.map(({ id, nodes }) => [id, nodes[0]?.html])).toEqual([]);
  await said.getByRole('button', { name: 'Strike off' }).click();
  await expect(said).toHaveCount(0);
});

test('the box is made and read back; a bit that changed is found and its file named', async ({
  page,
  bench,
}) => {
  await opened(page);
  // The scan stays where it is, and is known by its checksum: the box is made sooner.
  await card(page)
    .getByRole('checkbox', { name: /^Copy the scans/ })
    .uncheck();
  await card(page).getByRole('textbox', { name: 'Called' }).fill('ferry-box');
  await card(page).getByRole('button', { name: 'Make the box' }).click();
  await expect(card(page)).toContainText('The box is made and was read back whole.', {
    timeout: 60_000,
  });
  const box = join(bench.media, 'ferry-box');
  expect(await readFile(join(box, 'bagit.txt'), 'utf8')).toContain('BagIt-Version: 1.0');
  const manifest = await readFile(join(box, 'manifest-sha512.txt'), 'utf8');
  const sheet = manifest
    .split('\n')
    .map((line) => line.split(/\s+/)[1] ?? '')
    .find((name) => name.endsWith('.pdf'));
  expect(sheet).toBeDefined();
  await test.step('made again under the same name it is refused, and nothing is lost', async () => {
    await card(page).getByRole('button', { name: 'Make the box' }).click();
    await expect(
      card(page)
        .getByText(/ferry-box/)
        .last(),
    ).toBeVisible();
    expect(await readdir(box)).toContain('bagit.txt');
  });
  await test.step('a bit flips', async () => {
    const file = join(box, sheet ?? '');
    const bytes = await readFile(file);
    bytes[100] = (bytes[100] ?? 0) ^ 1;
    await writeFile(file, bytes);
    await card(page).getByRole('button', { name: 'Check the box of that name' }).click();
    await expect(card(page)).toContainText('That did not work.', { timeout: 60_000 });
    await expect(card(page)).toContainText(sheet?.split('/').at(-1) ?? '');
  });
});
