/** A take on film, the whole way by keys alone: chosen, marked, followed, its notes changed, accepted, and found again. */
import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { expectWithin } from '../support/expectWithin';
import { madeFilm } from '../support/films/encodeFilm';
import { marksAt } from '../support/films/marksAt';
import type { NotePlayed } from '../support/films/notesPlayed';
import { sceneOf } from '../support/films/scene';
import { type Visit, openPage } from './support/chromium';
import { markButton, putByKeys } from './support/markingByKeys';
import { measureChapter } from './support/markingByMouse';

const note = (midi: number, startS: number, elevationDeg: number): NotePlayed => ({ midi, startS, endS: startS + 0.9, upMm: 0, rightMm: 0, elevationDeg, lateralDeg: 0 });
/** F4 is home in the lesson that is on the page. */
const NOTES = [note(65, 0.3, -14), note(70, 1.4, -8)];
const scene = sceneOf({ seed: 31, view: 'right', durationS: 2.5, width: 640, height: 360, rimWidthPx: 75, framesPerS: 15, notes: NOTES });

let visit: Visit;
let page: Page;
beforeAll(async () => {
  visit = await openPage({ reducedMotion: 'reduce', webgl: false });
  page = visit.page;
  await measureChapter(page).locator('.files-door').waitFor();
});
afterAll(() => visit.close());

const button = (name: string | RegExp): Locator => measureChapter(page).getByRole('button', { name });
/** As a person who has come to it by the Tab key. */
const press = (name: string | RegExp): Promise<void> => button(name).first().press('Enter');

test('from the file to the reading', { timeout: 120_000 }, async () => {
  const file = { name: 'side.mp4', mimeType: 'video/mp4', buffer: Buffer.from(await madeFilm(scene)) };
  const choosing = page.waitForEvent('filechooser');
  await press(/^Choose/);
  await (await choosing).setFiles(file);
  await page.locator('.measuring__canvas').waitFor();
  await measureChapter(page).locator('.film-work').waitFor({ state: 'detached' });

  await measureChapter(page).getByRole('combobox', { name: 'Seen' }).focus();
  await page.keyboard.press('t');
  expect(await measureChapter(page).getByRole('combobox', { name: 'Seen' }).inputValue()).toBe('right');

  // Along the film by keys: a step is a frame.
  const slider = page.getByRole('slider', { name: 'Time in the film' });
  await slider.focus();
  for (let step = 0; step < 10; step++) await page.keyboard.press('ArrowRight');
  const MARKED_FRAME = 10;
  const shownS = MARKED_FRAME / scene.framesPerS;
  await page.locator('.film-bar__time').filter({ hasText: shownS.toFixed(2) }).waitFor();

  const { horn, level } = marksAt(scene, shownS);
  await putByKeys(page, 'Horn, near the rim', horn!.from);
  await putByKeys(page, 'Horn, toward the bell', horn!.to);
  await putByKeys(page, 'Level line, at the back', level!.from);
  await putByKeys(page, 'Level line, at the front', level!.to);
  await press('Follow the marks through the film');
  await button('Follow once more').waitFor({ timeout: 60_000 });

  const rows = (): Promise<string[][]> =>
    measureChapter(page)
      .locator('.film-notes tbody tr')
      .evaluateAll((all) => all.map((row) => [...row.children].map((cell) => (cell.textContent ?? '').replaceAll('\u2212', '-'))));
  await expect.poll(async () => (await rows())[1]?.[4]).not.toBe('–');
  const found = await rows();
  expect(found.map(([name]) => name)).toEqual(['F4', 'B♭4']);
  const up = found.map((cells) => Number(cells[4]!.split(' ± ')[0]));
  expectWithin(up[1]! - up[0]!, 6, { abs: 1.5 }, 'swing, degrees');

  // A note is chosen in the list, named anew and named back.
  await measureChapter(page).locator('.film-notes tbody button').nth(1).press('Enter');
  const name = measureChapter(page).getByRole('group', { name: /^The chosen note/ }).getByLabel('Note', { exact: true });
  await name.focus();
  await name.press('Control+a');
  await page.keyboard.type('C5');
  await expect.poll(async () => (await rows())[1]![0]).toBe('C5');
  await press('Undo note');
  await expect.poll(async () => (await rows())[1]![0]).toBe('B♭4');

  await press('Accept as a take');
  await measureChapter(page).getByText('2 readings were taken into the lesson').waitFor();
  await press('Close and forget the film');
  await page.locator('.measuring__canvas').waitFor({ state: 'detached' });
  expect(await page.evaluate(() => document.activeElement?.id)).toBe('measure-heading');
  expect(await markButton(page, 'Horn').count()).toBe(0);
  expect(visit.consoleErrors).toEqual([]);
});
