// The Script room with the real program: brought in, drawn by pen and by keys, planned,
// written; and what was shot draws its lines.

import type { Page } from '@playwright/test';
import { expect, FILM, slip, test } from './film_test';

test.use({ onShelf: 'cut' });

const SCREENPLAY = `EXT. THE LANDING - DAY

The ferry lies at the landing.

Ida looks up.

EXT. THE RIVER - DAY

The ferry crosses.
`;
const SETUPS = `scene,setup,actions,size,seconds,takes
1,1,1a;1b,long,12,2
1,1A,1b,close,4,1
2,2,2a,long,10,1
`;

const bringIn = (page: Page, name: string, text: string) =>
  page
    .getByLabel('A script to bring in')
    .setInputFiles({ name, mimeType: 'text/plain', buffer: Buffer.from(text) });
const cell = (page: Page, name: string) => page.getByRole('button', { name, exact: true });
const panel = (page: Page, name: string) =>
  page.getByRole('radio', { name, exact: true }).check({ force: true });
const plate = (page: Page, words: string) =>
  page.getByRole('banner').getByRole('button', { name: words });

async function withScript(page: Page) {
  await page.goto(`${FILM}/script`);
  await bringIn(page, 'boat.fountain', SCREENPLAY);
  await expect(slip(page, 'The screenplay is in.')).toBeVisible();
  await bringIn(page, 'setups.csv', SETUPS);
  await expect(slip(page, 'The setups are in.')).toBeVisible();
  await page.getByRole('button', { name: 'I have seen it' }).click();
  await panel(page, 'Planned');
}

test('a script is brought in, its lines are drawn, and it is planned', async ({ page }) => {
  await withScript(page);
  await expect(plate(page, 'actions that something shows')).toContainText('3 of 3 planned');
  await expect(plate(page, 'actions that hang on one take')).toContainText('1 by one take');

  await test.step('the pen draws a new setup down two actions', async () => {
    const from = await cell(page, 'new setup of 1a').boundingBox();
    const to = await cell(page, 'new setup of 1b').boundingBox();
    if (!from || !to) throw new Error('the column is there');
    await page.mouse.move(from.x + from.width / 2, from.y + from.height / 2);
    await page.mouse.down();
    await page.mouse.move(to.x + to.width / 2, to.y + to.height / 2, { steps: 4 });
    await page.mouse.up();
    await expect(cell(page, '1B, 1a: on camera')).toBeVisible();
    await expect(cell(page, '1B, 1b: on camera')).toBeVisible();
  });

  await test.step('rubbed out, and taken back', async () => {
    await page.getByRole('radio', { name: 'rub out' }).check({ force: true });
    await cell(page, '1B, 1a: on camera').click();
    await expect(cell(page, '1B, 1a: not in it')).toBeVisible();
    await page.keyboard.press('Control+z');
    await expect(cell(page, '1B, 1a: on camera')).toBeVisible();
  });

  await test.step('a setup without seconds keeps the film from being planned, and says so', async () => {
    await panel(page, 'Stock');
    await expect(slip(page, 'Before film can be planned:')).toContainText('setup 1B');
    await page.getByRole('button', { name: '1B: open its card' }).click();
    const card = page.getByRole('dialog', { name: 'Setup 1B' });
    await card.getByLabel('Seconds').fill('5');
    // 5 s at 18 and 24 frames of run-up.
    await expect(card.locator('.film')).toContainText('a take is 114 frames');
    await card.getByRole('button', { name: 'Keep' }).click();
    await expect(card).toBeHidden();
    // 2 × (216 + 24) + (72 + 24) + 2 × 114 + (180 + 24).
    await expect(page.getByRole('button', { name: /^film of all takes/ })).toContainText('1,008');
    await expect(page.getByText('proved')).toBeVisible();
  });

  await test.step('the roll has a price', async () => {
    await page.getByRole('button', { name: 'The roll and its price' }).click();
    const form = page.getByRole('dialog', { name: 'The roll and its price' });
    await form.getByLabel('A roll', { exact: true }).fill('34.50');
    await form.getByLabel('In', { exact: true }).fill('crowns');
    await form.getByRole('button', { name: 'Keep' }).click();
    await expect(page.getByText('34.50 crowns')).toBeVisible();
  });
});

test('by keys: an action is written, lines change, a take gets its ring', async ({ page }) => {
  await withScript(page);
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('Space');
  await expect(cell(page, '1A, 1b: off camera')).toBeVisible();
  await page.keyboard.press('Escape');
  await page.keyboard.press('Insert');
  await expect(page.getByLabel('What happens, or what is said')).toBeFocused();
  await page.keyboard.type('A gull lands on the bollard.');
  await page.keyboard.press('Control+Enter');
  await expect(page.locator('#action-1c')).toContainText('A gull lands');
  // Nothing shows it yet: it is asked about.
  await expect(plate(page, 'actions that something shows')).toContainText('3 of 4 planned');
  await page.keyboard.press('ArrowUp');
  await page.keyboard.press('ArrowUp');
  await page.keyboard.press('Tab');
  await expect(page.getByRole('button', { name: '1c: write it' })).toHaveAttribute(
    'aria-current',
    'true',
  );

  await panel(page, 'Shot');
  await expect(cell(page, '1-T1, 1a: on camera')).toBeVisible();
  await page.keyboard.press('ArrowUp');
  await page.keyboard.press('ArrowRight');
  await expect(page.getByRole('button', { name: '1-T1, circled: open the take' })).toBeVisible();
  await page.keyboard.press('Space');
  await expect(page.getByRole('button', { name: '1-T1: open the take' })).toBeVisible();
  await page.keyboard.press('Enter');
  await expect(page).toHaveURL(/\/rolls\?.*roll=R1/);
});

test('bad files are told of line by line and change nothing', async ({ page }) => {
  await page.goto(`${FILM}/script`);
  await expect(page.getByText('Write the first action, or bring in a script.')).toBeVisible();
  await bringIn(page, 'bad.csv', 'setup,actions,seconds\n2,,0\n2,2a,soon\n');
  const refused = page.getByRole('alert', { name: /^Refused/ });
  await expect(refused).toContainText('line 2');
  await expect(refused).toContainText('line 3');
  await page.getByRole('button', { name: 'I have seen it' }).click();
  await page.evaluate(() => {
    const clipboardData = new DataTransfer();
    clipboardData.setData('text/plain', 'EXT. THE MILL - DAY\n\nThe wheel turns.\n');
    window.dispatchEvent(new ClipboardEvent('paste', { clipboardData }));
  });
  await expect(page.getByRole('region', { name: 'Scene 1' })).toContainText('The wheel turns.');
  await page.keyboard.press('Control+z');
  await page.getByRole('button', { name: 'Write the first scene' }).click();
  await page.getByLabel('Where and when').fill('EXT. LANDING - DAY');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('region', { name: 'Scene 1' })).toContainText('EXT. LANDING - DAY');
});

test('a place is drawn from above with its sun, a sound is ticked off, a visit noted', async ({
  page,
}) => {
  await withScript(page);
  await panel(page, 'Places');
  await page.getByRole('button', { name: 'Draw a place' }).click();
  const sheet = page.getByRole('dialog', { name: 'A new floor plan' });
  await sheet.getByRole('textbox', { name: 'Place' }).fill('the landing');
  for (const [name, value] of [
    ['Latitude', '54.3'],
    ['Longitude', '10.1'],
    ['Day', '2026-06-21'],
    ['Clock', '+02:00'],
  ] as const) {
    await sheet.getByRole('textbox', { name }).fill(value);
    await sheet.getByRole('textbox', { name }).press('Enter');
  }
  // At noon of summer time the sun is up over the drawing.
  await expect(sheet.getByText('12', { exact: true })).toBeVisible();
  const drawing = sheet.getByRole('img', { name: 'The place from above' });
  const box = await drawing.boundingBox();
  if (!box) throw new Error('it is drawn');
  await sheet.getByRole('radio', { name: 'Camera' }).check({ force: true });
  await page.mouse.click(box.x + box.width / 2, box.y + box.height * 0.7);
  await sheet.getByLabel('Camera of setup').fill('1a');
  await sheet.getByLabel('Camera of setup').press('Enter');
  await expect(drawing).toContainText('1A');
  await sheet.getByRole('group', { name: 'The drawing' }).focus();
  await page.keyboard.press('ArrowLeft');
  await sheet.getByRole('button', { name: 'Keep' }).click();
  await expect(page.getByRole('img', { name: 'the landing from above' })).toContainText('1A');

  await page.getByRole('button', { name: 'Note a visit' }).click();
  await page.getByLabel('What was seen').fill('Light from the left until noon.');
  await page.getByRole('button', { name: 'Keep' }).click();
  await expect(page.getByText('Light from the left until noon.')).toBeVisible();

  await panel(page, 'Sounds');
  await page.getByRole('button', { name: 'Add a sound' }).click();
  await page.getByLabel('Sound', { exact: true }).fill('the bell');
  await page.getByRole('button', { name: 'Keep' }).click();
  await page.getByRole('button', { name: 'Leave it' }).click();
  await page.getByRole('checkbox', { name: 'in the box: the bell' }).check();
  await expect(page.getByText('1 of 1 in the box')).toBeVisible();
});

test('what was planned names the takes in Rolls, and the report is typed', async ({ page }) => {
  await withScript(page);
  await panel(page, 'Report');
  const field = (name: string) => page.getByRole('textbox', { name, exact: true });
  const combo = (name: string) => page.getByRole('combobox', { name, exact: true });
  await combo('Roll').fill('R2');
  await combo('Setup').fill('2');
  await field('Counter, end').fill('3+10');
  await page.keyboard.press('Enter');
  // 3 feet and 10 frames of Super 8 are 226 frames; the slate 2-T1 is on R1 already.
  await expect(page.getByRole('row', { name: /2-T2/ })).toContainText('226');
  await field('Counter, end').fill('200');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('alert', { name: /^Refused/ })).toContainText('runs backwards');

  await page
    .getByRole('navigation', { name: 'Rooms' })
    .getByRole('link', { name: 'Rolls' })
    .click();
  const takes = page.getByRole('list', { name: /^Takes of R1/ }).getByRole('button');
  await takes.nth(3).click();
  const card = page.getByRole('region', { name: 'Take card' });
  await card.getByRole('button', { name: 'Fill in' }).click();
  await card.getByLabel('scene, letter').fill('1a');
  await card.getByLabel('scene, letter').press('Enter');
  await expect(card.getByLabel('size')).toHaveValue('close');
});
