// Every story of every control, on the light and the dark bench, with words as
// they are and twice as large: no fault found by axe, nothing cut off.

import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import AxeBuilder from '@axe-core/playwright';
import { expect, type Page, test } from '@playwright/test';

const places = ['../src/lib', '../src/rooms'].map((place) =>
  fileURLToPath(new URL(place, import.meta.url)),
);
const stories = places
  .flatMap((place) => readdirSync(place, { recursive: true, encoding: 'utf8' }))
  .map((path) => /([^/\\]+)\.story\.svelte$/.exec(path)?.[1])
  .filter((name) => name !== undefined)
  .sort();

async function expectNoFault(page: Page, looked: 'at all' | 'at contrast' = 'at all') {
  const axe = new AxeBuilder({ page }).setLegacyMode();
  if (looked === 'at contrast') axe.withRules(['color-contrast']);
  const { violations } = await axe.analyze();
  const found = violations.map(
    (fault) => `${fault.id}: ${fault.help}\n  ${fault.nodes.map((node) => node.html).join('\n  ')}`,
  );
  expect(found).toEqual([]);
}

/** Words that do not fit their box, and a page wider than its window. */
function cutOff(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const cut = [...document.querySelectorAll<HTMLElement>('main *')].filter((at) => {
      const style = getComputedStyle(at);
      const hides = style.overflowX === 'hidden' || style.overflowX === 'clip';
      const meant = style.textOverflow === 'ellipsis' || at.classList.contains('spoken');
      return hides && !meant && at.scrollWidth > at.clientWidth + 1;
    });
    const wide = document.documentElement.scrollWidth > innerWidth ? ['the page'] : [];
    return [...wide, ...cut.map((at) => at.outerHTML.slice(0, 120))];
  });
}

test('there are stories', () => expect(stories.length).toBeGreaterThan(20));

for (const story of stories) {
  test(story, async ({ page }) => {
    const faults: string[] = [];
    page.on('pageerror', (error) => faults.push(error.message));
    page.on('console', (line) => {
      if (line.type() === 'error') faults.push(line.text());
    });
    await page.emulateMedia({ reducedMotion: 'reduce' });
    await page.goto(`/stories.html?story=${story}&bench=light`);
    await expect(page.locator('main[data-ready="true"]')).toBeVisible();
    await test.step('light bench', () => expectNoFault(page));
    expect(await cutOff(page)).toEqual([]);

    await page.evaluate(() => (document.documentElement.dataset['bench'] = 'dark'));
    // Turning the bench changes inks and grounds, and nothing else.
    await test.step('dark bench', () => expectNoFault(page, 'at contrast'));

    await page.evaluate(() => (document.documentElement.style.fontSize = '200%'));
    await test.step('dark bench, words twice as large', () => expectNoFault(page));
    expect(await cutOff(page)).toEqual([]);
    expect(faults).toEqual([]);
  });
}
