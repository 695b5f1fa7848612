/** What axe-core finds on a page (WCAG 2.2 A and AA, and good practice), one line each; an empty list is what is wanted. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { AxeResults } from 'axe-core';
import type { Page } from 'playwright-core';

const axeSource = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

export async function axeFindings(page: Page): Promise<string[]> {
  // Not by a script element: the page's own policy would refuse it, and rightly.
  await page.evaluate(axeSource);
  return page.evaluate(async () => {
    const { axe } = window as unknown as { axe: { run(options: object): Promise<AxeResults> } };
    const { violations } = await axe.run({
      runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'],
    });
    // Points of one path lie as close as they were measured; WCAG 2.5.8 allows it where the same can be done by another
    // control on the page, and each of them can be typed in the table of readings.
    const typedElsewhere = (target: string): boolean => document.querySelector(target)?.closest('.travel-charts') !== null;
    return violations.flatMap(({ id, nodes }) => {
      const targets = nodes.map((node) => node.target.join(' ')).filter((target) => id !== 'target-size' || !typedElsewhere(target));
      return targets.length === 0 ? [] : [`${id}: ${targets.join(' | ')}`];
    });
  });
}
