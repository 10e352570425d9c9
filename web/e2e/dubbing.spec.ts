// The Dubbing room with the real program: columns are ruled, cues laid by keys and by the hand,
// they go with the picture when the cut changes, and what lost its place asks.

import AxeBuilder from '@axe-core/playwright';
import type { Page } from '@playwright/test';
import { expect, FILM, test } from './film_test';

test.use({ onShelf: 'cut' });

const chart = (page: Page) => page.getByRole('group', { name: /^The chart of v1/ });
const cue = (page: Page, name: string) => chart(page).getByRole('button', { name });

/** The chart with its columns, and the keys in it. */
async function ruled(page: Page): Promise<void> {
  await page.goto(`${FILM}/dubbing`);
  await expect(page.getByText('The chart waits for its columns.')).toBeVisible();
  await page.getByRole('button', { name: 'Rule the columns' }).click();
  await expect(page.getByRole('button', { name: 'Column music' })).toBeVisible();
  await chart(page).focus();
}

/** A cue under the rule, named. */
async function lay(page: Page, name: string): Promise<void> {
  await page.keyboard.press('Insert');
  const field = page.getByRole('textbox', { name: 'Cue', exact: true });
  await expect(field).toHaveValue('');
  await field.fill(name);
  await field.press('Enter');
  await expect(cue(page, name)).toBeVisible();
  await chart(page).focus();
}

test('columns are ruled and a cue is laid by keys where the rule is', async ({ page }) => {
  await ruled(page);
  await page.keyboard.press('Shift+ArrowDown');
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('ArrowRight');
  await lay(page, 'river');
  // Ten and one: the second column, at frame 11, by hand for 18 frames.
  await expect(cue(page, 'river, atmosphere, in 11, 18 frames')).toBeVisible();
  // Frame 11 of the version is R1 21: its first piece begins at 10.
  await expect(page.getByText('R1 21', { exact: true })).toBeVisible();
  await page.keyboard.press('Control+ArrowDown');
  await expect(cue(page, 'river, atmosphere, in 12, 18 frames')).toBeVisible();
  await page.keyboard.press('Control+ArrowLeft');
  await expect(cue(page, 'river, atmosphere, in 12, 18 frames, −0.5 dB')).toBeVisible();
  await page.keyboard.press('Control+z');
  await expect(cue(page, 'river, atmosphere, in 12, 18 frames, 0 dB')).toBeVisible();
  await page.keyboard.press('Delete');
  await expect(cue(page, 'river')).toHaveCount(0);
});

test('a cue goes with its frame when a piece grows before it, and says so', async ({ page }) => {
  await ruled(page);
  // 45 frames on: in the second piece, R1 115.
  for (let tens = 0; tens < 4; tens += 1) await page.keyboard.press('Shift+ArrowDown');
  for (let ones = 0; ones < 5; ones += 1) await page.keyboard.press('ArrowDown');
  await lay(page, 'bell');
  await expect(cue(page, 'bell, voice, in 45')).toBeVisible();
  // In Cutting the first piece ends four frames later.
  const film = await page.request.get(`/api${FILM.replace('/film/', '/films/')}/cuts/v1`);
  const version = (await film.json()) as { revision: number; pieces: Record<string, unknown>[] };
  const [first] = version.pieces;
  const changed = await page.request.post(`/api${FILM.replace('/film/', '/films/')}/changes`, {
    headers: { Origin: new URL(page.url()).origin },
    data: {
      key: 'dubbing-test-1',
      revision: version.revision,
      change: {
        film_change: 'change_cut',
        cut: 'v1',
        cut_change: {
          change: 'replace',
          at: 0,
          piece: { kind: 'shot', roll: 'R1', in: first?.['in'], out: Number(first?.['out']) + 4 },
        },
      },
    },
  });
  expect(changed.ok(), await changed.text()).toBe(true);
  await expect(cue(page, 'bell, voice, in 49, 18 frames, moved')).toBeVisible();
  await expect(page.getByText('Moved with what it holds to: 4 frames later.')).toBeVisible();
});

test('the chart runs with the picture and stops where it is', async ({ page }) => {
  await ruled(page);
  await page.keyboard.press('Space');
  await expect(page.getByRole('button', { name: /^Stop/ })).toBeVisible();
  await expect(async () => {
    expect(await page.locator('.rule .count').textContent()).not.toBe('0+00');
  }).toPass();
  await page.keyboard.press('Space');
  await expect(page.getByRole('button', { name: /^Start/ })).toBeVisible();
  await page.keyboard.press('Home');
  await expect(page.locator('.rule .count')).toHaveText('0+00');
});

for (const bench of ['light', 'dark'] as const) {
  test(`nothing stands in the way of whoever listens or sees little, ${bench}`, async ({
    page,
  }) => {
    await page.emulateMedia({ colorScheme: bench });
    await ruled(page);
    await lay(page, 'bell');
    for (const card of ['Cue', 'Sounds', 'Column', 'Mix']) {
      await page.getByRole('radio', { name: card, exact: true }).check({ force: true });
      const found = await new AxeBuilder({ page }).analyze();
      const told = found.violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html ?? ''}`);
      expect(told, card).toEqual([]);
    }
  });
}

test('cues come in as a table: what is wrong is told, what would come is shown, one step undoes it', async ({
  page,
}) => {
  await ruled(page);
  await page.getByRole('radio', { name: 'Mix', exact: true }).check({ force: true });
  const card = page.getByRole('region', { name: 'Cues as a table' });
  const file = (text: string) => ({
    name: 'cues.csv',
    mimeType: 'text/csv',
    buffer: Buffer.from(`column,sound,anchor,at,in,out\n${text}`),
  });
  const chooser = card.getByLabel('A table of cues');
  await chooser.setInputFiles(file('effects,bell,strip,3,,\neffects,bell,clock,x,,2\n'));
  await expect(card.getByText('2 things to put right in cues.csv.')).toBeVisible();
  await expect(card.getByRole('listitem').filter({ hasText: /^line 2, anchor/ })).toBeVisible();
  await expect(card.getByRole('listitem').filter({ hasText: /^line 3, at/ })).toBeVisible();
  const rows = 'effects,bell,clock,20,,2\nwind,gust,clock,30,,1\n';
  await chooser.setInputFiles(file(rows));
  await expect(card.getByText('cues.csv would lay 2 cues to v1.')).toBeVisible();
  await expect(card.getByText('New columns: wind.')).toBeVisible();
  await expect(cue(page, 'bell')).toHaveCount(0);
  await card.getByRole('button', { name: 'Lay them' }).click();
  await expect(card.getByText('2 cues laid to v1.')).toBeVisible();
  await expect(cue(page, 'bell, effects, in 20')).toBeVisible();
  await expect(cue(page, 'gust, wind, in 30')).toBeVisible();
  // The same once more says nothing new.
  await chooser.setInputFiles(file(rows));
  await expect(card.getByText('2 cues of it stand there already')).toBeVisible();
  await expect(card.getByRole('button', { name: 'Lay them' })).toBeDisabled();
  await chart(page).focus();
  await page.keyboard.press('Control+z');
  await expect(cue(page, 'bell')).toHaveCount(0);
  await expect(cue(page, 'gust')).toHaveCount(0);
});

test('a pass of the mix is written in its log', async ({ page }) => {
  await ruled(page);
  await page.getByRole('radio', { name: 'Mix', exact: true }).check({ force: true });
  const log = page.getByRole('region', { name: 'Log of the mix' });
  await log.getByRole('button', { name: 'New pass 1' }).click();
  const pass = log.getByRole('group', { name: 'Pass 1' });
  await pass.getByLabel('Faults at, a line each').fill('45 door late\n12');
  await pass.getByLabel('Faults at, a line each').blur();
  // At once, while the faults are still on their way.
  await pass.getByLabel('Keep it?').selectOption('keep');
  await expect(pass.getByLabel('Faults at, a line each')).toHaveValue('12\n45 door late');
  await page.reload();
  await page.getByRole('radio', { name: 'Mix', exact: true }).check({ force: true });
  await expect(pass.getByLabel('Keep it?')).toHaveValue('kept');
  await expect(pass.getByLabel('Faults at, a line each')).toHaveValue('12\n45 door late');
  await expect(log.getByRole('button', { name: 'New pass 2' })).toBeVisible();
});
