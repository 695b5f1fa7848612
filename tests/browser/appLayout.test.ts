import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { WITH_GOOD_PRACTICE, axeFaults } from './support/axe';
import { type Visit, openPage } from './support/chromium';

/** All that can be opened is looked at too. */
const openAll = (page: Page): Promise<void> => page.evaluate(() => document.querySelectorAll('details').forEach((one) => (one.open = true)));

async function openReady(webgl: boolean): Promise<Visit> {
  const visit = await openPage({ reducedMotion: 'reduce', webgl });
  await visit.page.locator(webgl ? '.stage canvas' : '.stage-flat').first().waitFor();
  await visit.page.locator('.staff-music svg').waitFor();
  return visit;
}

describe('with the picture', () => {
  let visit: Visit;
  beforeAll(async () => {
    visit = await openReady(true);
  });
  afterAll(() => visit.close());

  test('when nothing moves, nothing is drawn and nothing runs', async () => {
    const { page } = visit;
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
  });

  test.each(['Paper', 'Projector'].flatMap((theme) => [{ theme, width: 1440, height: 900 }, { theme, width: 390, height: 844 }]))(
    'in the $theme theme at $width × $height axe finds nothing (WCAG 2.2 A and AA)',
    async ({ theme, width, height }) => {
      const { page } = visit;
      await page.setViewportSize({ width, height });
      await page.getByRole('radio', { name: theme }).check({ force: true });
      await openAll(page);
      expect(await axeFaults(page, WITH_GOOD_PRACTICE)).toEqual([]);
    },
  );
});

/** With the flat drawing where the picture is not what the test is about: graphics computed by the processor are slow. */
describe('the page', () => {
  let visit: Visit;
  beforeAll(async () => {
    visit = await openReady(false);
    await openAll(visit.page);
  });
  afterAll(() => visit.close());

  test.each([
    [360, 740],
    [390, 844],
    // 1440 × 900 at 200 %.
    [720, 450],
    [1024, 768],
    [1440, 900],
    [2560, 1300],
  ])('at %d × %d nothing stands out to the side', async (width, height) => {
    const { page } = visit;
    await page.setViewportSize({ width, height });
    // The charts are laid out anew once the observers have told them.
    await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
    const beyond = await page.evaluate(() => ({
      page: document.documentElement.scrollWidth - innerWidth,
      notebook: (() => {
        const notebook = document.querySelector('.notebook')!;
        return notebook.scrollWidth - notebook.clientWidth;
      })(),
    }));
    expect(beyond.page).toBeLessThanOrEqual(0);
    expect(beyond.notebook).toBeLessThanOrEqual(0);
  });

  test('at 1440 × 900 the picture keeps at least 430 px', async () => {
    const { page } = visit;
    await page.setViewportSize({ width: 1440, height: 900 });
    expect((await page.locator('.stage-frame').boundingBox())!.height).toBeGreaterThanOrEqual(430);
  });

  test('what can be pressed is at least 24 px each way', async () => {
    const { page } = visit;
    await page.setViewportSize({ width: 390, height: 844 });
    const small = await page.evaluate(() =>
      [...document.querySelectorAll('button, select, input[type="text"], summary, .choice__option, .tick, .contents a')].flatMap((one) => {
        const { width, height } = one.getBoundingClientRect();
        return width > 0 && (width < 24 || height < 24) ? [`${one.className || one.tagName} ${width} × ${height}`] : [];
      }));
    expect(small).toEqual([]);
  });
});
