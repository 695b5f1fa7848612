/** The own arch from bite prints that the test draws itself: dropped, marked, fitted, taken, and what it does to the bands; by the card, a coin and a ruler. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { NINETY_FIVE_PERCENT } from '../../src/core/bands';
import type { Point } from '../../src/measure/picture';
import { expectWithin } from '../support/expectWithin';
import { WCAG_22_AA, axeFaults } from './support/axe';
import { type Visit, openPage } from './support/chromium';
import { CARD, COIN_MM, FROM_THE_SIDE, PRINT_FORM, PRINT_SIZE, RULER_MM, WITH_COIN, WITH_RULER, madePrint } from './support/printFile';

const { file, corners, teeth } = madePrint(FROM_THE_SIDE);

if (PRINT_FORM.kind !== 'sextic') throw new Error('another form');
const frontRadius = 1 / (2 * PRINT_FORM.b);

let visit: Visit;
let page: Page;
beforeAll(async () => {
  visit = await openPage({ reducedMotion: 'reduce', webgl: false });
  page = visit.page;
});
afterAll(() => visit.close());

const part = () => page.locator('.print');
const plain = (words: string): string => words.replaceAll('\u00a0', ' ').replaceAll('\u2212', '-');

/** As a file from the desk is dropped. */
async function drop(name: string, type: string, bytes: Buffer): Promise<void> {
  const files = await page.evaluateHandle(
    ([file, kind, text]) => {
      const transfer = new DataTransfer();
      transfer.items.add(new File([Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0))], file, { type: kind }));
      return transfer;
    },
    [name, type, bytes.toString('base64')] as const,
  );
  await part().locator('.files-door').dispatchEvent('drop', { dataTransfer: files });
}

/** On the whole picture. */
async function tap({ x, y }: Point, on: Page = page): Promise<void> {
  const surface = on.locator('.print').locator('.measuring__surface');
  const box = (await surface.boundingBox())!;
  const scale = Math.min(box.width / PRINT_SIZE.width, box.height / PRINT_SIZE.height);
  await surface.click({
    position: { x: (box.width - PRINT_SIZE.width * scale) / 2 + (x + 0.5) * scale, y: (box.height - PRINT_SIZE.height * scale) / 2 + (y + 0.5) * scale },
    force: true,
  });
}

describe('an own arch from a bite print', () => {
  test('is chosen by keys beside the ruler; a file that is no picture is refused in a sentence', async () => {
    await page.getByText('Own arch: with a ruler, or from a bite print').focus();
    await page.keyboard.press('Enter');
    await page.getByRole('radio', { name: 'With a ruler' }).focus();
    await page.keyboard.press('ArrowRight');
    await part().getByText('Write R on a piece of clean card').waitFor();
    await drop('notes.txt', 'text/plain', Buffer.from('Not a picture at all, only words.'));
    await part().getByText('holds text, not a picture').waitFor();
    await drop(file.name, file.mimeType, file.buffer);
    await part().locator('.measuring__canvas').waitFor();
  });

  test('corners that cross are named, and stay until they are put right', async () => {
    for (const at of [0, 1, 3, 2]) await tap(corners[at]!);
    await part().getByText('In this order the sides of the card cross.').waitFor();
    expect(await part().locator('.mark-button').count()).toBe(4);
    const undo = part().getByRole('button', { name: 'Undo mark' });
    await undo.click();
    await undo.click();
    await part().getByRole('radio', { name: 'card’s corners' }).check();
    for (const at of [2, 3]) await tap(corners[at]!);
    await part().getByText('Mark 8 tooth edges or more').waitFor();
    expect(Number(await part().getByRole('textbox', { name: 'Width' }).inputValue())).toBe(CARD.widthMm);
  });

  test('tooth edges by taps and by keys: every form is fitted, and the true one is as good as it is said to be', async () => {
    for (const [at, tooth] of teeth.entries()) if (at !== 6) await tap(tooth);
    // The one in the middle last, and by keys alone: it takes its place between its neighbours.
    await part().locator('.put-cross').focus();
    await page.keyboard.press('Enter');
    const mark = part().locator('.mark-button[aria-label^="Tooth edge"]');
    expect(await mark.count()).toBe(teeth.length);
    const middle = await mark.evaluateAll(
      (buttons, { x, y }) => {
        const place = (button: Element): number[] => button.getAttribute('aria-label')!.match(/-?\d+\.\d/g)!.map(Number);
        const far = buttons.map((button) => Math.hypot(place(button)[0]! - x, place(button)[1]! - y));
        // What was put in the frame's middle is none of the taps.
        return far.indexOf(Math.min(...far));
      },
      { x: PRINT_SIZE.width / 2, y: PRINT_SIZE.height / 2 },
    );
    await mark.nth(middle).focus();
    const away = async (): Promise<Point> => {
      const [x, y] = (await mark.nth(middle).getAttribute('aria-label'))!.match(/-?\d+\.\d/g)!.map(Number);
      return { x: teeth[6]!.x - x!, y: teeth[6]!.y - y! };
    };
    for (const [held, size] of [['Shift+', 10], ['', 1], ['Alt+', 0.1]] as const) {
      const { x, y } = await away();
      for (let count = Math.round(Math.abs(x) / size); count > 0; count--) await page.keyboard.press(`${held}Arrow${x > 0 ? 'Right' : 'Left'}`);
      for (let count = Math.round(Math.abs(y) / size); count > 0; count--) await page.keyboard.press(`${held}Arrow${y > 0 ? 'Down' : 'Up'}`);
    }
    await mark.nth(middle).blur();
    // Moved past its neighbours it takes its place between them.
    const [x] = (await mark.nth(6).getAttribute('aria-label'))!.match(/-?\d+\.\d/g)!.map(Number);
    expectWithin(x!, teeth[6]!.x, { abs: 0.2 });
    const row = part().locator('.print-forms:not([data-behind="true"]) tr', { hasText: 'as the ready-made arches' });
    await row.waitFor();
    const [rms, radius, band] = plain(await row.innerText()).match(/\d+\.\d+/g)!.map(Number);
    expectWithin(radius!, frontRadius, { abs: band! });
    expect(band).toBeLessThan(NINETY_FIVE_PERCENT * 0.16 * frontRadius);
    expect(rms).toBeLessThan(0.4);
    expect(await part().locator('.print-forms tbody tr').count()).toBeGreaterThanOrEqual(5);
    expect(await part().innerText()).toMatch(/Both sides are alike in front|In front the arch stands/);
  });

  test('nothing wrong is found in it by axe, on paper and for a projector', async () => {
    // Marks that lie nearer to each other than a finger is wide are taken apart so, or moved and taken away in their list.
    await part().getByRole('button', { name: 'Larger' }).click();
    await part().getByRole('button', { name: 'Larger' }).click();
    expect(await axeFaults(page, WCAG_22_AA, '.own-arch')).toEqual([]);
    await page.getByRole('radio', { name: 'Projector' }).check();
    expect(await axeFaults(page, WCAG_22_AA, '.own-arch')).toEqual([]);
    await page.getByRole('radio', { name: 'Paper' }).check();
  });

  test('taken, it is the player’s arch: surer to the side than with nothing measured, kept as points, undone in one step', async () => {
    await part().locator('.print-forms tr', { hasText: 'as the ready-made arches' }).getByRole('radio').check();
    await part().getByRole('button', { name: 'Take as the player’s arch' }).click();
    await part().getByText('The upper arch now follows this print.').waitFor();
    const chosen = page.getByLabel('Ready-made arch').locator('option:checked');
    expect(await chosen.innerText()).toBe('the player’s own, measured');
    expect(await part().innerText()).toContain(`Upper arch: by a print of ${teeth.length} points, measured by its card`);
    const sure = page.locator('.own-arch__sure p').filter({ hasText: 'with nothing measured of the teeth it would be' }).first();
    await sure.waitFor();
    const [up, side, , usualSide] = plain(await sure.innerText()).match(/\d+\.\d(?=°)/g)!.map(Number);
    expect(side!).toBeLessThanOrEqual(usualSide!);
    expect(up!).toBeGreaterThan(0);
    await page.getByRole('heading', { name: 'Player', exact: true }).click();
    await page.keyboard.press('Control+z');
    expect(await chosen.innerText()).toBe('Average');
    expect(await part().locator('.mark-button').count()).toBe(4 + teeth.length);
    // A print is of one mouth: with another player it is put away.
    await page.getByRole('button', { name: 'Start your own player' }).click();
    await expect.poll(() => part().locator('.mark-button').count()).toBe(0);
    expect(visit.consoleErrors).toEqual([]);
    expect(visit.foreignRequests).toEqual([]);
  });
});

describe.each([
  { by: 'a coin', choice: 'something round, as a coin', field: 'Diameter', lengthMm: COIN_MM, view: WITH_COIN, marks: 'coin', kept: 'something round' },
  { by: 'a ruler', choice: 'a stretch of a ruler', field: 'Length', lengthMm: RULER_MM, view: WITH_RULER, marks: 'ruler', kept: 'a ruler' },
] as const)('a print whose size is known by $by', ({ choice, field, lengthMm, view, marks, kept }) => {
  const made = madePrint(view);

  test('is asked for that alone, fitted as it was drawn, and taken', async () => {
    const own = await openPage({ reducedMotion: 'reduce', webgl: false });
    const at = own.page.locator('.print');
    await own.page.getByText('Own arch: with a ruler, or from a bite print').click();
    await own.page.getByRole('radio', { name: 'From a bite print' }).check();
    await at.locator('input[type=file]').setInputFiles([made.file]);
    await at.locator('.measuring__canvas').waitFor();
    await at.getByRole('radio', { name: choice }).check();
    for (const point of made[marks]) await tap(point, own.page);
    // Nothing is fitted before it is typed how large it is.
    await at.getByText('Type the length that is known.').waitFor();
    await at.getByRole('textbox', { name: field }).fill(String(lengthMm));
    await at.getByRole('radio', { name: 'tooth edges' }).check();
    for (const point of made.teeth) await tap(point, own.page);
    const row = at.locator('.print-forms:not([data-behind="true"]) tr', { hasText: 'as the ready-made arches' });
    await row.waitFor();
    const [rms, radius, band] = plain(await row.innerText()).match(/\d+\.\d+/g)!.map(Number);
    expectWithin(radius!, frontRadius, { abs: band! });
    expect(band).toBeLessThan(NINETY_FIVE_PERCENT * 0.16 * frontRadius);
    expect(rms).toBeLessThan(0.4);
    const [mmPerPx] = plain(await at.getByText(/^One pixel is/).innerText()).match(/\d+\.\d+/)!.map(Number);
    // Of the ruler's stretch, to a pixel at each end.
    if (marks === 'ruler') expectWithin(mmPerPx!, RULER_MM / Math.hypot(made.ruler[1].x - made.ruler[0].x, made.ruler[1].y - made.ruler[0].y), { rel: 0.005 });
    await row.getByRole('radio').check();
    await at.getByRole('button', { name: 'Take as the player’s arch' }).click();
    await at.getByText(`Upper arch: by a print of ${made.teeth.length} points, measured by ${kept}`).waitFor();
    expect(own.consoleErrors).toEqual([]);
    await own.close();
  });
});

test('at 390 px and in German: the same to the forms, and nothing runs out of the page', async () => {
  const narrow = await openPage({ reducedMotion: 'reduce', webgl: false, width: 390, height: 844, path: '?language=de' });
  await narrow.page.getByText('Eigener Zahnbogen: mit dem Lineal oder aus einem Bissabdruck').click();
  await narrow.page.getByRole('radio', { name: 'Aus einem Bissabdruck' }).check();
  await narrow.page.locator('.print input[type=file]').setInputFiles([file]);
  await narrow.page.locator('.print .measuring__canvas').waitFor();
  for (const point of [...corners, ...teeth]) await tap(point, narrow.page);
  const forms = narrow.page.locator('.print-forms:not([data-behind="true"])');
  await forms.waitFor();
  expect(await forms.innerText()).toContain('hinter der besten');
  expect(await narrow.page.evaluate(() => document.documentElement.scrollWidth)).toBe(390);
  expect(narrow.consoleErrors).toEqual([]);
  await narrow.close();
});
