// What axe finds on a page, in words that say where.

import AxeBuilder from '@axe-core/playwright';
import type { Page } from '@playwright/test';

const RULES = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'best-practice'];

export async function faults(page: Page): Promise<string[]> {
  const { violations } = await new AxeBuilder({ page }).setLegacyMode().withTags(RULES).analyze();
  return violations.map(
    (fault) =>
      `${fault.id}: ${fault.help}\n  ${fault.nodes
        .map((node) => `${node.html.slice(0, 200)} ${node.any[0]?.message ?? ''}`)
        .join('\n  ')}`,
  );
}
