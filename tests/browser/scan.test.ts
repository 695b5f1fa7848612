/**
 * The own arch from a scan in a real browser, on files the test makes itself: by mouse with both jaws, dropped and stopped, by keys alone on a
 * phone's width, and bad files.
 */
import { readFile } from 'node:fs/promises';
import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { expectWithin } from '../support/expectWithin';
import { type MadeScan, madeScan, toothPx } from '../support/madeScan';
import { WCAG_22_AA, axeFaults } from './support/axe';
import { type Visit, openPage } from './support/chromium';

const TEETH = ['right', 'front', 'left'] as const;
const upper = madeScan('upper');
const lower = madeScan('lower');

const stl = (name: string, bytes: Uint8Array) => ({ name, mimeType: 'model/stl', buffer: Buffer.from(bytes) });

const part = (page: Page): Locator => page.locator('.scan-part');
const jawOf = (page: Page, name: 'Upper jaw' | 'Lower jaw'): Locator => part(page).getByRole('region', { name });

async function openPart(page: Page): Promise<void> {
  await page.getByText('Own arch: from a scan').click();
  await part(page).waitFor();
}

/** Both angles of the chosen note's prediction, as the page says them. */
const sentence = (page: Page): Promise<string> => page.locator('.sentence').innerText();

describe('by mouse, both jaws', () => {
  let visit: Visit;
  let page: Page;
  beforeAll(async () => {
    visit = await openPage({ reducedMotion: 'reduce', webgl: false, width: 1440, height: 900 });
    page = visit.page;
  });
  afterAll(() => visit.close());

  async function markByMouse(jaw: Locator, scan: MadeScan): Promise<void> {
    const surface = jaw.locator('.scan-marking .scan-view__surface[data-drawn=true]');
    await surface.waitFor();
    await surface.scrollIntoViewIfNeeded();
    for (const tooth of TEETH) {
      const box = (await surface.boundingBox())!;
      const at = toothPx(scan, tooth, { width: box.width - 2, height: box.height - 2 });
      await page.mouse.click(box.x + 1 + at.x, box.y + 1 + at.y);
      await jaw.locator(`[data-tooth=${tooth}]`).waitFor();
    }
  }

  test('is fetched when it is opened; the files are read, and what was found is told', async () => {
    expect(visit.requests.some((url) => /\/(ScanPane|scanWorker)-/.test(url))).toBe(false);
    await openPart(page);
    for (const [jaw, scan] of [['Upper jaw', upper], ['Lower jaw', lower]] as const) {
      await jawOf(page, jaw).locator('input[type=file]').setInputFiles(stl(`${jaw}.stl`, scan.bytes));
      await jawOf(page, jaw).getByText(`${jaw}.stl: ${scan.triangles.toLocaleString('en-GB')} triangles.`).waitFor();
      await jawOf(page, jaw).getByText('It is open at its border').waitFor();
      expect(await jawOf(page, jaw).getByLabel('millimetres').isChecked()).toBe(true);
    }
  });

  test('at 200 % zoom the picture to be marked is seen whole beside the stage that stays', async () => {
    const surface = jawOf(page, 'Upper jaw').locator('.scan-marking .scan-view__surface[data-drawn=true]');
    const wide = (await surface.boundingBox())!;
    for (const height of [450, 400]) {
      await page.setViewportSize({ width: 720, height });
      await surface.scrollIntoViewIfNeeded();
      const stays = await page.locator('.stage-frame').evaluate((frame) => (getComputedStyle(frame).position === 'sticky' ? frame.getBoundingClientRect().height : 0));
      const box = (await surface.boundingBox())!;
      expect(box.height, `${height} px`).toBeLessThan(height - stays);
      expectWithin(box.width / box.height, 4 / 3, { abs: 0.02 }, 'its shape');
    }
    await page.setViewportSize({ width: 1440, height: 900 });
    await expect.poll(async () => (await surface.boundingBox())!.width).toBe(wide.width);
  });

  test('a fit that is stopped leaves the file and the marks, and the focus where it can go on', async () => {
    const jaw = jawOf(page, 'Upper jaw');
    const fit = jaw.getByRole('button', { name: 'Fit an arch' });
    await markByMouse(jaw, upper);
    await fit.focus();
    await page.keyboard.press('Enter');
    await jaw.getByText(/^Fitting an arch: /).waitFor();
    expect(await fit.evaluate((button) => document.activeElement === button)).toBe(true);
    await jaw.getByRole('button', { name: 'Stop' }).focus();
    await page.keyboard.press('Enter');
    await jaw.getByText(/^Fitting an arch: /).waitFor({ state: 'detached' });
    expect(await fit.evaluate((button) => document.activeElement === button)).toBe(true);
    expect(await jaw.locator('.scan-view__marks [data-tooth]').count()).toBe(3);
    await jaw.getByText(`Upper jaw.stl: ${upper.triangles.toLocaleString('en-GB')} triangles.`).waitFor();
    expect(await jaw.getByText(/^Fitted: /).count()).toBe(0);
  });

  test('three teeth, and the arch it was cut from is found; scan and arch agree, note by note', async () => {
    for (const [jaw, scan] of [['Upper jaw', upper], ['Lower jaw', lower]] as const) {
      await markByMouse(jawOf(page, jaw), scan);
      await jawOf(page, jaw).getByRole('button', { name: 'Fit an arch' }).click();
      await jawOf(page, jaw).getByText(/^Fitted: /).waitFor({ timeout: 60_000 });
      expect(await jawOf(page, jaw).getByText(/^Fitted: /).innerText()).toMatch(/^Fitted: beta form; 0\.0\d\smm are left/);
      await jawOf(page, jaw).locator('.scan-differences .scan-view__surface[data-drawn=true]').waitFor();
    }
    await part(page).locator('.scan-notes tbody tr').first().waitFor({ timeout: 60_000 });
    for (const row of await part(page).locator('.scan-notes tbody tr').all()) {
      const apart = await row.locator('td').last().innerText();
      for (const degrees of apart.match(/[+−-]?\d+\.\d+(?=°)/g)!) expectWithin(Number(degrees.replace('−', '-')), 0, { abs: 0.25 }, await row.innerText());
    }
  });

  test('nothing wrong is found in it by axe, on paper and on the projector', async () => {
    expect(await axeFaults(page, WCAG_22_AA, '.scan-part')).toEqual([]);
    await page.evaluate(() => void (document.documentElement.dataset['theme'] = 'projector'));
    expect(await axeFaults(page, WCAG_22_AA, '.scan-part')).toEqual([]);
    await page.evaluate(() => void (document.documentElement.dataset['theme'] = 'paper'));
  });

  test('taken as the player’s arch it moves the angle; the rim rests on the scan, or on the arch', async () => {
    const before = await sentence(page);
    await part(page).getByRole('button', { name: 'Take it as the player’s arch' }).click();
    await part(page).getByText('Taken as the player’s arch.').waitFor();
    await part(page).getByText(/^The player’s arch is that of a scan: upper jaw, fitted to 0\.0\d\smm; lower jaw, fitted to 0\.0\d\smm\.$/).waitFor();
    await part(page).getByText(/The scan is kept in this browser \(\d/).waitFor();
    const onScan = await sentence(page);
    expect(onScan).not.toBe(before);
    // The picture says whose teeth it draws, and where the rim rests.
    await page.getByText(/^Drawn are generic teeth on the arch that was fitted to the scan, 0\.0\d\smm off it \(root mean square\); the rim rests on the scan itself\.$/).waitFor();
    // Into a file only where that is ticked.
    const save = async (): Promise<string> => {
      const [file] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: /^Save .+ as a file$/ }).click()]);
      return readFile(await file.path(), 'utf8');
    };
    const without = await save();
    expect(without).toContain('"scanned"');
    expect(without).not.toContain('"packed"');
    await page.getByLabel(/^put the scan of the teeth into the file too/).check();
    expect(await save()).toContain('"packed"');
    await part(page).getByLabel('the arch fitted to it').check();
    // Worked out between the page's other work, and then shown at once.
    await page.getByText(/^Drawn are generic teeth.+; the rim rests on that arch\.$/).waitFor();
    const onArch = await sentence(page);
    const angle = (words: string): number => Number(/(\d+\.\d)°/.exec(words)![1]);
    expectWithin(angle(onArch), angle(onScan), { abs: 0.3 }, 'swing on arch and scan');
    await part(page).getByLabel('the scan itself').check();
  });

  test('after a reload it is there again, and forgotten on request; the arch stays', async () => {
    await page.reload();
    await openPart(page);
    await part(page).getByLabel('the scan itself').waitFor({ timeout: 60_000 });
    expect(await part(page).getByLabel('the scan itself').isChecked()).toBe(true);
    await part(page).getByRole('button', { name: 'Forget the scan' }).click();
    await part(page).getByText('The scan itself is not kept in this browser').waitFor();
    expect(await page.evaluate(async () => (await indexedDB.databases()).map(({ name }) => name))).toContain('rimpath-scans');
    expect(await page.evaluate(() => new Promise<number>((resolve, reject) => {
      const opened = indexedDB.open('rimpath-scans');
      opened.onerror = () => reject(new Error('not opened'));
      opened.onsuccess = () => {
        const counted = opened.result.transaction('scans').objectStore('scans').count();
        counted.onsuccess = () => resolve(counted.result);
      };
    }))).toBe(0);
    await part(page).getByText(/^The player’s arch is that of a scan: upper jaw/).waitFor();
    expect(visit.consoleErrors).toEqual([]);
    expect(visit.foreignRequests).toEqual([]);
  });
});

describe('dropped', () => {
  let visit: Visit;
  let page: Page;
  beforeAll(async () => {
    visit = await openPage({ reducedMotion: 'reduce', webgl: false });
    page = visit.page;
    await openPart(page);
  });
  afterAll(() => visit.close());

  /** Readers at work. */
  const scanWorkers = (): number => page.workers().filter((worker) => worker.url().includes('scanWorker')).length;

  test('a long file is read elsewhere than on the page, and stopped in the middle: nothing is left of it', async () => {
    const jaw = jawOf(page, 'Upper jaw');
    // 90 MB of remarks: some seconds of reading, and no scan at its end.
    const transfer = await page.evaluateHandle(() => {
      const made = new DataTransfer();
      const piece = new Blob([`v 1 2 3\n${'#\n'.repeat(500_000)}`]);
      made.items.add(new File(Array.from({ length: 90 }, () => piece), 'long.obj'));
      return made;
    });
    await jaw.locator('.files-door').dispatchEvent('drop', { dataTransfer: transfer });
    await jaw.getByText(/^Reading long\.obj: [1-9]/).waitFor();
    expect(scanWorkers()).toBe(1);
    await jaw.getByRole('button', { name: 'Stop' }).click();
    await jaw.getByRole('button', { name: 'Choose the upper scan' }).waitFor();
    // A browser gives a worker that is at work a while to end by itself.
    await expect.poll(scanWorkers, { timeout: 30_000 }).toBe(0);
    expect(await jaw.getByRole('alert').count()).toBe(0);
    expect(await jaw.getByText('long.obj').count()).toBe(0);
  });

  test('a scan from the desk is opened where it is dropped, of two the first; put away, its worker ends', async () => {
    const jaw = jawOf(page, 'Upper jaw');
    const transfer = await page.evaluateHandle((text) => {
      const made = new DataTransfer();
      for (const name of ['dropped.stl', 'second.stl']) made.items.add(new File([Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0))], name));
      return made;
    }, Buffer.from(upper.bytes).toString('base64'));
    await jaw.locator('.files-door').dispatchEvent('drop', { dataTransfer: transfer });
    await jaw.getByText(`dropped.stl: ${upper.triangles.toLocaleString('en-GB')} triangles.`).waitFor();
    await jaw.locator('.scan-marking .scan-view__surface[data-drawn=true]').waitFor();
    expect(scanWorkers()).toBe(1);
    await jaw.getByRole('button', { name: 'Put this scan away' }).click();
    await expect.poll(() => page.evaluate(() => document.activeElement?.textContent)).toBe('Upper jaw');
    await expect.poll(scanWorkers, { timeout: 30_000 }).toBe(0);
    expect(visit.consoleErrors).toEqual([]);
    expect(visit.foreignRequests).toEqual([]);
  });
});

describe('by keys alone, at 390 px', () => {
  let visit: Visit;
  let page: Page;
  beforeAll(async () => {
    visit = await openPage({ reducedMotion: 'reduce', webgl: false, width: 390, height: 844 });
    page = visit.page;
  });
  afterAll(() => visit.close());

  test('three teeth are marked with the arrow keys, and the arch is fitted and taken', async () => {
    // In inches, so that the unit is told apart.
    const scan = madeScan('upper', 1 / 25.4);
    await page.getByText('Own arch: from a scan').focus();
    await page.keyboard.press('Enter');
    await part(page).waitFor();
    const jaw = jawOf(page, 'Upper jaw');
    await jaw.locator('input[type=file]').setInputFiles(stl('front.stl', scan.bytes));
    await jaw.locator('.scan-view__surface[data-drawn=true]').waitFor();
    // As a file of centimetres it would be as large as an arch too: the person says which.
    if (!(await jaw.getByLabel('inches').isChecked())) {
      await jaw.getByLabel('inches').focus();
      await page.keyboard.press('Space');
    }
    const canvas = (): Promise<{ width: number; height: number; dots: number }> =>
      jaw.locator('.scan-marking canvas').evaluate((element) => {
        const { width, height, clientWidth } = element as HTMLCanvasElement;
        return { width, height, dots: width / clientWidth };
      });
    const { width, height, dots } = await canvas();
    // The cross begins in the middle and stays where it was put last.
    let cross = { x: width / 2, y: height / 2 };
    for (const tooth of TEETH) {
      const at = toothPx(scan, tooth, { width, height });
      await jaw.locator('.scan-view__cross').focus();
      const steps = { x: Math.round((at.x - cross.x) / (5 * dots)), y: Math.round((at.y - cross.y) / (5 * dots)) };
      cross = { x: cross.x + steps.x * 5 * dots, y: cross.y + steps.y * 5 * dots };
      const walk = async (count: number, less: string, more: string): Promise<void> => {
        const key = count < 0 ? less : more;
        const size = Math.abs(count);
        for (let big = 0; big < Math.floor(size / 10); big++) await page.keyboard.press(`Shift+${key}`);
        for (let small = 0; small < size % 10; small++) await page.keyboard.press(key);
      };
      await walk(steps.x, 'ArrowLeft', 'ArrowRight');
      await walk(steps.y, 'ArrowUp', 'ArrowDown');
      await page.keyboard.press('Enter');
      await jaw.locator(`[data-tooth=${tooth}]`).waitFor();
    }
    await jaw.getByRole('button', { name: 'Fit an arch' }).focus();
    await page.keyboard.press('Enter');
    await jaw.getByText(/^Fitted: beta form/).waitFor({ timeout: 60_000 });
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(390);
    await part(page).getByRole('button', { name: 'Take it as the player’s arch' }).focus();
    await page.keyboard.press('Enter');
    await part(page).getByText(/^The player’s arch is that of a scan: upper jaw, fitted to \d\.\d\d\smm\.$/).waitFor();
    await page.getByText(/^Drawn are generic teeth on the arch that was fitted to the scan of the upper jaw, /).waitFor();
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(390);
    expect(visit.consoleErrors).toEqual([]);
  });

  test('files that cannot be used get their sentence, and nothing is lost', async () => {
    const jaw = jawOf(page, 'Lower jaw');
    const nan = Uint8Array.from(lower.bytes);
    new DataView(nan.buffer).setFloat32(84 + 12, NaN, true);
    const text = (words: string): Uint8Array => new TextEncoder().encode(words);
    const bad: readonly (readonly [string, Uint8Array, RegExp])[] = [
      ['half.stl', lower.bytes.subarray(0, lower.bytes.length / 2), /half\.stl: The end of the file is missing/],
      ['photo.stl', text('\x89PNG\r\n\x1a\n not a scan at all'), /photo\.stl: This is not a scan that can be read here/],
      ['words.stl', text(`solid ${'words '.repeat(200)}`), /words\.stl: The /],
      ['nan.stl', nan, /nan\.stl: A place in the file is no number/],
      ['empty.ply', text(''), /empty\.ply: The file is empty/],
    ];
    for (const [name, bytes, words] of bad) {
      await jaw.locator('input[type=file]').setInputFiles(stl(name, bytes));
      await jaw.getByRole('alert').filter({ hasText: words }).waitFor();
    }
    await part(page).getByText(/^The player’s arch is that of a scan: upper jaw/).waitFor();
    // A wrong name is no fault: what a file is shows in its content.
    await jaw.locator('input[type=file]').setInputFiles(stl('lower.obj', lower.bytes));
    await jaw.getByText('lower.obj:').waitFor();
    expect(visit.consoleErrors).toEqual([]);
  });
});
