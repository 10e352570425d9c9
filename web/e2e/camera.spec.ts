// The card of the camera in the Script room, with the real program, by keys.

import { expect, FILM, test } from './film_test';

test.use({ onShelf: 'cut' });

test('the camera is reckoned with by keys, and each answer opens its sum', async ({ page }) => {
  await page.goto(`${FILM}/script`);
  await page.getByRole('radio', { name: 'Camera', exact: true }).check({ force: true });
  const list = page.getByRole('group', { name: 'What is to be reckoned' });
  const answer = page.getByRole('status', { name: 'Answer' });
  await expect(answer).toContainText('m from the lens');

  await test.step('the arrows choose a calculator, Tab leads into its form', async () => {
    await list.getByRole('radio', { name: 'Framing' }).focus();
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('ArrowRight');
    await expect(list.getByRole('radio', { name: 'Depth' })).toBeChecked();
    await page.keyboard.press('Tab');
    await expect(page.getByRole('textbox', { name: 'Lens, mm' })).toBeFocused();
  });

  // Row O013 of the table of crates/plan: 1377.1 to 3651.8 mm, hyperfocal 4406.5.
  await test.step('a focus is typed, and Enter asks', async () => {
    await page.getByRole('textbox', { name: 'Focus' }).fill('2m');
    await page.keyboard.press('Enter');
    for (const count of ['1.38', '3.65', '4.41']) await expect(answer).toContainText(count);
    const sums = page.getByRole('listitem').filter({ hasText: 'focus × (H − lens)' });
    await expect(sums.first()).toContainText('1377.1 mm');
    await expect(page.getByRole('img', { name: /sharp from 1.38 m to 3.65 m/ })).toBeVisible();
  });

  await test.step('what no lens can do is refused with the way out', async () => {
    await page.getByRole('textbox', { name: 'Nearest mark on the lens' }).fill('2.5m');
    await page.keyboard.press('Enter');
    await expect(page.getByText('This cannot be worked out.')).toBeVisible();
    await expect(page.getByText(/put a close-up lens of \+0.1/)).toBeVisible();
    await page.getByRole('textbox', { name: 'Nearest mark on the lens' }).fill('');
    await page.keyboard.press('Enter');
    await expect(answer).toContainText('1.38');
  });

  // Rostock, 2026-06-21: rises before five and sets before ten by summer time.
  await test.step('the sun of a day waits for its place', async () => {
    await list.getByRole('radio', { name: 'Sun' }).check({ force: true });
    await expect(page.getByText(/^Write where it is/)).toBeVisible();
    for (const [name, value] of [
      ['North', '54.1'],
      ['East', '12.1'],
      ['Day', '2026-06-21'],
      ['Clock before Greenwich', '+2'],
    ] as const) {
      await page.getByRole('textbox', { name, exact: true }).fill(value);
    }
    await expect(answer).toContainText('4:3');
    await expect(page.getByRole('img', { name: /^2026-06-21 15:00: sun at/ })).toBeVisible();
  });
});
