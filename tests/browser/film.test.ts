/** A take on film with known truth, two phones at once, from dropping the files to the hand-out. One after the other: the lesson goes on from where it was. */
import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { expectWithin } from '../support/expectWithin';
import { madeFilm } from '../support/films/encodeFilm';
import { marksAt } from '../support/films/marksAt';
import type { NotePlayed } from '../support/films/notesPlayed';
import { type Scene, sceneOf } from '../support/films/scene';
import { WCAG_22_AA, axeFaults } from './support/axe';
import { type Visit, openPage } from './support/chromium';
import { markByMouse, measureChapter } from './support/markingByMouse';

const played = (midi: number, startS: number, upMm: number, rightMm: number, elevationDeg: number): NotePlayed => ({
  ...{ midi, startS, endS: startS + 0.7, upMm, rightMm, elevationDeg, lateralDeg: 2 * rightMm },
});
/** F4 is home in the lesson that is on the page; the last two notes are slurred. */
const NOTES: readonly NotePlayed[] = [
  played(65, 0.4, 0, 0, -14),
  played(58, 1.3, -1.6, 0.3, -17),
  played(62, 2.2, -0.8, 0, -15.5),
  played(70, 3.1, 1.3, -0.4, -12),
  played(74, 3.8, 2.1, -0.6, -10),
];
const SHARED = { seed: 11, durationS: 4.8, framesPerS: 25, notes: NOTES, headTurnSdDeg: 2 };
const STARTED_LATER_S = 0.25;
const front = sceneOf({ ...SHARED, view: 'front' });
const side = sceneOf({ ...SHARED, view: 'right', startS: STARTED_LATER_S });
/** As printed on a lens. */
const LENS_MM = (front.camera.focalPx * Math.hypot(36, 24)) / Math.hypot(front.camera.width, front.camera.height);
const MINUTES = 240_000;

let visit: Visit;
let page: Page;
let files: readonly { readonly name: string; readonly mimeType: string; readonly buffer: Buffer }[];
beforeAll(async () => {
  files = [
    { name: 'front.mp4', mimeType: 'video/mp4', buffer: Buffer.from(await madeFilm(front)) },
    { name: 'side.mp4', mimeType: 'video/mp4', buffer: Buffer.from(await madeFilm(side)) },
  ];
  visit = await openPage({ reducedMotion: 'reduce', webgl: false });
  page = visit.page;
  await page.locator('#measure .files-door').waitFor();
}, MINUTES);
afterAll(() => visit.close());

const measure = (): Locator => measureChapter(page);
const idle = (): Promise<void> => measure().locator('.film-work').waitFor({ state: 'detached', timeout: MINUTES });
const rows = (): Promise<string[][]> =>
  measure()
    .locator('.film-notes tbody tr')
    .evaluateAll((all) => all.map((row) => [...row.children].map((cell) => (cell.textContent ?? '').replaceAll('\u2212', '-'))));
const numberIn = (cell: string): { readonly value: number; readonly band: number } => {
  const [value = 'none', band = 'none'] = cell.split(' ± ');
  return { value: Number(value), band: Number(band) };
};

/** What a careful person would mark in the frame that is shown; `ownS`: the film's own time of it. */
function markAll(scene: Scene, ownS: number): Promise<void> {
  const { horn, level, ...more } = marksAt(scene, ownS, { jitterPx: 0.7, seed: 5 });
  return markByMouse(page, scene.view === 'front' ? { ...more, horn, level } : { landmarks: {}, horn, level }, scene.camera);
}

const shownS = async (): Promise<number> => Number((await page.locator('.film-bar__time').innerText()).replace(' s', ''));
async function goToNote(index: number): Promise<number> {
  await measure().locator('.film-notes tbody button').nth(index).click();
  await page.waitForTimeout(400);
  return shownS();
}

describe('a take on film', () => {
  test('is opened where it is dropped; its notes are heard and named', async () => {
    await measure().locator('input[type=file]').setInputFiles(files[0]!);
    await page.locator('.measuring__canvas').waitFor();
    await idle();
    const found = await rows();
    expect(found.map(([name]) => name)).toEqual(['F4', 'B♭3', 'D4', 'B♭4', 'D5']);
    found.forEach(([, begins], index) => expectWithin(Number(begins), NOTES[index]!.startS, { abs: 0.05 }, `note ${index}`));
    await measure().getByText('the lesson’s home').waitFor();
  }, MINUTES);

  test('frames are stepped through one by one, by button and by key', async () => {
    const before = await shownS();
    await page.getByRole('button', { name: 'Frame on' }).click();
    await page.waitForFunction((was) => Number(document.querySelector('.film-bar__time')!.textContent.replace(' s', '')) > was, before);
    expectWithin(await shownS(), before + 1 / front.framesPerS, { abs: 0.011 });
    await page.getByRole('slider', { name: 'Time in the film' }).press('ArrowLeft');
    await page.waitForFunction((was) => Math.abs(Number(document.querySelector('.film-bar__time')!.textContent.replace(' s', '')) - was) < 0.001, before);
  });

  test('is not lost to a class view that is opened meanwhile', async () => {
    await page.getByRole('button', { name: 'Class view' }).click();
    await page.getByText('The class view opens when the film or the pictures are closed').waitFor();
    expect(new URL(page.url()).hash).toBe('');
    await page.evaluate(() => (window.location.hash = '#class'));
    await page.waitForTimeout(300);
    expect(await page.locator('.measuring__canvas').count()).toBe(1);
    await page.evaluate(() => window.history.replaceState(null, '', window.location.pathname));
    expect(await measure().locator('.film-notes tbody tr').count()).toBe(NOTES.length);
  });

  test('is marked in one frame and followed through all of them', async () => {
    await markAll(front, await goToNote(2));
    const lens = measure().getByLabel('Lens, as on a full-frame camera');
    await lens.fill(LENS_MM.toFixed(1));
    await lens.press('Enter');
    await measure().getByRole('button', { name: 'Follow the marks through the film' }).click();
    await idle();
    await page.waitForFunction(() => (document.querySelector('.film-notes tbody td:nth-child(3)')?.textContent ?? '–') !== '–');
    const found = await rows();
    found.forEach(([name, , up, right], index) => {
      const [truth, home] = [NOTES[index]!, NOTES[0]!];
      // What the chapter asks of a head that turns by 2 degrees.
      expectWithin(numberIn(up!).value, truth.upMm - home.upMm, { abs: 0.4 }, `${name} up`);
      expectWithin(numberIn(right!).value, truth.rightMm - home.rightMm, { abs: 0.4 }, `${name} right`);
      if (index > 0) expect(numberIn(up!).band).toBeGreaterThan(0);
    });
    expect(await page.locator('.film-path__mark').count()).toBe(NOTES.length);
  }, MINUTES);

  test('a second film of it is brought together by their sound, and makes the elevation surer', async () => {
    const before = await rows();
    const alone = before.map(([, , , , up]) => numberIn(up!));
    await measure().locator('input[type=file]').setInputFiles(files[1]!);
    await measure().getByText('side.mp4').first().waitFor();
    await idle();
    const offset = measure().getByLabel('Began later than the first film by');
    expectWithin(Number(await offset.inputValue()), STARTED_LATER_S, { abs: 0.015 });
    await markAll(side, (await goToNote(2)) - STARTED_LATER_S);
    await measure().getByRole('button', { name: 'Follow the marks through the film' }).click();
    await idle();
    const found = await rows();
    found.forEach(([name, , , , up], index) => {
      const { value, band } = numberIn(up!);
      // One film's own mistakes stay the same through it: what it tells of one note it tells of all.
      expectWithin(value, NOTES[index]!.elevationDeg, { abs: 3.5 }, `${name} elevation`);
      expectWithin(value - numberIn(found[0]![4]!).value, NOTES[index]!.elevationDeg - NOTES[0]!.elevationDeg, { abs: 1.5 }, `${name} swing`);
      if (!Number.isNaN(alone[index]!.band)) expect(band).toBeLessThan(alone[index]!.band);
      // Each film's own frames, side by side: the first film's stay what they were.
      const [ofFront, ofSide] = found[index]!.slice(6).map(Number);
      expect(ofFront).toBe(Number(before[index]![6]));
      expect(ofSide).toBeGreaterThan(0);
    });
    await measure().getByRole('columnheader', { name: 'Frames, each film' }).waitFor();
  }, MINUTES);

  test('a note that was named wrongly is mended by hand, and the step taken back', async () => {
    await goToNote(1);
    const name = measure().getByRole('group', { name: /^The chosen note/ }).getByLabel('Note', { exact: true });
    await name.fill('Bb2');
    expect((await rows())[1]![0]).toBe('B♭2');
    await name.fill('nonsense');
    await measure().getByText('is no note name').waitFor();
    await name.press('Tab');
    await measure().getByRole('button', { name: 'Undo note' }).click();
    expect((await rows())[1]![0]).toBe('B♭3');
  });

  test.each(['Paper', 'Projector'])('axe finds no fault with it, theme %s', async (theme) => {
    await page.getByRole('radio', { name: theme }).check({ force: true });
    expect(await axeFaults(page, WCAG_22_AA)).toEqual([]);
  });

  test('at 390 pixels nothing lies beside the page', async () => {
    await page.setViewportSize({ width: 390, height: 844 });
    await page.waitForTimeout(300);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
    await page.setViewportSize({ width: 1440, height: 900 });
  });

  test('is accepted as a take of its own, and one step back takes it out again', async () => {
    const table = (): Promise<number> => page.locator('#readings tr[data-reading]').count();
    const before = await table();
    await measure().getByRole('button', { name: 'Accept as a take' }).click();
    await measure().getByText('5 readings were taken into the lesson').waitFor();
    expect(await table()).toBe(before + NOTES.length);
    await page.getByRole('banner').getByRole('button', { name: 'Undo' }).click();
    expect(await table()).toBe(before);
    await page.getByRole('banner').getByRole('button', { name: 'Redo' }).click();
    expect(await table()).toBe(before + NOTES.length);
  });

  test('the film is closed and forgotten, and what came of it is there after a reload, on the hand-out too', async () => {
    await measure().getByRole('button', { name: 'Close and forget the film' }).click();
    await page.locator('.measuring__canvas').waitFor({ state: 'detached' });
    await page.getByText('The last change is kept in this browser.').first().waitFor();
    await page.reload();
    await page.locator('#measure .files-door').waitFor();
    const last = page.locator('#readings tr[data-reading]').last();
    expect(await last.locator('[data-cell="note"]').inputValue()).toBe('D5');
    await measure().getByText('Measured in this lesson').waitFor();
    await measure().getByText('front.mp4').first().waitFor();
    expect(await page.locator('#hand-out').innerText()).toContain('D5');
    expect(visit.foreignRequests).toEqual([]);
    expect(visit.consoleErrors).toEqual([]);
  });
});
