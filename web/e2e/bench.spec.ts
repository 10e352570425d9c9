// The Bench: a version is begun and frozen, acts are ticked off by mouse and by keys,
// a press makes one tick, what really happened is told with its meaning first, a
// program that was gone loses nothing, and two windows do not tick the same act twice.

import type { Page } from '@playwright/test';
import { expect, FILM, slip, test } from './film_test';

test.use({ onShelf: 'cut' });

const BENCH = `${FILM}/bench`;
const act = (page: Page) => page.getByRole('region', { name: 'The next act' });
const title = (page: Page) => act(page).getByRole('heading', { level: 2 });
const tick = (page: Page) => page.locator('.buttons .tick');

async function begin(page: Page): Promise<void> {
  await page.goto(BENCH);
  await page.getByRole('button', { name: 'Begin v1' }).click();
  await expect(title(page)).toBeVisible();
}

/** Ticks the next act and waits until another is shown. */
async function tickOne(page: Page): Promise<void> {
  const before = await act(page).textContent();
  await tick(page).click();
  await expect(act(page)).not.toHaveText(before ?? '');
  // The button rests a moment: one press, one tick.
  await page.waitForTimeout(550);
}

/** Ticks until the next act is a cut. */
async function toFirstCut(page: Page): Promise<void> {
  for (let turn = 0; turn < 4; turn++) {
    if ((await tick(page).textContent())?.includes('Cut made')) return;
    await tickOne(page);
  }
  await expect(tick(page)).toHaveText('Cut made');
}

test('a version is begun, ticked off, and struck out again', async ({ page }) => {
  await page.goto(BENCH);
  await expect(page.getByText('v1 is frozen then:')).toBeVisible();
  await expect(page.getByRole('group', { name: /^Take care: blades/ })).toBeVisible();
  await page.getByRole('button', { name: 'Begin v1' }).click();
  await expect(title(page)).toContainText('R1');
  await toFirstCut(page);
  await expect(page.getByRole('region', { name: /^Frame card/ })).toBeVisible();
  await expect(act(page)).toContainText('For good:');
  await tickOne(page);
  await expect(page.getByRole('group', { name: 'Done so far' })).toContainText(/cuts\s*1/);

  await page.getByRole('button', { name: 'One back' }).click();
  const sheet = page.getByRole('dialog', { name: 'Was this ticked by mistake?' });
  await expect(sheet).toContainText('No film is joined again by that');
  await sheet.getByRole('button', { name: 'Strike it out' }).click();
  await expect(page.getByRole('group', { name: 'Done so far' })).toContainText(/cuts\s*0/);
  await page.getByRole('button', { name: 'Log' }).click();
  await expect(page.getByRole('dialog', { name: /^What was done/ })).toContainText('struck out');
});

test('by keys: ahead and back without doing, then one tick for a key held down', async ({
  page,
}) => {
  await begin(page);
  const first = await title(page).textContent();
  await page.keyboard.press('ArrowDown');
  await expect(act(page)).toContainText('looked at ahead');
  await page.keyboard.press('Enter');
  await expect(title(page)).toHaveText(first ?? '');
  await page.keyboard.press('ArrowUp');
  await expect(act(page)).toContainText('looked back');
  await page.keyboard.press('Escape');

  const lines = async () => {
    const answer = await page.request.get('/api/films/boat/bench');
    return ((await answer.json()) as { lines: number }).lines;
  };
  const before = await lines();
  await page.keyboard.down('Enter');
  for (let repeat = 0; repeat < 5; repeat++) await page.keyboard.down('Enter');
  await page.keyboard.up('Enter');
  await expect.poll(lines).toBe(before + 1);
  await tick(page).focus();
  await page.waitForTimeout(600);
  await page.keyboard.down('Enter');
  for (let repeat = 0; repeat < 5; repeat++) await page.keyboard.down('Enter');
  await page.keyboard.up('Enter');
  await expect.poll(lines).toBe(before + 2);
  await page.waitForTimeout(600);
  expect(await lines()).toBe(before + 2);

  await page.keyboard.press('Backspace');
  await expect(page.getByRole('dialog', { name: 'Was this ticked by mistake?' })).toBeVisible();
});

test('a cut one frame late: its meaning comes first, and the rest is planned anew', async ({
  page,
}) => {
  await begin(page);
  await toFirstCut(page);
  await page.getByRole('button', { name: 'Something else happened' }).click();
  await page.getByRole('button', { name: 'The blade went elsewhere' }).click();
  const sheet = page.getByRole('dialog', { name: 'The blade went elsewhere' });
  const write = sheet.getByRole('button', { name: 'Write it down' });
  await expect(write).toBeDisabled();
  await sheet.getByRole('button', { name: /one later$/ }).click();
  await expect(slip(sheet, /This is what it means|Nothing is seen/)).toBeVisible();
  await write.click();
  await expect(sheet).toBeHidden();
  await page.getByRole('button', { name: 'Log' }).click();
  await expect(page.getByRole('dialog', { name: /^What was done/ })).toContainText(/cut before/i);
});

test('what cannot have happened is refused with its reason', async ({ page }) => {
  await begin(page);
  await toFirstCut(page);
  await page.getByRole('button', { name: 'Something else happened' }).click();
  await page.getByRole('button', { name: 'Frames are torn' }).click();
  const sheet = page.getByRole('dialog', { name: 'Frames are torn' });
  await expect(slip(sheet, /means|otherwise|cannot/)).toBeVisible();
  await sheet.getByRole('button', { name: 'Something other' }).click();
  await page.getByRole('button', { name: 'Wound on a reel of outs' }).click();
  await page.getByRole('textbox', { name: 'a frame of what was wound on it' }).fill('R9·4');
  await expect(slip(page, 'This cannot have happened.')).toBeVisible();
  await expect(page.getByRole('button', { name: 'Write it down' })).toBeDisabled();
});

test('the program is killed: ticking goes on, nothing is lost and nothing done twice', async ({
  page,
  program,
}) => {
  await begin(page);
  const first = await title(page).textContent();
  await program.kill();
  await tick(page).click();
  await expect(page.getByText(/Not connected since/)).toBeVisible();
  await expect(page.getByRole('button', { name: 'One back' })).toBeDisabled();
  // The page may be closed meanwhile: what was ticked is kept in the browser.
  await program.again();
  await expect(page.getByText(/Not connected since/)).toBeHidden({ timeout: 20_000 });
  await expect
    .poll(async () => {
      const answer = await page.request.get('/api/films/boat/bench');
      const found = (await answer.json()) as {
        on_the_bench: { acts: { title: string }[]; done_lines: { kind: string }[] };
      };
      return found.on_the_bench.done_lines.filter((line) => line.kind === 'deed').length;
    })
    .toBe(1);
  await expect(page.getByRole('button', { name: 'One back' })).toBeEnabled();
  expect(first).not.toBeNull();
});

test('two windows: the one that is behind is shown the bench as it is', async ({
  page,
  context,
}) => {
  await begin(page);
  const other = await context.newPage();
  await other.goto(BENCH);
  await expect(title(other)).toBeVisible();
  // The other window does not hear of what this one does.
  await other.route('**/api/films/boat/bench', (route) => route.abort());
  await other.route('**/api/films/boat', (route) => route.abort());
  await tickOne(page);
  await other.unroute('**/api/films/boat/bench');
  await tick(other).click();
  await expect(slip(other, 'This was not written down.')).toBeVisible();
  await expect(title(other)).toHaveText((await title(page).textContent()) ?? '');
});

test('the life of a strip is told by its frame', async ({ page }) => {
  await begin(page);
  await page.getByRole('button', { name: /^The whole work/ }).click();
  await page.getByRole('textbox', { name: 'a frame of it' }).fill('R1·20');
  await page.getByRole('button', { name: 'Tell its life' }).click();
  await expect(page.getByRole('dialog', { name: 'The life of R1·20' })).toBeVisible();
});

test('a bench that cannot be fetched says why, and comes when it is asked for again', async ({
  page,
}) => {
  const document = { code: 'test.broken', message: 'the disk does not answer', hint: 'look at it' };
  await page.route('**/api/films/boat/bench', (route) =>
    route.fulfill({ status: 500, json: { ...document, details: null } }),
  );
  await page.goto(BENCH);
  const failed = slip(page, 'The bench cannot be shown.');
  await expect(failed).toContainText('The disk does not answer.');
  await page.unroute('**/api/films/boat/bench');
  await failed.getByRole('button', { name: 'Try once more' }).click();
  await expect(page.getByRole('button', { name: 'Begin v1' })).toBeEnabled();
});

test('what was ticked while the program was gone outlives the page', async ({ page, program }) => {
  await begin(page);
  await program.kill();
  await tick(page).click();
  await expect(page.getByText(/Not connected since/)).toBeVisible();
  const kept = await page.evaluate(() => localStorage.getItem('onestrand.bench.boat'));
  expect(kept).toContain('"tick"');
  await page.close({ runBeforeUnload: false });
  await program.again();
  const next = await page.context().newPage();
  await next.goto(BENCH);
  await expect(title(next)).toBeVisible();
  await expect
    .poll(() => next.evaluate(() => localStorage.getItem('onestrand.bench.boat')))
    .toBeNull();
  await next.getByRole('button', { name: 'Log' }).click();
  const lines = next.getByRole('dialog', { name: /^What was done/ }).getByRole('listitem');
  await expect(lines.filter({ hasText: /put on the rewinds/i })).toHaveCount(1);
});

/** Writes into the film as the page does. */
async function change(page: Page, asked: Record<string, unknown>): Promise<void> {
  const film = await page.request.get('/api/films/boat');
  const { revision } = (await film.json()) as { revision: number };
  const key = crypto.randomUUID();
  const headers = { origin: new URL(page.url()).origin };
  const data = { key, revision, change: asked };
  const kept = await page.request.post('/api/films/boat/changes', { headers, data });
  expect(kept.ok(), await kept.text()).toBe(true);
}

/** Ticks the acts as they come until one is shown that has these words on its button. */
async function tickUntil(page: Page, words: string): Promise<void> {
  for (let turn = 0; turn < 40; turn++) {
    if ((await tick(page).textContent())?.includes(words)) return;
    await tickOne(page);
  }
  await expect(tick(page)).toHaveText(words);
}

test('another version is made of the film on the reel, its price told first', async ({ page }) => {
  test.slow();
  await begin(page);
  await tickUntil(page, 'All is done');
  await change(page, { film_change: 'new_cut', cut: 'v2', from: 'v1', usual_join: null });
  const lift = { change: 'remove', at: 1 };
  await change(page, { film_change: 'change_cut', cut: 'v2', cut_change: lift });

  await page.getByRole('button', { name: 'Make another version of it' }).click();
  await expect(page.getByRole('heading', { name: 'What is v1 made into?' })).toBeVisible();
  const price = page.getByRole('listitem').filter({ hasText: 'v2' });
  await expect(price).toContainText(/joins opened\s*2/);
  await expect(price).toContainText(/made\s*1/);
  await page.getByRole('button', { name: 'Begin v2' }).click();
  await expect(title(page)).toHaveText('Turn v1 back');
  await tickUntil(page, 'Join open');
  await expect(title(page)).toHaveText('Open 1 | 2 of v1');
  await expect(page.getByRole('region', { name: 'The join 1 | 2 on the film' })).toBeVisible();
  await tickOne(page);
  await expect(title(page)).toHaveText('Lead the head of v1 on');
  await tickUntil(page, 'Join made');
  await expect(title(page)).toHaveText('Join 1 | 2');
  await tickUntil(page, 'All is done');
  await expect(act(page).getByRole('heading', { name: 'v2 is done' })).toBeVisible();
  await page.getByRole('button', { name: 'Log' }).click();
  const log = page.getByRole('dialog', { name: /^What was done/ });
  await expect(log).toContainText('The made film turned back, head out');
});
