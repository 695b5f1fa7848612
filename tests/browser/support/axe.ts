/** What axe finds wrong with a page as it stands: one line a rule, with the places. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { AxeResults } from 'axe-core';
import type { Page } from 'playwright-core';

/** WCAG 2.2, A and AA. */
export const WCAG_22_AA = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'] as const;
export const WITH_GOOD_PRACTICE = [...WCAG_22_AA, 'best-practice'] as const;

/** `rules`: tags of rules; absent, all that axe has, its good practice among them. `within`: a selector of the part that is looked at; absent, the page. */
export async function axeFaults(page: Page, rules?: readonly string[], within?: string): Promise<string[]> {
  // Not by a script element: the page's own policy would refuse it, and rightly.
  if (!(await page.evaluate(`'axe' in window`))) await page.evaluate(axeSource);
  const options = { resultTypes: ['violations'], ...(rules !== undefined && { runOnly: [...rules] }) };
  return page.evaluate(
    async ([part, asked]) => {
      const { axe } = globalThis as unknown as { axe: { run(part: string, options: object): Promise<AxeResults> } };
      const { violations } = await axe.run(part, asked);
      return violations.flatMap(({ id, nodes }) => {
        // Points of one path lie as close as they were measured; WCAG 2.5.8 allows it where the same can be done by another
        // control on the page, and each of them can be typed in the table of readings.
        const typedElsewhere = (place: string): boolean => id === 'target-size' && (document.querySelector(place)?.closest('.travel-charts') ?? null) !== null;
        const places = nodes.filter(({ target }) => !typedElsewhere(target.join(' '))).map(({ target, html }) => `${target.join(' ')} ${html}`);
        return places.length === 0 ? [] : [`${id}: ${places.join(' | ')}`];
      });
    },
    [within ?? 'html', options] as const,
  );
}

const axeSource = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
