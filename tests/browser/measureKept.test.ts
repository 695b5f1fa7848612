/** What is kept of a measured film, and the way back from a reading to its frame: with the film kept, forgotten, chosen again, and deleted. */
import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { markFile } from '../../src/measure/fileMark';
import { expectWithin } from '../support/expectWithin';
import { madeFilm } from '../support/films/encodeFilm';
import { marksAt } from '../support/films/marksAt';
import type { NotePlayed } from '../support/films/notesPlayed';
import { sceneOf } from '../support/films/scene';
import { axeFaults } from './support/axe';
import { type Visit, openPage } from './support/chromium';
import { measureChapter } from './support/markingByMouse';

/** Home of the invented player who is on the page first is F4: 65. */
const note = (midi: number, startS: number, endS: number, upMm: number): NotePlayed => ({ midi, startS, endS, upMm, rightMm: 0.3, elevationDeg: -12 - upMm, lateralDeg: 1 });
const scene = sceneOf({ seed: 21, durationS: 4, notes: [note(65, 0.4, 1.5, 0), note(72, 1.6, 2.6, 2.4), note(65, 2.7, 3.8, 0)] });
const MARKED_S = 1;

let visit: Visit;
let page: Page;
let file: { readonly name: string; readonly mimeType: string; readonly buffer: Buffer };
beforeAll(async () => {
  file = { name: 'front.mp4', mimeType: 'video/mp4', buffer: Buffer.from(await madeFilm(scene)) };
  visit = await openPage({ reducedMotion: 'reduce', webgl: false });
  page = visit.page;
  await page.locator('#measure .files-door').waitFor();
  // Twenty marks put by mouse are tried in another file.
  const { bytes, digest } = await markFile(new File([new Uint8Array(file.buffer)], file.name));
  const { hornMarkMm: _, ...marks } = marksAt(scene, MARKED_S);
  const kept = JSON.stringify([[`${bytes} ${digest}`, { view: 'front', anchors: [{ timeS: MARKED_S, marks: { level: {}, lipLine: [], hornMarkMm: null, ...marks } }] }]]);
  await page.evaluate((text) => localStorage.setItem('rimpath.filmMarks.1', text), kept);
});
afterAll(() => visit.close());

const measure = (): Locator => measureChapter(page);
const row = (): Locator => measure().locator('.kept-measuring');
const button = (name: string | RegExp): Locator => page.getByRole('button', { name });
const origin = (): Locator => page.locator('.reading-origin');
/** Of the frame that has come, as the time line says it once its curves are worked out; NaN before. */
const shownS = async (): Promise<number> => {
  const said = await page.locator('.film-room').getByRole('img', { name: /^Time line of the film/ }).getAttribute('aria-label');
  return Number(/; at (\d+\.\d+) seconds: travel up/.exec(said!)?.[1] ?? NaN);
};

async function chooseMeasuredReading(): Promise<void> {
  await page.locator('#readings tr[data-reading]').last().locator('[data-cell="note"]').click();
  await origin().waitFor();
}

/** The time that stands with the reading. */
async function toldS(): Promise<number> {
  return Number((await origin().innerText()).match(/at (\d+\.\d+) s/)![1]);
}

/** The frame that is shown is the one that stands at the time; and nothing has been followed for it. */
async function expectShown(atS: number): Promise<void> {
  await page.locator('.film-bar__time').waitFor();
  await expect.poll(async () => Math.abs((await shownS()) - atS), { timeout: 20_000 }).toBeLessThan(0.045);
  // The last frame that begins at or before it: up to one thirtieth of a second earlier, both rounded to 0.01 s.
  expectWithin(await shownS(), atS, { abs: 0.045 }, 'time of the shown frame, s');
  await measure().getByText(/followed, 1\d\d frames/).waitFor();
  expect(await page.evaluate(() => document.activeElement?.id)).toBe('measure-heading');
  // What was followed lies over the frame, though nothing was marked in it.
  expect(await page.locator('.mark-button').count()).toBe(0);
  expect(await page.locator('.traced-line').count()).toBeGreaterThan(0);
}

const expectNoFaults = async (): Promise<void> => expect(await axeFaults(page)).toEqual([]);

describe('a film that is kept', () => {
  test('is kept on request only, when its take is accepted', async () => {
    await measure().locator('input[type=file]').first().setInputFiles(file);
    await button('Follow the marks through the film').click();
    await button('Follow once more').waitFor({ timeout: 60_000 });
    await measure().getByText('Of anybody under age, keep it only if their parents agree').waitFor();
    await page.getByRole('checkbox', { name: 'keep the film itself' }).check();
    await button('Accept as a take').click();
    await measure().getByText(/readings were taken into the lesson/).waitFor();
    await row().getByText(/the film is kept here, \d/).waitFor();
    await button('Close the film').click();
    await page.getByText('The last change is kept in this browser.').first().waitFor();
  });

  test('is still there after a reload, and a reading leads to its frame in it', async () => {
    await page.reload();
    await chooseMeasuredReading();
    expect(await origin().innerText()).toMatch(/^Measured from front\.mp4 at \d\.\d\d s \(\d+ frames\)\./);
    const atS = await toldS();
    // In the middle of the last note's steady part.
    expectWithin(atS, 3.25, { abs: 0.15 }, 'time told, s');
    await button('Show it').press('Enter');
    await expectShown(atS);
    await expectNoFaults();
  });

  test('measured again and accepted, its readings take their own places, with nothing followed anew', async () => {
    await button('Close the film').click();
    await row().getByRole('button', { name: 'Measure again' }).click();
    await measure().getByText(/followed, 1\d\d frames/).waitFor();
    expect(await button('Forget the film of front.mp4').count()).toBe(1);
    const rows = await page.locator('#readings tr[data-reading]').count();
    await expect.poll(() => button('Accept as a take').isEnabled(), { timeout: 20_000 }).toBe(true);
    await button('Accept as a take').click();
    await measure().getByText(/readings were taken into the lesson/).waitFor();
    expect(await page.locator('#readings tr[data-reading]').count()).toBe(rows);
    expect(await row().count()).toBe(1);
    await button('Close the film').click();
  });
});

describe('a film that was forgotten', () => {
  test('is forgotten at once, after one question', async () => {
    await button('Forget the film of front.mp4').click();
    await page.getByRole('group', { name: /^Forget the film kept of front\.mp4/ }).getByRole('button', { name: 'Forget' }).click();
    await row().getByText('the film itself is not kept').waitFor();
    expect(await button('Forget every film kept in this browser').count()).toBe(0);
  });

  test('is asked for; another file is not taken for it, the same one is under any name', async () => {
    await chooseMeasuredReading();
    const atS = await toldS();
    await button('Show it').click();
    const asked = page.getByRole('group', { name: 'Choose front.mp4' });
    await asked.getByText('to see the frame; its marks come back').waitFor();
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('Choose front.mp4');
    await expectNoFaults();
    const input = asked.locator('input[type=file]');
    await input.setInputFiles({ ...file, buffer: file.buffer.subarray(0, file.buffer.length - 9) });
    await asked.getByRole('alert').getByText('not what was measured').waitFor();
    await input.setInputFiles({ ...file, name: 'take one.mp4' });
    await expectShown(atS);
    await button('Close and forget the film').click();
  });

  test('its measuring deleted, the reading says so', async () => {
    await row().getByRole('button', { name: /^Delete/ }).click();
    await page.getByRole('group', { name: /^Delete the marks in front\.mp4/ }).getByRole('button', { name: 'Delete' }).click();
    await chooseMeasuredReading();
    expect(await origin().innerText()).toBe('The measuring this reading came from has been deleted, so its frame cannot be shown.');
    expect(await button('Show it').count()).toBe(0);
    expect(visit.consoleErrors).toEqual([]);
    expect(visit.foreignRequests).toEqual([]);
  });
});

describe('films that belong to nobody', () => {
  const filmsKept = (): Promise<number> =>
    page.evaluate(
      () =>
        new Promise<number>((resolve, reject) => {
          const opening = indexedDB.open('rimpath-films');
          opening.onerror = () => reject(new Error('not opened'));
          opening.onsuccess = () => {
            const count = opening.result.transaction('films').objectStore('films').count();
            count.onsuccess = () => {
              opening.result.close();
              resolve(count.result);
            };
          };
        }),
    );

  test('are forgotten when the page has been opened again, but not while another page stands open', async () => {
    await page.evaluate(
      () =>
        new Promise<void>((resolve, reject) => {
          const opening = indexedDB.open('rimpath-films');
          opening.onsuccess = () => {
            const writing = opening.result.transaction('films', 'readwrite');
            const blob = new Blob(['x']);
            writing.objectStore('films').put({ measuring: 'nobody', source: 0, name: 'old.mp4', bytes: 1, blob }, ['nobody', 0]);
            writing.onerror = () => reject(new Error('not put'));
            writing.oncomplete = () => {
              opening.result.close();
              resolve();
            };
          };
        }),
    );
    const other = await page.context().newPage();
    await other.goto(page.url());
    // Said when the other page has looked through them.
    await other.locator('#measure').getByText('for all players together: 1 film').waitFor({ timeout: 20_000 });
    expect(await filmsKept()).toBe(1);
    await other.close();
    await page.reload();
    await expect.poll(filmsKept, { timeout: 20_000 }).toBe(0);
  });
});
