// The camera report as a phone has it: a file from the program, opened from storage.

import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { type BrowserContext, expect, type Page, test as plain } from '@playwright/test';
import { faults } from './faults';
import { command } from './program';

const SETUPS = `scene,setup,actions,size,action,seconds,takes
3,3,3a,full,Bram waits,36,2
3,3A,3a,medium,"Bram, his watch </script>",13,2
4,4,4a,long,too late,32,2
`;

interface Film {
  dir: string;
  /** The address of the page as a file. */
  page: string;
}

const test = plain.extend<{ film: Film; meant: RegExp | null }>({
  meant: [null, { option: true }],
  // A phone that has no network at all.
  context: async ({ browser, meant }, use) => {
    const phone = { width: 390, height: 844 };
    const context = await browser.newContext({ viewport: phone, offline: true, hasTouch: true });
    const asked: string[] = [];
    const thrown: string[] = [];
    context.on('request', (request) => {
      if (!/^(file|blob|data):/.test(request.url())) asked.push(request.url());
    });
    context.on('weberror', (error) => thrown.push(error.error().message));
    context.on('console', (line) => {
      if (line.type() === 'error' && !meant?.test(line.text())) thrown.push(line.text());
    });
    await use(context);
    await context.close();
    expect(asked, 'asked of another machine').toEqual([]);
    expect(thrown, 'thrown in the page, or said on its console').toEqual([]);
  },
  film: async ({}, use) => {
    const at = await mkdtemp(join(tmpdir(), 'onestrand-phone-'));
    const [dir, sheet, out] = [join(at, 'boat'), join(at, 'setups.csv'), join(at, 'out')];
    await writeFile(sheet, SETUPS);
    await command('new', dir, '--title', 'The Ten-Past Boat', '--gauge', 'super8');
    for (const roll of ['R1', 'R2']) await command('roll', 'paper', dir, roll, '--frames', '3600');
    await command('script', 'import', dir, sheet);
    await command('script', 'sheets', dir, '--out', out, '--only', 'camera-page');
    await use({ dir, page: pathToFileURL(join(out, 'camera-report.html')).href });
    await rm(at, { recursive: true, force: true });
  },
  page: async ({ page, film }, use) => {
    await page.goto(film.page);
    await use(page);
  },
});

const kept = (page: Page) => page.getByRole('status');
const told = (page: Page) => page.getByRole('alert');
const report = (page: Page) => page.getByLabel('the report as text').inputValue();
const field = (page: Page, name: string) => page.getByLabel(name, { exact: true });

interface Shot {
  roll?: string;
  setup: string;
  start?: string;
  end: string;
  mark?: string;
  remark?: string;
}

async function fill(page: Page, shot: Shot): Promise<void> {
  if (shot.roll) await field(page, 'roll').fill(shot.roll);
  await page.getByRole('button', { name: new RegExp(`^${shot.setup} ?\\d of`) }).tap();
  if (shot.start) await field(page, 'counter start').fill(shot.start);
  await field(page, 'counter end').fill(shot.end);
  if (shot.mark) await page.getByRole('button', { name: shot.mark, exact: true }).tap();
  if (shot.remark) await field(page, 'remark').fill(shot.remark);
}

async function write(page: Page, shot: Shot): Promise<void> {
  await fill(page, shot);
  await page.getByRole('button', { name: 'Write it down' }).tap();
  const yes = page.getByRole('button', { name: 'Yes, write it down' });
  if (await yes.isVisible()) await yes.tap();
  await expect(told(page)).toContainText('is written down');
}

const HOSTILE = '=HYPERLINK("x",1), then\n"cut", she said; 2 stops';

async function threeTakes(page: Page): Promise<void> {
  await write(page, { roll: 'R1', setup: '3A', start: '0+24', end: '5+30', mark: 'good' });
  // The next number and the counter come by themselves.
  await expect(page.locator('#slate')).toHaveText('3A-T2');
  await expect(field(page, 'counter start')).toHaveValue('5+30');
  await write(page, { setup: '3A', end: '762', mark: 'hold', remark: HOSTILE });
  await write(page, { roll: 'R2', setup: '4', start: '18', end: '290', mark: 'NG' });
}

test('what is written stays, is handed back, and joins the log whole', async ({ page, film }) => {
  await threeTakes(page);
  await page.reload();
  await expect(kept(page)).toContainText('Opened again with 3 still here');
  const saving = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save the CSV' }).tap();
  const saved = await saving;
  expect(saved.suggestedFilename()).toBe('the-ten-past-boat-camera-report.csv');
  const csv = await saved.path();
  expect(await readFile(csv, 'utf8')).toBe(
    `\ufeff${(await report(page)).replaceAll('\n', '\r\n')}`.replace('then\r\n', 'then\n'),
  );
  await command('log', 'import', film.dir, csv);
  const log = await command('log', 'export', film.dir);
  for (const words of [
    'R1,3A,1,24,390,',
    'R1,3A,2,390,762,',
    'R2,4,1,18,290,',
    // A quote is doubled in a table (RFC 4180).
    '=HYPERLINK(""x"",1), then\n""cut"", she said; 2 stops',
  ]) {
    expect(log).toContain(words);
  }
  const uses = [...log.matchAll(/^R\d,.*?,(yes|maybe|no),/gm)].map((one) => one[1]);
  expect(uses).toEqual(['yes', 'maybe', 'no']);
});

test('counters are checked before anything is written down', async ({ page }) => {
  await write(page, { roll: 'R1', setup: '3', start: '0', end: '10+42' });
  for (const [start, end, words] of [
    ['20+0', '15+0', /runs backwards, from 20\+0 to 15\+0/],
    ['20+0', '20+0', /stands still/],
    ['10+0', '12+0', /lies over 3-T1/],
    ['10+42', '50+1', /beyond the load of 50\+0/],
    ['10+42', '12+72', /is no counter/],
    ['10+42', '', /Where did the counter stand at the end/],
  ] as const) {
    await fill(page, { setup: '3', start, end });
    await page.getByRole('button', { name: 'Write it down' }).tap();
    await expect(told(page)).toContainText(words);
    await expect(kept(page)).toContainText('1 take');
  }
  // A gap is asked about, and a second press says yes.
  await fill(page, { setup: '3', start: '11+0', end: '15+0' });
  await page.getByRole('button', { name: 'Write it down' }).tap();
  await expect(told(page)).toContainText('30 frames have run since 10+42');
  await page.getByRole('button', { name: 'Yes, write it down' }).tap();
  await expect(kept(page)).toContainText('2 takes');
});

test('what is half typed stays, and a take is put right or taken out', async ({ page }) => {
  await write(page, { roll: 'R1', setup: '3', start: '0', end: '300' });
  await fill(page, { setup: '3', end: '4', remark: 'clouds' });
  await page.reload();
  await expect(field(page, 'counter end')).toHaveValue('4');
  await expect(field(page, 'remark')).toHaveValue('clouds');
  await page.getByRole('button', { name: 'Put right' }).tap();
  await field(page, 'counter end').fill('310');
  await page.getByRole('button', { name: 'Put it right' }).tap();
  expect(await report(page)).toContain('R1,3,1,0,310,');
  await page.getByRole('button', { name: 'Take out' }).tap();
  await expect(kept(page)).toContainText('0 takes');
  await page.getByRole('button', { name: 'Put 3-T1 back' }).tap();
  expect(await report(page)).toContain('R1,3,1,0,310,');
});

test('two pages of one report lose nothing of each other', async ({ page, context, film }) => {
  const other = await context.newPage();
  await other.goto(film.page);
  await write(page, { roll: 'R1', setup: '3', start: '0', end: '300' });
  await write(other, { roll: 'R2', setup: '4', start: '0', end: '200' });
  for (const one of [page, other]) {
    await expect.poll(() => report(one)).toContain('R1,3,1,0,300,');
    await expect.poll(() => report(one)).toContain('R2,4,1,0,200,');
  }
});

test('a film of the same title has its own report, and an old page is found again', async ({
  page,
  context,
  film,
}) => {
  const PLACE = 'onestrand.camera.The Ten-Past Boat';
  await write(page, { roll: 'R1', setup: '3', start: '0', end: '300' });
  const written = await report(page);
  // As a page of an older program kept it: under the title alone.
  await page.evaluate((place) => {
    const mine = Object.keys(localStorage).find((key) => key.startsWith(`${place} `)) ?? '';
    localStorage.setItem(place, localStorage.getItem(mine) ?? '');
    localStorage.removeItem(mine);
  }, PLACE);
  await page.reload();
  await expect(kept(page)).toContainText('1 take came over from an earlier page of this film');
  expect(await report(page)).toBe(written);
  await page.reload();
  await expect(kept(page)).toContainText('Opened again with 1 still here');
  await expect(kept(page)).not.toContainText('came over');
  // Another film of that title, made at another time.
  const file = fileURLToPath(film.page);
  const html = await readFile(file, 'utf8');
  const other = html.replace(/("id":"The Ten-Past Boat )[^"]+"/, '$1another time"');
  expect(other).not.toBe(html);
  await writeFile(`${file}.other.html`, other);
  const second = await context.newPage();
  await second.goto(`${film.page}.other.html`);
  await expect(kept(second)).toContainText('0 takes');
  await write(second, { roll: 'R1', setup: '4', start: '0', end: '200' });
  await page.reload();
  expect(await report(page)).toBe(written);
});

async function withoutStorage(context: BrowserContext): Promise<void> {
  await context.addInitScript(() => {
    Object.defineProperty(window, 'localStorage', {
      get: () => {
        throw new DOMException('denied', 'SecurityError');
      },
    });
  });
}

test('a browser that keeps nothing is told of in red, and the text is there', async ({
  context,
  film,
}) => {
  await withoutStorage(context);
  const page = await context.newPage();
  await page.goto(film.page);
  await expect(kept(page)).toContainText('NOT KEPT');
  await write(page, { roll: 'R1', setup: '3', start: '0', end: '300' });
  await expect(kept(page)).toContainText('NOT KEPT');
  expect(await report(page)).toContain('R1,3,1,0,300,');
});

test.describe('foreign script', () => {
  test.use({ meant: /Content Security Policy/ });
  test('the page runs its own script and no other', async ({ page }) => {
    const ran = await page.evaluate(async () => {
      const refused = new Promise<string>((done) =>
        document.addEventListener('securitypolicyviolation', (e) => done(e.effectiveDirective)),
      );
      const script = document.createElement('script');
      script.textContent = 'window.foreign = 1';
      document.body.append(script);
      return [await refused, 'foreign' in window];
    });
    expect(ran).toEqual(['script-src-elem', false]);
  });
});

for (const colorScheme of ['light', 'dark'] as const) {
  test(`it can be read and pressed in the ${colorScheme}`, async ({ page }) => {
    await page.emulateMedia({ colorScheme });
    await threeTakes(page);
    expect(await faults(page)).toEqual([]);
    // Thumbs in gloves: nothing to press is lower than 4.5 rem at 106.25 %.
    const heights = await page
      .locator('button:visible, summary:visible, input:visible')
      .evaluateAll((all) => all.map((one) => one.getBoundingClientRect().height));
    expect(Math.min(...heights)).toBeGreaterThan(70);
    const wide = await page.evaluate(() => document.documentElement.scrollWidth);
    expect(wide).toBeLessThanOrEqual(390);
  });
}
