/** A whole invented lesson as a teacher would give it, from a new player to the printed sheet, and the next day. */
import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { WITH_GOOD_PRACTICE, axeFaults } from './support/axe';
import { type Visit, openPage } from './support/chromium';
import { lookAtPdf } from './support/pdf';

/** Invented: the rim goes up by 2 mm an octave, the horn with it. The second take is seen on the same notes a little later. */
const NOTES = ['B♭2', 'F3', 'B♭3', 'D4', 'F4', 'B♭4'];
const TYPED_NOTES = ['Bb2', 'F3', 'Bb3', 'D4', 'F4', 'Bb4'];
const FIRST = [
  ['-1,9', '0', '-6', '0', 'd', '4'],
  ['-0,7', '0,1', '-2', '0', 'd', '4'],
  ['0', '0', '0', '0', 'd', '5'],
  ['0,8', '-0,1', '2', '0', 'd', '4'],
  ['1,3', '0,1', '4', '1', '?', '3'],
  ['2,1', '0,2', '6', '1', 'u', '2'],
] as const;
const SECOND = [['-2,1', '0,1'], ['-0,6', '0'], ['0,1', '0'], ['0,6', '0'], ['1,2', '0'], ['2', '0,1']] as const;
const TRIED = ['-1,8', '-0,7', '0', '0,7', '1,2', '1,9'];

let visit: Visit;
let page: Page;

beforeAll(async () => {
  visit = await openPage({
    reducedMotion: 'reduce',
    webgl: false,
    before: (opened) => opened.clock.setSystemTime(new Date(2026, 4, 12, 16, 0)),
  });
  page = visit.page;
  await page.locator('.sentence').waitFor();
});
afterAll(() => visit.close());

const press = async (...keys: string[]): Promise<void> => {
  for (const key of keys) await page.keyboard.press(key);
};
const plain = (words: string): string => words.replaceAll('\u00a0', ' ');
const table = (): Locator => page.locator('#readings tr[data-reading]');
const shown = (...columns: string[]): Promise<string[][]> =>
  table().evaluateAll(
    (rows, ids) => rows.map((row) => ids.map((id) => row.querySelector<HTMLInputElement | HTMLSelectElement>(`[data-cell="${id}"]`)!.value)),
    columns,
  );
const saysPart = (heading: string): Locator => page.locator('#says .says-part', { has: page.getByRole('heading', { name: heading }) });
const kept = (): Promise<void> => page.getByText('The last change is kept in this browser.').first().waitFor();

/** As written down after the first lesson; what a reload and the next day must find again. */
let written: string[][] = [];
const COLUMNS = ['note', 'take', 'travelUp', 'travelRight', 'hornUp', 'hornRight', 'airstream', 'ease'];

/** One after the other: a lesson goes on from where it was. */
describe('a lesson', () => {
  test('begins with a player of one’s own', async () => {
    await page.getByRole('button', { name: 'Start your own player' }).press('Enter');
    // The label is at hand.
    await press('Control+a');
    await page.keyboard.type('M. K.');
    await page.getByLabel('Instrument').selectOption('tenor-trombone');
    expect(await page.locator('#player-label').inputValue()).toBe('M. K.');
    await kept();
    expect(await page.getByRole('banner').getByLabel('Player').locator('option:checked').innerText()).toBe('M. K.');
    expect(await page.getByRole('textbox', { name: 'Day' }).inputValue()).toBe('2026-05-12');
  });

  test('its readings are typed by keys, two takes of six notes', async () => {
    const takeOut = page.locator('#readings').getByRole('button', { name: /^Take .+ out$/ });
    await takeOut.focus();
    while ((await table().count()) > 0) await press('Enter');
    await page.getByRole('button', { name: 'Add a note' }).press('Enter');
    for (const [index, [up, right, hornUp, hornRight, air, ease]] of FIRST.entries()) {
      await page.keyboard.type(TYPED_NOTES[index]!);
      await press('Tab');
      for (const text of [up, right, hornUp, hornRight]) {
        await press('Tab');
        await page.keyboard.type(text);
      }
      await press('Tab', air, 'Tab');
      await page.keyboard.type(ease);
      if (index < FIRST.length - 1) await press('Enter');
    }
    await page.locator('#readings').getByRole('button', { name: 'Add take 2 of all notes' }).press('Enter');
    for (const [index, [up, right]] of SECOND.entries()) {
      await page.keyboard.type(up);
      await press('Tab');
      await page.keyboard.type(right);
      // After a run of Tabs in the last row a row would be added.
      await press(index < SECOND.length - 1 ? 'Enter' : 'Shift+Tab');
    }
    written = await shown(...COLUMNS);
    expect(written.slice(0, 6)).toEqual([
      ['B♭2', '', '−1.9', '0.0', '−6.0', '0.0', 'down', '4'],
      ['F3', '', '−0.7', '0.1', '−2.0', '0.0', 'down', '4'],
      ['B♭3', '', '0.0', '0.0', '0.0', '0.0', 'down', '5'],
      ['D4', '', '0.8', '−0.1', '2.0', '0.0', 'down', '4'],
      ['F4', '', '1.3', '0.1', '4.0', '1.0', 'not sure', '3'],
      ['B♭4', '', '2.1', '0.2', '6.0', '1.0', 'up', '2'],
    ]);
    expect(written.slice(6).map(([note, take, up]) => [note, take, up])).toEqual(
      NOTES.map((note, index) => [note, '2', ['−2.1', '−0.6', '0.1', '0.6', '1.2', '2.0'][index]]));
    expect(plain(await page.locator('.sentence').innerText())).toMatch(/^At B♭4 \(mean of 2 takes\) the rim is 2\.05? mm up/);
  });

  test('what they say is read', async () => {
    await page.getByRole('link', { name: 'What they say' }).press('Enter');
    await saysPart('Line of travel').getByText('as the pitch rises').waitFor();
    const line = plain(await saysPart('Line of travel').innerText());
    // 4 mm over two octaves.
    const [, extent] = /The rim goes up.* as the pitch rises: (\d\.\d) mm an octave/.exec(line) ?? [];
    expect(Number(extent)).toBeGreaterThanOrEqual(1.9);
    expect(Number(extent)).toBeLessThanOrEqual(2.2);
    expect(plain(await saysPart('Which way').innerText())).toContain('To ascend, the rim is pushed up');
    expect(plain(await saysPart('Turn-back').innerText())).not.toContain('turns back at');
    const all = await page.locator('#says').innerText();
    expect(all).not.toMatch(/NaN|undefined|Infinity/);
    expect(all).toMatch(/F4/);
  });

  test('a change is tried and compared', async () => {
    const tryOuts = page.locator('#try-outs');
    await page.getByRole('link', { name: 'Try-outs' }).press('Enter');
    await tryOuts.getByLabel('What to try').selectOption('let the horn follow the rim');
    await tryOuts.getByRole('button', { name: 'Begin this try-out' }).press('Enter');
    const cells = tryOuts.locator('[data-cell="travelUp"]');
    expect(await tryOuts.locator('[data-cell="note"]').evaluateAll((all) => all.map((one) => (one as HTMLInputElement).value))).toEqual(NOTES);
    await cells.first().focus();
    for (const up of TRIED) {
      await page.keyboard.type(up);
      await press('Enter');
    }
    await tryOuts.locator('[data-cell="ease"]').last().focus();
    await page.keyboard.type('4');
    await press('Enter');
    await tryOuts.getByLabel('How it felt and sounded').fill('Freer at the top.');
    await press('Tab');
    // Compared once the hand rests, with what was typed last.
    await tryOuts.locator('table.comparison tr', { hasText: 'tried' }).filter({ hasText: '−1.8' }).waitFor();
    await tryOuts.locator('table.comparison tr', { hasText: 'tried' }).filter({ hasText: '1.9' }).last().waitFor();
    const words = plain(await tryOuts.innerText());
    // Counted from home: of the two ends the one that is expected to swing more.
    expect(words).toMatch(/At B♭[24] the model expects that the bell would come \d\.\d° (?:up|down)/);
    expect(words).toContain('On one note it spoke 2.0 easier than usual');
    expect(words).not.toMatch(/Not compared|NaN|undefined/);
  });

  test('is printed for the student: label, day, notes, what to try', async () => {
    await page.locator('#hand-out').getByLabel('What to try').fill('Let the horn come up with the rim.');
    await page.locator('#lessons').getByLabel('Remark on this lesson').fill('First lesson; warm room.');
    await page.locator('.hand-out-try', { hasText: 'Let the horn come up' }).waitFor();
    await page.locator('#hand-out .printed-staff [data-index]').first().waitFor({ state: 'attached' });
    const { pages, texts } = await lookAtPdf(await page.pdf({ preferCSSPageSize: true }));
    expect(pages.length).toBe(1);
    const inOneRun = texts.map((one) => one.text).join('').replace(/\s+/gu, '');
    for (const words of ['M. K.', 'Tenor trombone', '12 May 2026', ...NOTES, 'Let the horn come up with the rim.']) {
      expect(inOneRun).toContain(words.replaceAll(' ', ''));
    }
    // Remarks are the teacher's own.
    expect(inOneRun).not.toContain('warmroom');
  });

  test('the next day a new lesson begins with its notes, and nothing seen', async () => {
    await kept();
    await page.clock.setSystemTime(new Date(2026, 4, 13, 16, 0));
    await page.getByRole('button', { name: 'New lesson' }).press('Enter');
    expect(await page.getByRole('textbox', { name: 'Day' }).inputValue()).toBe('2026-05-13');
    expect((await shown('note')).flat()).toEqual(NOTES);
    expect(new Set((await shown('travelUp', 'hornUp', 'ease')).flat())).toEqual(new Set(['']));
    await page.locator('#readings [data-cell="travelUp"]').first().focus();
    for (const up of ['-2', '-0,8', '0', '0,7', '1,4', '2,2']) {
      await page.keyboard.type(up);
      await press('Enter');
    }
    expect((await shown('travelUp')).flat()).toEqual(['−2.0', '−0.8', '0.0', '0.7', '1.4', '2.2']);
  });

  test('a reload finds all of it, the lesson before too', async () => {
    await page.reload();
    await page.locator('.sentence').waitFor();
    expect(await page.locator('#player-label').inputValue()).toBe('M. K.');
    expect(await page.getByRole('textbox', { name: 'Day' }).inputValue()).toBe('2026-05-13');
    expect((await shown('travelUp')).flat()).toEqual(['−2.0', '−0.8', '0.0', '0.7', '1.4', '2.2']);
    await saysPart('Over the lessons').locator('svg').first().waitFor();
    await page.getByRole('banner').getByLabel('Lesson').selectOption({ label: '1, 12 May 2026' });
    await page.waitForFunction(() => document.querySelectorAll('#readings tr[data-reading]').length === 12);
    expect(await shown(...COLUMNS)).toEqual(written);
    expect(await page.getByLabel('Remark on this lesson').inputValue()).toBe('First lesson; warm room.');
    expect(await page.locator('#try-outs').getByLabel('How it felt and sounded').inputValue()).toBe('Freer at the top.');
    expect(await page.locator('#hand-out').getByLabel('What to try').inputValue()).toBe('Let the horn come up with the rim.');
    expect(visit.consoleErrors).toEqual([]);
    expect(visit.foreignRequests).toEqual([]);
  });

  test.each(['Paper', 'Projector'])('in the %s theme axe finds nothing on the filled page (WCAG 2.2 A and AA)', async (theme) => {
    await page.getByRole('radio', { name: theme }).check({ force: true });
    await page.evaluate(() => document.querySelectorAll('details').forEach((one) => (one.open = true)));
    expect(await axeFaults(page, WITH_GOOD_PRACTICE)).toEqual([]);
  });
});
