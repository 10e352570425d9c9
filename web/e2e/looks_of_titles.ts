// The screens of the Titles room that are looked at.

import type { Page } from '@playwright/test';
import { expect, FILM } from './film_test';

const choose = (page: Page, name: string) =>
  page.getByRole('radio', { name, exact: true }).check({ force: true });

async function written(page: Page): Promise<void> {
  await page.goto(`${FILM}/titles`);
  const first = page.getByLabel('Type the words of a title');
  const there = page.getByRole('grid', { name: 'Titles in their order' });
  await expect(first.or(there)).toBeVisible();
  // After words were enlarged it is there already.
  if (await first.isVisible()) {
    await first.fill('The Ten-Past Boat\na film of one morning\nfor whoever waits');
    await page.getByRole('button', { name: 'Make this title' }).click();
  }
  await expect(page.getByRole('img', { name: /^The card: The Ten-Past/ })).toBeVisible();
}

interface Look {
  readonly name: string;
  readonly onShelf: 'roll' | 'cut';
  readonly reach: (there: { readonly page: Page }) => Promise<void>;
}

export const LOOKS_OF_TITLES: readonly Look[] = [
  {
    name: 'titles, nothing written',
    onShelf: 'roll',
    reach: async ({ page }) => {
      await page.goto(`${FILM}/titles`);
      await expect(page.getByText('How many words? I will say')).toBeVisible();
    },
  },
  {
    name: 'titles, a card',
    onShelf: 'cut',
    reach: ({ page }) => written(page),
  },
  {
    name: 'titles, letters and stand',
    onShelf: 'cut',
    reach: async ({ page }) => {
      await written(page);
      await choose(page, 'Letters');
      await choose(page, 'Copy stand');
      await expect(page.getByRole('img', { name: /^The stand from the front/ })).toBeVisible();
    },
  },
  {
    name: 'titles, faint letters',
    onShelf: 'cut',
    reach: async ({ page }) => {
      await written(page);
      await choose(page, 'What lies under them');
      await page.getByLabel('How light the card is').fill('90');
      await page.getByLabel('How light the card is').press('Enter');
      await expect(page.getByText('The letters do not stand out')).toBeVisible();
    },
  },
];
