// What the program hears in sounds, in the Dubbing room with the real program: a beat kept and
// drawn, music fitted to the picture and taken back, strokes laid to marked frames, the speed of
// a tape, hands at the faders, spacing, and the table of a tape's counter.

import AxeBuilder from '@axe-core/playwright';
import type { Page } from '@playwright/test';
import { expect, FILM, slip, test } from './film_test';

test.use({ onShelf: 'cut' });

const RATE = 48_000;
const chart = (page: Page) => page.getByRole('group', { name: /^The chart of v1/ });
const card = (page: Page, name: string) =>
  page.getByRole('radio', { name, exact: true }).check({ force: true });

/** A plain sound file, one channel of 16 bits, of knocks: when, and how loud. */
function knocks(seconds: number, at: readonly (readonly [number, number])[]): Buffer {
  const samples = new Float64Array(seconds * RATE);
  let state = 7;
  const noise = () => {
    // The same every time (a linear congruence, Numerical Recipes).
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 31 - 1;
  };
  for (let nth = 0; nth < samples.length; nth += 1) samples[nth] = 0.002 * noise();
  for (const [start, loud] of at) {
    const first = Math.round(start * RATE);
    for (let nth = 0; nth < 6000 && first + nth < samples.length; nth += 1) {
      samples[first + nth] = (samples[first + nth] ?? 0) + loud * noise() * Math.exp(-nth / 900);
    }
  }
  return wave(samples);
}
function tone(seconds: number, hertz: number): Buffer {
  const turn = (2 * Math.PI * hertz) / RATE;
  return wave(
    Float64Array.from({ length: seconds * RATE }, (_, nth) => 0.3 * Math.sin(turn * nth)),
  );
}
function wave(samples: Float64Array): Buffer {
  const head = Buffer.alloc(44);
  head.write('RIFF', 0);
  head.writeUInt32LE(36 + 2 * samples.length, 4);
  head.write('WAVEfmt ', 8);
  head.writeUInt32LE(16, 16);
  head.writeUInt16LE(1, 20);
  head.writeUInt16LE(1, 22);
  head.writeUInt32LE(RATE, 24);
  head.writeUInt32LE(2 * RATE, 28);
  head.writeUInt16LE(2, 32);
  head.writeUInt16LE(16, 34);
  head.write('data', 36);
  head.writeUInt32LE(2 * samples.length, 40);
  const data = Buffer.alloc(2 * samples.length);
  samples.forEach((value, nth) =>
    data.writeInt16LE(Math.round(32_767 * Math.max(-1, Math.min(1, value))), 2 * nth),
  );
  return Buffer.concat([head, data]);
}

/** The chart with its columns and a sound in the library, its form open. */
async function withSound(page: Page, name: string, buffer: Buffer): Promise<void> {
  await page.goto(`${FILM}/dubbing`);
  await page.getByRole('button', { name: 'Rule the columns' }).click();
  await expect(page.getByRole('button', { name: 'Column music' })).toBeVisible();
  await card(page, 'Sounds');
  await page
    .getByLabel('Sounds to bring in')
    .setInputFiles({ name: `${name}.wav`, mimeType: 'audio/wav', buffer });
  await page.getByRole('button', { name: new RegExp(`^${name}`) }).click();
}

/** A march: 40 beats at 100 a minute, each fourth much louder. */
const march = () =>
  knocks(
    24,
    Array.from({ length: 40 }, (_, nth) => [0.6 * nth, nth % 4 === 0 ? 0.9 : 0.35] as const),
  );

test('a beat is kept, drawn on the chart, and the picture ends with a bar until that is undone', async ({
  page,
}) => {
  await withSound(page, 'march', march());
  await page.getByRole('button', { name: 'Lay it under the rule' }).click();
  await expect(chart(page).getByRole('button', { name: /^march, / })).toBeVisible();
  await card(page, 'Sounds');
  await page.getByRole('button', { name: /^march/, expanded: true }).waitFor();
  await page.getByRole('radio', { name: 'Beat', exact: true }).check({ force: true });
  await page.getByRole('button', { name: 'Find the beat' }).click();
  await expect(page.getByText(/^100\.\d\d beats a minute|^99\.9\d beats a minute/)).toBeVisible();
  await page.getByRole('button', { name: 'Keep the beat' }).click();
  await expect(page.getByText(/in bars of 4\./)).toBeVisible();
  // Bars begin at the head and 43.2 frames later: both are on the chart, with their numbers.
  await expect(chart(page).locator('svg line.bar').nth(1)).toBeAttached();
  await expect(chart(page).locator('svg text', { hasText: /^2$/ })).toBeAttached();

  await page.getByRole('button', { name: 'Fit it to the picture at 0' }).click();
  await page.getByRole('button', { name: 'Lay it beside the picture' }).click();
  await expect(
    page.getByText(/^105 frames are 9\.7\d beats: 10\.8\d\d frames a beat/),
  ).toBeVisible();
  await expect(page.getByRole('img', { name: /^Beats against joins\. 105 frames/ })).toBeVisible();
  // Two bars are 86.4 frames.
  await page.getByRole('button', { name: 'Take 19 frames off piece 3' }).click();
  await expect(page.getByText(/^86 frames are 7\.9\d beats/)).toBeVisible();
  await expect(page.getByText('It ends with a bar.')).toBeVisible();
  await expect(page.getByRole('img', { name: /^Beats against joins\. 86 frames/ })).toBeVisible();

  // The joins go only when that is pressed, and it is one step.
  await expect(page.getByText('Join after 1: 3 frames later')).toBeVisible();
  await expect(page.getByText('Join after 2: 5 frames earlier')).toBeVisible();
  await page.getByRole('button', { name: 'Lay the joins on beats' }).click();
  await expect(page.getByText('The joins inside could lie on beats')).toHaveCount(0);
  await chart(page).focus();
  await page.keyboard.press('Control+z');
  await expect(page.getByText('Join after 1: 3 frames later')).toBeVisible();
  await page.keyboard.press('Control+z');
  await expect(page.getByText(/^105 frames are/)).toBeVisible();
  await expect(page.getByRole('img', { name: /^Beats against joins\. 105 frames/ })).toBeVisible();
});

test('strokes of a sound are found and laid on the frames that were marked', async ({ page }) => {
  await withSound(
    page,
    'knocks',
    knocks(6, [
      [1, 0.8],
      [2, 0.8],
      [2.7, 0.8],
      [4.1, 0.8],
    ]),
  );
  await page.getByRole('button', { name: 'Lay it under the rule' }).click();
  await expect(page.getByRole('textbox', { name: 'Cue', exact: true })).toHaveValue('knocks');
  await chart(page).focus();
  for (let tens = 0; tens < 2; tens += 1) await page.keyboard.press('Shift+ArrowDown');
  await page.getByRole('button', { name: 'Mark frame 20' }).click();
  await chart(page).focus();
  await page.keyboard.press('Shift+ArrowDown');
  for (let ones = 0; ones < 8; ones += 1) await page.keyboard.press('ArrowDown');
  await page.getByRole('button', { name: 'Mark frame 38' }).click();
  await page.getByRole('button', { name: 'Find the strokes' }).click();
  await expect(page.getByText('4 strokes are heard in it.')).toBeVisible();
  await expect(page.getByText(/^Strokes 1, 2: at worst \d\.\d ms off/)).toBeVisible();
  await page.getByRole('button', { name: 'Lay it so' }).first().click();
  // Half a second before the first, which is nine frames at 18.
  await expect(
    chart(page).getByRole('button', { name: /^knocks, .*in 11, \d+ frames, 0 dB/ }),
  ).toBeVisible();
  await expect(page.getByText('Where it was.')).toBeVisible();
});

test('a tuning fork tells how fast its tape ran, and what is asked in vain says so', async ({
  page,
}) => {
  await withSound(page, 'fork', tone(4, 433.4));
  await page.getByRole('radio', { name: 'Speed', exact: true }).check({ force: true });
  await page.getByRole('button', { name: 'Find the tone' }).click();
  // Story 11 of the job.
  await expect(
    page.getByText(
      '433.40 Hz is heard where 440 Hz is true: it runs 1.52 % slow. Play it × 1.0152.',
    ),
  ).toBeVisible();
  await page.getByRole('button', { name: 'Play it so' }).click();
  await expect(page.getByRole('textbox', { name: /^Played at/ })).toHaveValue(/^1\.0152/);
  await page.getByRole('button', { name: 'Hum, 50 Hz' }).click();
  await expect(slip(page, 'Nothing was found.')).toBeVisible();
  // The caution for the ears stands below the buttons and leaves them where they are.
  const take = page.getByRole('button', { name: 'Take out' });
  const before = await take.boundingBox();
  await page.getByRole('button', { name: 'Hear it' }).click();
  await expect(page.getByRole('heading', { name: /ears|hearing/i }).first()).toBeVisible();
  expect(await take.boundingBox()).toEqual(before);
});

test('hands at the faders, spacing leader with its sum, and the table of a tape counter', async ({
  page,
}) => {
  await withSound(page, 'knocks', knocks(2, [[0.5, 0.8]]));
  for (const column of ['effects', 'music']) {
    await page.getByRole('button', { name: `Column ${column}` }).click();
    await card(page, 'Sounds');
    await page.getByRole('button', { name: 'Lay it under the rule' }).click();
    const fade = page.getByRole('textbox', { name: 'Fade in' });
    await fade.fill('12');
    await fade.press('Enter');
    await expect(page.getByText('down', { exact: false }).first()).toBeAttached();
    await chart(page).focus();
  }
  await card(page, 'Mix');
  const hands = page.getByRole('textbox', { name: 'Hands' });
  await hands.fill('1');
  await hands.press('Enter');
  await expect(page.getByRole('heading', { name: /2 moves at once at/ })).toBeVisible();
  const score = page.getByRole('region', { name: 'Hand score' });
  await expect(score.getByText('too few hands').first()).toBeVisible();
  await score.getByRole('button', { name: /^Lay effects and music on one tape/ }).click();
  await expect(page.getByText(/At most 1 move at once/)).toBeVisible();

  const speed = page.getByRole('textbox', { name: /^Projector, f\/s/ });
  await speed.fill('18.36');
  await speed.press('Enter');
  const spacing = page.getByRole('region', { name: 'Spacing leader' });
  await expect(spacing.getByText('18.36 f/s', { exact: false })).toBeVisible();
  const plate = spacing.getByRole('button', { name: /opens its sum/ }).first();
  await plate.click();
  await expect(
    page.getByRole('dialog', { name: /^The sum of/ }).getByText('× 19.05 cm/s'),
  ).toBeVisible();
  await page.keyboard.press('Escape');

  const tape = page.getByRole('region', { name: 'Tape counter' });
  for (const [nth, [count, seconds]] of [
    ['100', '7:25.59'],
    ['200', '17:08.4'],
    ['300', '29:08.41'],
  ].entries()) {
    await tape.getByRole('textbox', { name: `Counter ${nth + 1}` }).fill(count ?? '');
    await tape
      .getByRole('textbox', { name: 'At, min:s or s' })
      .nth(nth)
      .fill(seconds ?? '');
    await tape.getByRole('textbox', { name: 'At, min:s or s' }).nth(nth).press('Enter');
  }
  const page1 = tape.getByRole('img', { name: 'The first page of the tape table' });
  await expect(page1).toBeVisible();
  await expect
    .poll(() => page1.evaluate((img: HTMLImageElement) => img.naturalWidth))
    .toBeGreaterThan(0);
  const found = await new AxeBuilder({ page }).analyze();
  expect(found.violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html ?? ''}`)).toEqual([]);
});
