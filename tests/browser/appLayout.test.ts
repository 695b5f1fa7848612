import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { AxeResults } from 'axe-core';
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { openPage } from './support/chromium';

const axeSource = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** With the flat drawing where the picture is not what the test is about: graphics computed by the processor are slow. */
async function openReady(width: number, height: number, theme: string, webgl = false): Promise<Page> {
  const { page } = await openPage({
    width,
    height,
    reducedMotion: 'reduce',
    webgl,
    before: async (fresh) => {
      await fresh.addInitScript((chosen) => localStorage.setItem('rimpath.page.1', JSON.stringify({ settings: { theme: chosen } })), theme);
    },
  });
  await page.locator('.stage-handle, .stage-flat').first().waitFor();
  await page.locator('.staff-music svg').waitFor();
  return page;
}

const sizes = [
  [1440, 900],
  [390, 844],
] as const;

describe.each(['paper', 'projector'])('in the %s theme', (theme) => {
  test.each(sizes)('at %d × %d axe finds nothing (WCAG 2.2 A and AA)', async (width, height) => {
    const page = await openReady(width, height, theme, true);
    // All that can be opened is looked at too.
    await page.evaluate(() => document.querySelectorAll('details').forEach((one) => (one.open = true)));
    // Not by a script element: the page's own policy would refuse it, and rightly.
    await page.evaluate(axeSource);
    const found = await page.evaluate(async () => {
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
    expect(found).toEqual([]);
    await page.context().close();
  });
});

test.each([
  [360, 740],
  [390, 844],
  // 1440 × 900 at 200 %.
  [720, 450],
  [1024, 768],
  [1440, 900],
  [2560, 1300],
])('at %d × %d nothing stands out to the side', async (width, height) => {
  const page = await openReady(width, height, 'paper');
  await page.evaluate(() => document.querySelectorAll('details').forEach((one) => (one.open = true)));
  const beyond = await page.evaluate(() => ({
    page: document.documentElement.scrollWidth - innerWidth,
    notebook: (() => {
      const notebook = document.querySelector('.notebook')!;
      return notebook.scrollWidth - notebook.clientWidth;
    })(),
  }));
  expect(beyond.page).toBeLessThanOrEqual(0);
  expect(beyond.notebook).toBeLessThanOrEqual(0);
  await page.context().close();
});

test('what can be pressed is at least 24 px each way', async () => {
  const page = await openReady(390, 844, 'paper');
  const small = await page.evaluate(() =>
    [...document.querySelectorAll('button, select, input[type="text"], summary, .choice__option, .tick, .contents a')].flatMap((one) => {
      const { width, height } = one.getBoundingClientRect();
      return width > 0 && (width < 24 || height < 24) ? [`${one.className || one.tagName} ${width} × ${height}`] : [];
    }));
  expect(small).toEqual([]);
  await page.context().close();
});

test('when nothing moves, nothing is drawn and nothing runs', async () => {
  const page = await openReady(1200, 800, 'paper', true);
  // The last that is computed after a page is opened.
  await page.waitForFunction(() => document.querySelector('.sentence')?.textContent?.includes('±') ?? false);
  await page.waitForTimeout(1000);
  const asked = await page.evaluate(
    () =>
      new Promise<number>((done) => {
        let count = 0;
        const real = window.requestAnimationFrame.bind(window);
        window.requestAnimationFrame = (callback) => {
          count += 1;
          return real(callback);
        };
        setTimeout(() => done(count), 1000);
      }),
  );
  expect(asked).toBe(0);
  await page.context().close();
});
