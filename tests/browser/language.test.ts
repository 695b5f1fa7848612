import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { classInWords, classes } from '../../src/records/classes';
import { speak } from '../../src/words/language';
import { englishSeen } from '../support/englishSeen';
import { type OpenOptions, type Visit, openPage } from './support/chromium';
import { pageTexts } from './support/pageTexts';

/** The published page at rest, with the flat drawing. */
async function openStill(options: OpenOptions = {}): Promise<Visit> {
  const visit = await openPage({ reducedMotion: 'reduce', webgl: false, ...options });
  await visit.page.locator('.sentence').waitFor();
  return visit;
}

const language = (page: Page): Promise<string> => page.evaluate(() => document.documentElement.lang);
const speaks = (page: Page, wanted: string): Promise<unknown> => page.waitForFunction((one) => document.documentElement.lang === one && document.querySelector('.sentence') !== null, wanted);
const shownNotes = async (page: Page): Promise<string[]> => {
  await page.locator('.staff-name').first().waitFor();
  return page.locator('.staff-name').allInnerTexts();
};
const wasAskedFor = ({ requests }: Visit, part: RegExp): boolean => requests.some((url) => part.test(url));

function expectQuiet({ consoleErrors, foreignRequests }: Visit): void {
  expect(consoleErrors).toEqual([]);
  expect(foreignRequests).toEqual([]);
}

describe('the language', () => {
  test('is English where the browser does not speak German, and none other is fetched before it is chosen', async () => {
    const visit = await openStill({ locale: 'fr-CH' });
    const { page } = visit;
    expect(await language(page)).toBe('en');
    await page.getByRole('img', { name: /^Section from the side/ }).waitFor();
    expect(wasAskedFor(visit, /german/)).toBe(false);
    await page.getByRole('combobox', { name: 'Language' }).selectOption('Deutsch');
    await speaks(page, 'de');
    await page.getByRole('button', { name: 'Neuer Spieler' }).waitFor();
    expect(wasAskedFor(visit, /german/)).toBe(true);
    expectQuiet(visit);
    await visit.close();
  });

  test('is German where the browser is, with H and B and decimal commas, until another is chosen; then that one stays', async () => {
    const visit = await openStill({ locale: 'de-AT' });
    const { page } = visit;
    expect(await language(page)).toBe('de');
    await page.getByRole('img', { name: /^Schnitt von der Seite/ }).waitFor();
    // The invented player begins on B flat.
    expect(await shownNotes(page)).toContain('B3');
    expect((await page.locator('.staff-swing').allInnerTexts()).join(' ')).toMatch(/^([+−]?\d+,\d ?)+$/);
    const travel = page.locator('.this-note input').first();
    expect(await travel.inputValue()).toMatch(/^\d,\d$/);
    await travel.fill('2.5');
    await travel.press('Enter');
    expect(await travel.inputValue()).toBe('2,5');

    // Said in a worker of its own, which fetches the language itself.
    const measure = page.locator('#measure');
    await measure.getByRole('heading', { name: 'Aus Bildern und Film' }).waitFor();
    await measure.locator('input[type=file]').setInputFiles({ name: 'a.txt', mimeType: 'text/plain', buffer: Buffer.from('words, and no picture') });
    await measure.getByText('„a.txt“ enthält Text, kein Bild.').waitFor();

    const choice = page.getByRole('combobox', { name: 'Sprache' });
    await choice.focus();
    // By its keys: the first one of the two.
    await page.keyboard.press('Home');
    await page.keyboard.press('Enter');
    await speaks(page, 'en');
    expect(await shownNotes(page)).toContain('B♭3');
    // What was changed a moment ago is there, by its numbers.
    expect(await page.locator('.this-note input').first().inputValue()).toBe('2.5');
    await page.reload();
    await speaks(page, 'en');
    expectQuiet(visit);
    await visit.close();
  });

  test('is what the address asks for, for as long as it asks', async () => {
    const visit = await openStill({ path: '?language=de' });
    const { page } = visit;
    expect(await language(page)).toBe('de');
    await page.goto(new URL('./', page.url()).href);
    await speaks(page, 'en');
    await page.goto(new URL('./?language=de', page.url()).href);
    await speaks(page, 'de');
    await page.getByRole('combobox', { name: 'Sprache' }).selectOption('English');
    await speaks(page, 'en');
    expect(new URL(page.url()).search).toBe('');
    expectQuiet(visit);
    await visit.close();
  });
});

describe('the German page', () => {
  test('has no English sentence left, in any chapter', async () => {
    const visit = await openStill({ path: '?language=de' });
    const { page } = visit;
    for (const late of ['#measure .note', '#says .says-part', '#pictures', '.transport__beside', '#hand-out svg']) await page.locator(late).first().waitFor();
    expect(englishSeen(await pageTexts(page))).toEqual([]);
    expectQuiet(visit);
    await visit.close();
  });

  test('goes through the class by keys, in German from the first step to the last', async () => {
    const visit = await openPage({ path: '?language=de#class', reducedMotion: 'reduce', webgl: false });
    const { page } = visit;
    await speak('de');
    const steps = classInWords(classes[0]).steps.filter(({ off }) => off !== true);
    await speak('en');
    for (const [index, { title, question }] of steps.entries()) {
      if (index > 0) await page.keyboard.press('ArrowRight');
      await page.waitForFunction((wanted) => document.querySelector('.klass__title')?.textContent === wanted, title);
      if (question !== undefined) {
        await page.keyboard.press('ArrowRight');
        await page.locator('.klass-answer--so').waitFor();
      }
      expect([title, ...englishSeen(await pageTexts(page))]).toEqual([title]);
    }
    await page.getByRole('button', { name: 'Schritte', exact: true }).click();
    await page.getByRole('heading', { name: 'Schritte dieser Klasse' }).waitFor();
    expect(englishSeen(await pageTexts(page))).toEqual([]);
    await page.keyboard.press('Escape');
    await page.keyboard.press('Escape');
    await page.locator('.sentence').first().waitFor();
    expectQuiet(visit);
    await visit.close();
  });
});
