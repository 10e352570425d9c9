// How the controls behave in a browser: keys, focus, what is painted, and that
// nothing is asked of any other machine.

import { expect, type Page, test } from '@playwright/test';

async function open(page: Page, story: string, bench = 'light') {
  await page.emulateMedia({ reducedMotion: 'reduce' });
  await page.goto(`/stories.html?story=${story}&bench=${bench}`);
  await expect(page.locator('main[data-ready="true"]')).toBeVisible();
}

test('a plate opens its sum with Enter and puts it away with Esc', async ({ page }) => {
  await open(page, 'Plate');
  const plate = page.getByRole('button', { name: /37 ft 60 fr/ });
  await plate.focus();
  await page.keyboard.press('Enter');
  const sum = page.getByRole('dialog', { name: 'The sum of length of the cut' });
  await expect(sum).toBeFocused();
  await expect(sum).toContainText('2,724 frames ÷ 72 to the foot');
  await page.keyboard.press('Escape');
  await expect(sum).toBeHidden();
  await expect(plate).toBeFocused();
});

test('a card never runs out of the window, however large the words', async ({ page }) => {
  await page.setViewportSize({ width: 640, height: 480 });
  await open(page, 'Term');
  await page.evaluate(() => (document.documentElement.style.fontSize = '200%'));
  await page.getByRole('button', { name: 'R1·2939' }).click();
  const box = await page.getByRole('dialog').boundingBox();
  expect(box?.x).toBeGreaterThanOrEqual(0);
  expect(box?.y).toBeGreaterThanOrEqual(0);
  expect((box?.x ?? 0) + (box?.width ?? 0)).toBeLessThanOrEqual(640);
  expect((box?.y ?? 0) + (box?.height ?? 0)).toBeLessThanOrEqual(480);
});

test('the sheet of all keys keeps the focus inside and gives it back', async ({ page }) => {
  await open(page, 'Keyline');
  const opener = page.getByRole('button', { name: /all keys/ }).first();
  await opener.click();
  const sheet = page.getByRole('dialog', { name: 'All keys' });
  await expect(sheet).toBeVisible();
  for (let press = 0; press < 4; press++) {
    await page.keyboard.press('Tab');
    // The browser's own bar may have the focus between two rounds, the page may not.
    const outside = await page.evaluate(
      () => document.activeElement !== document.body && !document.activeElement?.closest('dialog'),
    );
    expect(outside).toBe(false);
  }
  await page.keyboard.press('Escape');
  await expect(sheet).toBeHidden();
  await expect(opener).toBeFocused();
});

test('three hundred rows are walked by keys while only those in sight are drawn', async ({
  page,
}) => {
  await open(page, 'SheetTable');
  const grid = page.getByRole('grid', { name: 'Cutting sheet' });
  await grid.focus();
  await page.keyboard.press('End');
  const last = grid.getByRole('row', { selected: true });
  await expect(last).toContainText('300');
  await expect(last).toBeInViewport({ ratio: 1 });
  expect(await grid.getByRole('row').count()).toBeLessThan(40);

  await page.keyboard.press('PageUp');
  await page.keyboard.press('ArrowUp');
  const above = grid.getByRole('row', { selected: true });
  await expect(above).not.toContainText('300');
  await expect(above).toBeInViewport({ ratio: 1 });

  await page.keyboard.press('Home');
  const first = grid.getByRole('row', { selected: true });
  // The headings must not lie over it.
  const head = await grid.getByRole('row').first().boundingBox();
  const box = await first.boundingBox();
  expect(box?.y).toBeGreaterThanOrEqual((head?.y ?? 0) + (head?.height ?? 0) - 1);
  await page.keyboard.press('Enter');
  await expect(page.getByText('Opened: 1.')).toBeVisible();
});

test('a choice among few is made with the arrows', async ({ page }) => {
  await open(page, 'Segment');
  await page.getByRole('radio', { name: 'Two strips' }).focus();
  await page.keyboard.press('ArrowRight');
  await expect(page.getByRole('radio', { name: 'As joined' })).toBeChecked();
});

test('a line tells once that it is kept, by Enter or by leaving it', async ({ page }) => {
  await open(page, 'Field');
  const field = page.getByRole('textbox', { name: 'title' });
  await field.fill('The Ten-Past Ferry');
  await field.press('Enter');
  await field.blur();
  await expect(page.getByText('Kept: The Ten-Past Ferry (1 time)')).toBeVisible();
});

function pixel(page: Page, x: number, y: number) {
  return page
    .locator('canvas')
    .first()
    .evaluate(
      (canvas: HTMLCanvasElement, at) => {
        const dense = devicePixelRatio;
        const pen = canvas.getContext('2d');
        return [...(pen?.getImageData(at.x * dense, at.y * dense, 1, 1).data ?? [])];
      },
      { x, y },
    );
}

test('a hanging strip is painted, and anew when the bench turns dark', async ({ page }) => {
  await open(page, 'HangingStrip');
  // Super 8 at 7 px per mm: a hole lies at 3.6 to 10 px, in the middle of the pitch.
  await expect.poll(() => pixel(page, 7, 15)).toEqual([0xff, 0xfb, 0xea, 255]);
  await expect.poll(async () => (await pixel(page, 30, 10))[2]).toBeGreaterThan(100);
  await page.evaluate(() => (document.documentElement.dataset['bench'] = 'dark'));
  await expect.poll(() => pixel(page, 7, 15)).toEqual([0xd6, 0xcf, 0xb9, 255]);
});

test('the bench follows the system until one chooses', async ({ page }) => {
  await page.emulateMedia({ colorScheme: 'dark' });
  await open(page, 'Button');
  const ground = () =>
    page.evaluate(() => getComputedStyle(document.documentElement).backgroundColor);
  expect(await ground()).toBe('rgb(217, 212, 198)');
  await page.evaluate(() => delete document.documentElement.dataset['bench']);
  expect(await ground()).toBe('rgb(27, 26, 23)');
});

for (const story of [
  'Button',
  'Segment',
  'Tabs',
  'Plate',
  'Keyline',
  'Field',
  'Flag',
  'Dialogue',
]) {
  test(`what is pressed in ${story} is at least 44 px high`, async ({ page }) => {
    await open(page, story);
    const small = await page.evaluate(() => {
      const within = document.querySelector('dialog[open]') ?? document;
      return [...within.querySelectorAll('button, a[href], label:has(input), input[type="text"]')]
        .filter((at) => {
          at.scrollIntoView({ block: 'center' });
          const box = at.getBoundingClientRect();
          const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
          const hits = (down: number) => at.contains(document.elementFromPoint(x, y + down));
          const reach = (way: 1 | -1) => {
            let far = 0;
            while (far < 60 && hits(way * (far + 0.5))) far += 0.5;
            return far;
          };
          return reach(-1) + reach(1) < 43.5;
        })
        .map((at) => at.outerHTML.slice(0, 160));
    });
    expect(small).toEqual([]);
  });
}

test('nothing is asked of another machine, and the content policy holds', async ({ page }) => {
  const asked: string[] = [];
  const refused: string[] = [];
  page.on('request', (request) => asked.push(request.url()));
  page.on('console', (line) => {
    if (/content security policy/i.test(line.text())) refused.push(line.text());
  });
  const answer = await page.goto('/stories.html?story=FilmStrip&bench=light');
  expect(answer?.headers()['content-security-policy']).toContain("default-src 'self'");
  await expect(page.locator('main[data-ready="true"]')).toBeVisible();
  await page.evaluate(() => document.fonts.ready);
  const own = new URL(page.url()).origin;
  expect(asked.filter((url) => !url.startsWith(own) && !url.startsWith('data:'))).toEqual([]);
  expect(asked.some((url) => url.endsWith('.woff2'))).toBe(true);
  expect(refused).toEqual([]);
});
