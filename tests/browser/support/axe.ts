/** What axe finds wrong with a page as it stands: one line a rule, with the places. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { AxeResults } from 'axe-core';
import type { Page } from 'playwright-core';

/** WCAG 2.2, A and AA. */
export const WCAG_22_AA = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'] as const;

/** `rules`: tags of rules; absent, all that axe has, its good practice among them. `within`: a selector of the part that is looked at; absent, the page. */
export async function axeFaults(page: Page, rules?: readonly string[], within?: string): Promise<string[]> {
  await page.evaluate(axeSource);
  const options = { resultTypes: ['violations'], ...(rules !== undefined && { runOnly: [...rules] }) };
  const { violations } = await page.evaluate(
    ([part, asked]) => (globalThis as unknown as { axe: { run(part: string, options: object): Promise<AxeResults> } }).axe.run(part, asked),
    [within ?? 'html', options] as const,
  );
  return violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' | ')}`);
}

const axeSource = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
