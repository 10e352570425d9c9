// The screens of the Script room that are looked at.

import type { Page } from '@playwright/test';
import { expect, FILM, slip } from './film_test';

const SCREENPLAY = `EXT. THE LANDING - DAY

The ferry lies at the landing. Nobody is on the quay yet; the water hardly moves.

Ida looks up. She takes hold of the bell rope and rings: once, twice, three times.

[[Not before the mist has gone.]]

EXT. THE RIVER - DAY

The ferry crosses, the two of them at the rail, eating.
`;
const SETUPS = `scene,setup,actions,size,move,action,sound,seconds,takes
1,1,1a;(1b),long,still,the landing,water,12,2
1,1A,1b,close,still,she rings,bell,4,1
2,2,2a,long,pan,the crossing,,10,2
`;

const panel = (page: Page, name: string) =>
  page.getByRole('radio', { name, exact: true }).check({ force: true });

async function brought(page: Page): Promise<void> {
  await page.goto(`${FILM}/script`);
  const file = page.getByLabel('A script to bring in');
  const there = page.getByRole('button', { name: '1A: open its card' });
  const lined = page.getByRole('heading', { name: 'Lined script' });
  await expect(lined).toBeVisible();
  // After words were enlarged it is there already.
  if (!(await page.getByText('Write the first action').isVisible())) return;
  for (const [name, text, said] of [
    ['boat.fountain', SCREENPLAY, 'The screenplay is in.'],
    ['setups.csv', SETUPS, 'The setups are in.'],
  ] as const) {
    await file.setInputFiles({ name, mimeType: 'text/plain', buffer: Buffer.from(text) });
    await expect(slip(page, said)).toBeVisible();
  }
  await page.getByRole('button', { name: 'I have seen it' }).click();
  await panel(page, 'Planned');
  await expect(there).toBeVisible();
}

interface Look {
  readonly name: string;
  readonly onShelf: 'roll' | 'cut';
  readonly reach: (there: { readonly page: Page }) => Promise<void>;
}

export const LOOKS_OF_SCRIPT: readonly Look[] = [
  {
    name: 'script, nothing written',
    onShelf: 'roll',
    reach: async ({ page }) => {
      await page.goto(`${FILM}/script`);
      await expect(page.getByText('Write the first action')).toBeVisible();
    },
  },
  {
    name: 'script, planned',
    onShelf: 'cut',
    reach: async ({ page }) => {
      await brought(page);
      await panel(page, 'Planned');
    },
  },
  {
    name: 'script, shot',
    onShelf: 'cut',
    reach: async ({ page }) => {
      await brought(page);
      await panel(page, 'Shot');
      await expect(
        page.getByRole('button', { name: '1-T1, circled: open the take' }),
      ).toBeVisible();
    },
  },
  {
    name: 'script, stock',
    onShelf: 'cut',
    reach: async ({ page }) => {
      await brought(page);
      await panel(page, 'Stock');
      await page.getByRole('button', { name: 'In the order of the screen' }).click();
      await expect(page.getByText('load roll 1')).toBeVisible();
    },
  },
  {
    name: 'script, report',
    onShelf: 'cut',
    reach: async ({ page }) => {
      await brought(page);
      await panel(page, 'Report');
      await expect(page.getByRole('button', { name: 'Keep the take' })).toBeVisible();
    },
  },
  {
    name: 'script, setup',
    onShelf: 'cut',
    reach: async ({ page }) => {
      await brought(page);
      await panel(page, 'Planned');
      await page.getByRole('button', { name: '1A: open its card' }).click();
      await expect(page.getByRole('dialog', { name: 'Setup 1A' })).toBeVisible();
    },
  },
  {
    name: 'script, writing',
    onShelf: 'cut',
    reach: async ({ page }) => {
      await brought(page);
      await panel(page, 'Planned');
      await page.getByRole('button', { name: '1a: write it' }).click();
      await expect(page.getByLabel('What happens, or what is said')).toBeVisible();
    },
  },
  {
    name: 'script, floor plan',
    onShelf: 'cut',
    reach: async ({ page }) => {
      await brought(page);
      await panel(page, 'Places');
      await page.getByRole('button', { name: 'Draw a place' }).click();
      await expect(page.getByRole('dialog', { name: 'A new floor plan' })).toBeVisible();
    },
  },
  {
    name: 'script, sounds',
    onShelf: 'cut',
    reach: async ({ page }) => {
      await brought(page);
      await panel(page, 'Sounds');
      await page.getByRole('button', { name: 'Add a sound' }).click();
      await expect(page.getByRole('textbox', { name: 'Sound', exact: true })).toBeVisible();
    },
  },
];
