/** Drawn pictures with known truth, from dropping them to the readings in the table. */
import { createCanvas } from '@napi-rs/canvas';
import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Point } from '../../src/measure/picture';
import { NINETY_FIVE_PERCENT } from '../../src/core/bands';
import { expectWithin } from '../support/expectWithin';
import { marksAt } from '../support/films/marksAt';
import { renderFrame } from '../support/films/renderFrame';
import { type Scene, sceneOf } from '../support/films/scene';
import { truthAt } from '../support/films/truth';
import { axeFaults } from './support/axe';
import { type Visit, openPage } from './support/chromium';
import { markByMouse, measureChapter, placeOnPage, tapPicture } from './support/markingByMouse';
import { markButton as markNamed, putByKeys } from './support/markingByKeys';
import { pictureFile } from './support/pictureFile';

const SEED = 8;
const front = sceneOf({ seed: SEED, view: 'front', durationS: 8 });
const side = sceneOf({ seed: SEED, view: 'right', durationS: 8 });
const middleOf = (scene: Scene, note: number): number => (Math.max(0, scene.notes[note]!.startS) + scene.notes[note]!.endS) / 2;
const HOME_S = middleOf(front, 0);
const OTHER_S = middleOf(front, 1);
/** As printed on a lens: the diagonal of 36 × 24 mm film over that of the picture. */
const LENS_MM = (front.camera.focalPx * Math.hypot(36, 24)) / Math.hypot(front.camera.width, front.camera.height);

let visit: Visit;
let page: Page;
beforeAll(async () => {
  visit = await openPage({ reducedMotion: 'reduce', webgl: false });
  page = visit.page;
  await page.locator('#measure .files-door').waitFor();
});
afterAll(() => visit.close());

const measure = (): Locator => measureChapter(page);
const markButton = (name: string): Locator => markNamed(page, name);
const plain = (words: string): string => words.replaceAll('\u00a0', ' ').replaceAll('\u2212', '-');

const onPage = (point: Point): Promise<Point> => placeOnPage(page, point, front.camera);
const tap = (point: Point): Promise<void> => tapPicture(page, point, front.camera);

/** All marks of a picture from the front, by mouse. */
const markFront = (timeS: number): Promise<void> => markByMouse(page, marksAt(front, timeS, { rimPoints: 10 }), front.camera);

/** "Horn up" → [value, deviation], once the marks have come to rest. */
async function line(name: string): Promise<[number, number]> {
  const row = measure().locator('.measure__lines > div', { hasText: name });
  await row.waitFor();
  const numbers = plain(await row.locator('dd').innerText()).match(/-?\d+(?:\.\d+)?/g)!.map(Number);
  // What stands there is half of a 95 % band.
  return [numbers[0]!, numbers[1]! / NINETY_FIVE_PERCENT];
}

describe('pictures are opened', () => {
  test('dropped on their place: the first stands where the stage stood', async () => {
    const files = [pictureFile('home.png', renderFrame(front, HOME_S)), pictureFile('higher.png', renderFrame(front, OTHER_S))];
    const transfer = await page.evaluateHandle((all) => {
      const data = new DataTransfer();
      for (const { name, base64 } of all) data.items.add(new File([Uint8Array.from(atob(base64), (one) => one.charCodeAt(0))], name, { type: 'image/png' }));
      return data;
    }, files.map(({ name, buffer }) => ({ name, base64: buffer.toString('base64') })));
    await page.locator('.files-door').dispatchEvent('drop', { dataTransfer: transfer });
    await page.locator('.measuring__canvas').waitFor();
    await page.getByRole('button', { name: 'Show higher.png' }).waitFor();
    expect(await page.locator('.stage-flat, .stage-waiting').count()).toBe(0);
    expect(await measure().innerText()).toContain('their parents agree');
  });

  test('one of twelve million pixels is opened beside the page, which goes on answering', { timeout: 60_000 }, async () => {
    const canvas = createCanvas(4000, 3000);
    const context = canvas.getContext('2d');
    for (let x = 0; x < 4000; x += 50) {
      context.fillStyle = `hsl(${x % 360} 50% ${20 + (x % 60)}%)`;
      context.fillRect(x, 0, 50, 3000);
    }
    const large = { name: 'large.jpg', mimeType: 'image/jpeg', buffer: canvas.toBuffer('image/jpeg', 90) };
    await page.evaluate(() => {
      const asked: string[] = [];
      Object.assign(globalThis, { asked });
      const [decode, read] = [globalThis.createImageBitmap, OffscreenCanvas.prototype.getContext];
      globalThis.createImageBitmap = ((...all: Parameters<typeof decode>) => (asked.push('decoded'), decode(...all))) as typeof decode;
      OffscreenCanvas.prototype.getContext = function (this: OffscreenCanvas, ...all: Parameters<typeof read>) {
        asked.push('read');
        return read.apply(this, all);
      } as typeof read;
    });
    await measure().locator('input[type=file]').setInputFiles(large);
    await page.getByRole('button', { name: 'Show large.jpg' }).click();
    await page.getByRole('group', { name: 'Picture large.jpg with its marks' }).locator('canvas').waitFor();
    expect(await page.evaluate(() => (globalThis as unknown as { asked: string[] }).asked)).toEqual([]);
    await page.getByRole('button', { name: 'Take away large.jpg' }).click();
    await page.getByRole('button', { name: 'Show higher.png' }).waitFor();
  });

  test('what is no picture is refused in words, and the others stay', async () => {
    await measure().locator('input[type=file]').setInputFiles({ name: 'notes.png', mimeType: 'image/png', buffer: Buffer.from('not a picture at all') });
    await measure().getByRole('alert').waitFor();
    expect(await measure().getByRole('alert').innerText()).toContain('notes.png');
    expect(await measure().locator('.open-picture').count()).toBe(2);
  });
});

describe('marks by mouse', () => {
  test('a rim point is drawn to the edge, seen in the loupe while it is dragged, and comes back with undo', async () => {
    const [first] = marksAt(front, HOME_S, { rimPoints: 10 }).rim!;
    await tap(first!);
    const put = await markButton('Rim, point 1').getAttribute('aria-label');
    const from = await onPage(first!);
    await page.mouse.move(from.x, from.y);
    await page.mouse.down();
    await page.mouse.move(from.x + 40, from.y + 30, { steps: 4 });
    const loupe = (await page.locator('.loupe').boundingBox())!;
    const isBeside = loupe.x > from.x + 40 || loupe.x + loupe.width < from.x + 40;
    expect(isBeside).toBe(true);
    await page.mouse.up();
    expect(await page.locator('.loupe').count()).toBe(0);
    expect(await markButton('Rim, point 1').getAttribute('aria-label')).not.toBe(put);
    await page.keyboard.press('Control+z');
    expect(await markButton('Rim, point 1').getAttribute('aria-label')).toBe(put);
    // The record has not been touched: its own steps are none.
    expect(await page.locator('.masthead').getByRole('button', { name: 'Undo' }).isDisabled()).toBe(true);
    await page.keyboard.press('Control+z');
    expect(await page.locator('.mark-button').count()).toBe(0);
  });

  test('two pictures of one head tell the travel between them, within their own deviations', { timeout: 120_000 }, async () => {
    const lens = measure().getByRole('textbox', { name: 'Lens' });
    await lens.fill('50');
    await measure().getByText('As you typed it').waitFor();
    // Emptied, what was typed is taken back.
    await lens.fill('');
    await lens.press('Enter');
    await measure().getByText('Not known. A film from the front').waitFor();
    await lens.fill(LENS_MM.toFixed(1));
    await measure().getByRole('textbox', { name: 'Horn’s far mark' }).fill(String(front.horn.farMm));
    await measure().getByRole('textbox', { name: 'Note that was played' }).fill('F4');
    await markFront(HOME_S);
    await measure().getByText('This picture is home').waitFor();
    await page.getByRole('button', { name: 'Show higher.png' }).click();
    await measure().getByRole('textbox', { name: 'Note that was played' }).fill('C5');
    await markFront(OTHER_S);

    const [home, other] = [truthAt(front, HOME_S).rim, truthAt(front, OTHER_S).rim];
    const [up, sdMm] = await line('Travel up');
    const [right, rightSdMm] = await line('Travel to the player’s right');
    // Two deviations, and no larger ones than a careful hand should have.
    expect(Math.max(sdMm, rightSdMm)).toBeLessThan(1.6);
    expectWithin(up, other.upMm - home.upMm, { abs: 2 * sdMm + 0.05 }, 'travel up, mm');
    expectWithin(right, other.rightMm - home.rightMm, { abs: 2 * rightSdMm + 0.05 }, 'travel right, mm');
    const [lateral, sdDeg] = await line('Horn to the player’s right');
    expect(sdDeg).toBeLessThan(4);
    expectWithin(lateral, other.lateralDeg, { abs: 2 * sdDeg + 0.05 }, 'lateral, degrees');
  });

  test('a lip line through the middle of the rim lies half on the upper lip', async () => {
    const { centre, semiMinorPx } = truthAt(front, OTHER_S).px.rimEllipse;
    await measure().getByRole('button', { name: 'Mark the lip line (clear rim)' }).click();
    // Along the line between the eyes, as the head holds it.
    const { 'outer-eye-right': right, 'outer-eye-left': left } = truthAt(front, OTHER_S).px.landmarks;
    const slope = (left.y - right.y) / (left.x - right.x);
    for (const across of [-0.5 * semiMinorPx, 0.5 * semiMinorPx]) await tap({ x: centre.x + across, y: centre.y + slope * across });
    const [share] = await line('Upper lip');
    expectWithin(share, 50, { abs: 3 }, 'share, %');
  });
});

/** As told by the picture from the side. */
let elevationDeg = NaN;

describe('marks by keys alone', () => {
  test('a picture from the side, put and nudged to the tenth of a pixel, tells how far the horn is raised', { timeout: 120_000 }, async () => {
    const timeS = middleOf(side, 1);
    await measure().locator('input[type=file]').setInputFiles(pictureFile('side.png', renderFrame(side, timeS)));
    await page.getByRole('button', { name: 'Show side.png' }).press('Enter');
    await measure().getByRole('combobox', { name: 'Seen' }).focus();
    // Typed, as one chooses in a list by keys: the second of the options is the player's right side.
    await page.keyboard.press('t');
    expect(await measure().getByRole('combobox', { name: 'Seen' }).inputValue()).toBe('right');
    await measure().getByRole('textbox', { name: 'Note that was played' }).focus();
    await page.keyboard.type('C5');

    const marks = marksAt(side, timeS);
    const wanted: readonly (readonly [string, Point])[] = [
      ['Horn, near the rim', marks.horn!.from],
      ['Horn, toward the bell', marks.horn!.to],
      ['Level line, at the back', marks.level!.from],
      ['Level line, at the front', marks.level!.to],
    ];
    for (const [name, point] of wanted) await putByKeys(page, name, point);
    const truth = truthAt(side, timeS).rim;
    const [elevation, sdDeg] = await line('Horn up');
    elevationDeg = elevation;
    expect(sdDeg).toBeLessThan(2.5);
    expectWithin(elevation, truth.elevationDeg, { abs: 2 * sdDeg }, 'elevation, degrees');
  });

  test('Delete takes a mark away, and Control+Z brings it back', async () => {
    await markButton('Level line, at the back').focus();
    await page.keyboard.press('Delete');
    expect(await markButton('Level line, at the back').count()).toBe(0);
    await page.locator('.put-cross').focus();
    await page.keyboard.press('Control+z');
    expect(await markButton('Level line, at the back').count()).toBe(1);
  });
});

describe('readings', () => {
  const rows = (): Locator => page.locator('#readings tr[data-reading]');
  const cells = (row: Locator, ...ids: string[]): Promise<string[]> =>
    Promise.all(ids.map((id) => row.locator(`[data-cell="${id}"]`).inputValue())).then((all) => all.map(plain));

  test('are accepted as a further take in one step, which one step takes back', { timeout: 60_000 }, async () => {
    const before = await rows().count();
    const [up] = await (async () => {
      await page.getByRole('button', { name: 'Show higher.png' }).click();
      return line('Travel up');
    })();
    await page.getByRole('button', { name: 'Accept as readings' }).click();
    await measure().getByText('2 readings were taken into the lesson.').waitFor();
    expect(await rows().count()).toBe(before + 2);
    const [note, travelUp, hornUp] = await cells(rows().last(), 'note', 'travelUp', 'hornUp');
    expect(note).toBe('C5');
    expectWithin(Number(travelUp), up, { abs: 0.051 }, 'travel in the table, mm');
    // Of the two pictures of this note the one from the side is surer of it.
    expect(Number(hornUp)).toBe(elevationDeg);
    expect(await measure().getByText('2 readings from home.png').count()).toBe(1);

    await page.locator('.masthead').getByRole('button', { name: 'Undo' }).click();
    expect(await rows().count()).toBe(before);
    await page.locator('.masthead').getByRole('button', { name: 'Redo' }).click();
    expect(await rows().count()).toBe(before + 2);
  });

  test('each leads back to the picture that it was measured in', async () => {
    for (const [at, name] of [[-2, 'home.png'], [-1, 'higher.png']] as const) {
      await page.getByRole('button', { name: 'Show side.png' }).click();
      await rows().nth(at).locator('[data-cell="note"]').click();
      await page.locator('.reading-origin').getByText(`Measured from ${name}`).waitFor();
      await page.getByRole('button', { name: 'Show it' }).click();
      await page.getByRole('group', { name: `Picture ${name} with its marks` }).waitFor();
    }
  });

  test('the page is free of faults in both themes while pictures are open', { timeout: 120_000 }, async () => {
    for (const theme of ['Projector', 'Paper']) {
      await page.getByRole('radio', { name: theme }).check();
      expect(await axeFaults(page)).toEqual([]);
    }
  });

  test('closed, the stage is back; opened again, a picture has its marks', async () => {
    await page.getByRole('button', { name: 'Close the pictures' }).click();
    await page.locator('.stage-flat').waitFor();
    expect(await page.evaluate(() => document.activeElement?.id)).toBe('measure-heading');
    await measure().locator('input[type=file]').setInputFiles(pictureFile('another name.png', renderFrame(front, HOME_S)));
    await page.locator('.mark-button').first().waitFor();
    expect(await markButton('Rim, point 8').count()).toBe(1);
    expect(await measure().getByRole('textbox', { name: 'Note that was played' }).inputValue()).toBe('F4');
    expect(visit.consoleErrors).toEqual([]);
    expect(visit.foreignRequests).toEqual([]);
  });
});

describe('on a small screen', () => {
  test.each([[390, 844], [720, 450]])('%i × %i: the picture stays in sight, marks can be tapped, nothing runs off the side', { timeout: 120_000 }, async (width, height) => {
    const phone = await openPage({ reducedMotion: 'reduce', webgl: false, hasTouch: true, width, height });
    const { page: small } = phone;
    await small.locator('#measure .files-door').waitFor();
    await small.locator('#measure input[type=file]').setInputFiles(pictureFile('home.png', renderFrame(front, HOME_S)));
    await small.locator('.measuring__canvas').waitFor();
    await small.locator('.measure__next').scrollIntoViewIfNeeded();
    const frame = (await small.locator('.measuring__frame').boundingBox())!;
    expect(frame.y).toBeGreaterThanOrEqual(0);
    expect(frame.y + frame.height).toBeLessThan(height);
    const [first] = marksAt(front, HOME_S, { rimPoints: 10 }).rim!;
    const at = await placeOnPage(small, first!, front.camera);
    await small.touchscreen.tap(at.x, at.y);
    await small.locator('.mark-button').waitFor();
    // Within reach of the first mark's handle: the next is put, and the first stays.
    const beside = await placeOnPage(small, { x: first!.x + 20, y: first!.y }, front.camera);
    await small.touchscreen.tap(beside.x, beside.y);
    await small.locator('.mark-button').nth(1).waitFor();
    const target = (await small.locator('.mark-button').first().boundingBox())!;
    expect(Math.min(target.width, target.height)).toBeGreaterThanOrEqual(24);
    expect(await small.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)).toBeLessThanOrEqual(0);
    await phone.close();
  });
});
