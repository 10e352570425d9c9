// The Titles room with the real program: words that say how long they stand, a card that is
// lettered, helped where it is faint, run in place, and laid into the cut.

import type { Locator, Page } from '@playwright/test';
import { expect, FILM, slip, test } from './film_test';

test.use({ onShelf: 'cut' });

const WORDS = 'The Ten-Past Boat\na film of one morning\nfor whoever waits';
const card = (page: Page) => page.getByRole('group', { name: 'The card, by keys' });
const rows = (page: Page) =>
  page.getByRole('grid', { name: 'Titles in their order' }).getByRole('rowgroup').getByRole('row');
/** A slip that comes or goes moves what lies below it: a click that missed is made again. */
async function choose(page: Page | Locator, name: string): Promise<void> {
  const radio = page.getByRole('radio', { name, exact: true });
  await expect(() => radio.check({ force: true, timeout: 5000 })).toPass();
}

async function fill(page: Page, label: string, value: string): Promise<void> {
  const field = page.getByLabel(label, { exact: true });
  await field.fill(value);
  await field.press('Enter');
}

async function withTitle(page: Page, words = WORDS): Promise<void> {
  await page.goto(`${FILM}/titles`);
  await page.getByLabel('Type the words of a title').fill(words);
  await page.getByRole('button', { name: 'Make this title' }).click();
  await expect(rows(page)).toHaveCount(1);
  // The pen goes to the words of the new title; whoever takes it away before, loses it again.
  await expect(page.getByLabel('Words, line by line as they shall stand')).toBeFocused();
}

test('words say at once how long they stand, and become a card', async ({ page }) => {
  await page.goto(`${FILM}/titles`);
  await expect(page.getByText('How many words? I will say how long')).toBeVisible();
  const field = page.getByLabel('Type the words of a title');
  await expect(field).toBeFocused();
  await page.keyboard.type('The End');
  const said = page.getByRole('status', { name: 'How long the words stand' });
  await expect(said).toContainText('45 frames');
  await field.fill(WORDS);
  // Story 10: 12 words stand 7.0 s, which is 126 frames at 18.
  await expect(said).toContainText('12 words');
  await expect(said).toContainText('7.0 s');
  await expect(said).toContainText('126 frames');
  await page.getByRole('button', { name: 'Make this title' }).click();

  await expect(rows(page)).toHaveCount(1);
  await expect(rows(page).first()).toContainText('M');
  await expect(page.getByRole('img', { name: /^The card: The Ten-Past Boat/ })).toBeVisible();
  await expect(page.getByRole('radio', { name: /Brush/ })).toBeChecked();
  const words = page.getByLabel('Words, line by line as they shall stand');
  await expect(words).toBeFocused();
  await page.keyboard.press('Control+End');
  await page.keyboard.type('\nat the landing');
  await words.blur();
  // 15 words: 1 + 7.5 s.
  await expect(rows(page).first()).toContainText('153');
  await card(page).focus();
  await page.keyboard.press('Control+z');
  await expect(words).toHaveValue(WORDS);
});

test('by keys: titles are added, moved, taken out and brought back', async ({ page }) => {
  await withTitle(page);
  await page.keyboard.press('Escape');
  await card(page).focus();
  await page.keyboard.press('Insert');
  await expect(rows(page)).toHaveCount(2);
  await expect(page.getByRole('heading', { name: 'T1, its words' })).toBeVisible();
  await page.keyboard.type('Ten past, every day.');
  await card(page).focus();
  await expect(rows(page).nth(1)).toContainText('Ten past, every day.');
  await page.keyboard.press('Control+ArrowUp');
  await expect(rows(page).first()).toContainText('T1');
  await page.keyboard.press('ArrowRight');
  await expect(page.getByRole('heading', { name: 'M, its words' })).toBeVisible();
  await page.keyboard.press('Delete');
  await expect(rows(page)).toHaveCount(1);
  await page.keyboard.press('Control+z');
  await expect(rows(page)).toHaveCount(2);
  await page.getByRole('grid', { name: 'Titles in their order' }).focus();
  await page.keyboard.press('ArrowDown');
  await expect(rows(page).nth(1)).toHaveAttribute('aria-selected', 'true');
});

test('the card is exposed as its sheet says, stepped and run to its end', async ({ page }) => {
  await withTitle(page, 'The End');
  await fill(page, 'Before', '12');
  await fill(page, 'After', '1 s');
  await fill(page, 'Lettered', 'soon');
  await expect(page.getByText('Frames such as 36, or 1ft12, or 2 s.')).toBeVisible();
  await page.getByLabel('Lettered', { exact: true }).press('Escape');
  await fill(page, 'Fade out', '9');
  const sheet = page.getByRole('table', { name: 'Frame by frame' });
  // 12 + 45 + 18 frames; the fade lies over the last 9.
  await expect(sheet).toContainText('58–66');
  await expect(sheet).toContainText('67–75ground, blank cel− 0.6 to − 5.0 stops');
  await card(page).focus();
  await page.keyboard.press('ArrowDown');
  await expect(page.getByText('of 75, 0.0 s')).toBeVisible();
  await page.keyboard.press('Shift+ArrowDown');
  await expect(page.getByText('of 75, 0.6 s')).toBeVisible();
  await expect(sheet.locator('[aria-current="step"]')).toContainText('1–12');
  await page.keyboard.press('Space');
  await expect(page.getByRole('button', { name: 'Stop Space' })).toBeVisible();
  await expect(page.getByText('of 75, 4.1 s')).toBeVisible();
  await expect(page.getByRole('button', { name: 'Run the card' })).toBeVisible();
  await page.keyboard.press('Escape');
  await expect(page.getByText('frames, 4.2 s')).toBeVisible();
});

test('letters that do not stand out are ringed, and helped by a press', async ({ page }) => {
  await withTitle(page);
  await choose(page, 'What lies under them');
  await fill(page, 'How light the card is', '90');
  const faint = slip(page, 'The letters do not stand out everywhere.');
  await expect(faint).toContainText('4.5 to 1 is asked for');
  await faint.getByRole('button').first().click();
  await expect(faint).toBeHidden();
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect(faint).toBeVisible();
});

test('a title stands in the cut as long as its sheet, and says so where it does not', async ({
  page,
}) => {
  await withTitle(page);
  await page.getByRole('button', { name: 'Lay it into v1' }).click();
  await expect(page.getByText('In v1 at 1, as long as its sheet exposes')).toBeVisible();
  await fill(page, 'Before', '36');
  const short = slip(page, 'In v1 it stands 126 frames; its sheet exposes 162.');
  await short.getByRole('button', { name: 'Let it stand 162 in v1' }).click();
  await expect(short).toBeHidden();
  await page.getByRole('link', { name: 'Look at v1 in Cutting' }).click();
  const pieces = page.getByRole('grid', { name: 'Pieces in their order' });
  await expect(pieces.getByRole('rowgroup').getByRole('row').first()).toContainText('162');
});

test('files that cannot be used are refused, and nothing is changed', async ({ page }) => {
  await withTitle(page);
  await choose(page, 'What lies under them');
  await choose(page, 'my own picture');
  const bad = { name: 'bad.jpg', mimeType: 'image/jpeg', buffer: Buffer.from('no picture') };
  await page.getByLabel('A picture of your own').setInputFiles(bad);
  await expect(page.getByRole('alert', { name: /^Refused/ })).toBeVisible();
  await expect(page.getByText('Drop a picture here, or choose one')).toBeVisible();
  await page.getByRole('button', { name: 'Put back what stood there' }).click();
  await expect(page.getByRole('alert', { name: /^Refused/ })).toBeHidden();
  await choose(page, 'a frame of the film');
  await fill(page, 'Frame of the film', 'R9.5');
  await expect(page.getByText('There is no roll R9.')).toBeVisible();
  await page.getByRole('button', { name: /^R1·\d+, 1-T1/ }).click();
  await expect(page.getByRole('textbox', { name: 'Frame of the film' })).toHaveValue(/^R1·/);
});

test('a stand that cannot be is told, keeps the titles in sight, and is mended', async ({
  page,
}) => {
  await withTitle(page);
  await choose(page, 'Copy stand');
  await fill(page, 'or distance, mm', '20');
  await expect(slip(page, 'The distance in mm is 20, outside').first()).toBeVisible();
  await expect(rows(page).first()).toContainText('The Ten-Past Boat');
  await page.reload();
  await expect(rows(page).first()).toContainText('The Ten-Past Boat');
  await choose(page, 'Copy stand');
  await fill(page, 'Width taken in, mm', '240');
  const drawing = page.getByRole('img', { name: /^The stand from the front/ });
  await expect(drawing).toHaveAttribute('aria-label', /lens 1,061 mm over the artwork/);
  // The other way round: a field half as far off is about half as wide.
  await fill(page, 'or distance, mm', '543.2');
  await expect(page.getByLabel('Width taken in, mm')).toHaveValue('120.0');
});

test('many words do not go on a card, and crawl', async ({ page }) => {
  await withTitle(page, Array.from({ length: 24 }, (_, nth) => `Helper ${nth + 1}`).join('\n'));
  const refused = page.getByRole('status', { name: /^Refused: 48 words do not go on one card/ });
  await expect(refused).toBeVisible();
  await expect(page.getByRole('button', { name: 'Lay it into v1' })).toBeHidden();
  await fill(page, 'Crawl, mm', '1,5');
  await expect(refused).toBeHidden();
  await expect(page.getByRole('table', { name: 'Frame by frame' })).toContainText(
    'letters move 1.50 mm a frame',
  );
  await card(page).focus();
  await page.keyboard.press('PageDown');
  await expect(page.getByText(/^of \d+, 0\.0 s$/)).toBeVisible();
});

test('list, exposure sheet, stand, chart and cel come out on paper', async ({ page }) => {
  await withTitle(page);
  await expect(page).toHaveURL(/title=M/);
  const sheets = page.getByRole('dialog', { name: 'Sheets of the titles' });
  await expect(async () => {
    // The pen may still be on its way to the words, where the key is not heard.
    await card(page).focus();
    await page.keyboard.press('Control+p');
    await expect(sheets).toBeVisible({ timeout: 2000 });
  }).toPass();
  for (const name of ['Copy stand', 'Field chart', 'Exposure sheet', 'Cel', 'Title list']) {
    await choose(sheets, name);
    await expect(
      sheets.getByRole('img', { name: /^Page 1 of/ }).first(),
      `${name} is drawn`,
    ).toBeVisible();
    await expect(sheets.getByRole('link', { name: 'Save as PDF' })).toBeVisible();
  }
  await choose(sheets, 'Clear on black');
  const svg = await page.request.get(
    (await sheets.getByRole('link', { name: 'The cel as a drawing' }).getAttribute('href')) ?? '',
  );
  expect(svg.headers()['content-type']).toContain('image/svg+xml');
  expect(svg.url()).toContain('reversed=true');
});
