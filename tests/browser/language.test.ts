import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { type OpenOptions, type Visit, openPage } from './support/chromium';

/** The published page at rest, with the flat drawing. */
async function openStill(options: OpenOptions = {}): Promise<Visit> {
  const visit = await openPage({ reducedMotion: 'reduce', webgl: false, ...options });
  await visit.page.locator('.sentence').waitFor();
  return visit;
}

const language = (page: Page): Promise<string> => page.evaluate(() => document.documentElement.lang);
const shownNotes = async (page: Page): Promise<string[]> => {
  await page.locator('.staff-name').first().waitFor();
  return page.locator('.staff-name').allInnerTexts();
};
const wasAskedFor = ({ requests }: Visit, part: RegExp): boolean => requests.some((url) => part.test(url));

describe('the language', () => {
  test('is English whatever the browser speaks; no other is offered or fetched', async () => {
    const visit = await openStill({ locale: 'de-AT' });
    expect(await language(visit.page)).toBe('en');
    await visit.page.getByRole('img', { name: /^Section from the side/ }).waitFor();
    expect(await visit.page.getByRole('option', { name: 'Deutsch' }).count()).toBe(0);
    expect(wasAskedFor(visit, /german/)).toBe(false);
    await visit.close();
  });

  test('is German where the address asks for it, with H and B and decimal commas, and no longer than that', async () => {
    const visit = await openStill({ path: '?language=de' });
    const { page } = visit;
    expect(await language(page)).toBe('de');
    await page.getByRole('img', { name: /^Schnitt von der Seite/ }).waitFor();
    expect(wasAskedFor(visit, /german/)).toBe(true);
    // The invented player begins on B flat.
    expect(await shownNotes(page)).toContain('B3');
    expect((await page.locator('.staff-swing').allInnerTexts()).join(' ')).toMatch(/^([+−]?\d+,\d ?)+$/);
    const travel = page.locator('.this-note input').first();
    expect(await travel.inputValue()).toMatch(/^\d,\d$/);
    await travel.fill('2.5');
    await travel.press('Enter');
    expect(await travel.inputValue()).toBe('2,5');

    await page.goto(new URL('./', page.url()).href);
    await page.locator('.sentence').waitFor();
    expect(await language(page)).toBe('en');
    expect(await shownNotes(page)).toContain('B♭3');
    expect(visit.consoleErrors).toEqual([]);
    expect(visit.foreignRequests).toEqual([]);
    await visit.close();
  });
});
