/** Sharing without a server: a link opened by somebody else, its code read from the projector's own dots, and one file from a disk without a network. */
import { createCanvas, loadImage } from '@napi-rs/canvas';
import readCode from 'jsqr';
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { gzipSync } from 'node:zlib';
import type { Page } from 'playwright-core';
import { afterAll, describe, expect, inject, test } from 'vitest';
import { WITH_GOOD_PRACTICE, axeFaults } from './support/axe';
import { type Visit, openPage } from './support/chromium';
import { visit as visitAddress } from './support/visit';

const STILL = { reducedMotion: 'reduce', webgl: false } as const;
const folder = mkdtempSync(join(tmpdir(), 'rimpath-share-'));
afterAll(() => rm(folder, { recursive: true, force: true }));

const label = (page: Page) => page.locator('#player-label');
const ready = (page: Page): Promise<void> => page.locator('.sentence').waitFor();
const band = (page: Page) => page.getByRole('region', { name: 'Shared with you' });
const refusal = (page: Page) => page.getByRole('region', { name: 'Not shown' });
const link = (page: Page): Promise<string> => page.locator('.share-link').inputValue();
const sentence = async (page: Page): Promise<string> => (await page.locator('.sentence').innerText()).replaceAll(/ ± [\d.]+°/g, '');

async function open(path = '', size: { readonly width?: number; readonly height?: number } = {}): Promise<Visit> {
  const visit = await openPage({ ...STILL, path, ...size });
  await ready(visit.page);
  return visit;
}

/** All that is kept, as it stands in the browser's store and in its small storage. */
const kept = (page: Page): Promise<string> =>
  page.evaluate(
    () =>
      new Promise<string>((done, failed) => {
        const request = indexedDB.open('rimpath');
        request.onerror = () => failed(new Error('the store did not open'));
        request.onsuccess = () => {
          const all = request.result.transaction('players').objectStore('players').getAll();
          all.onsuccess = () => {
            request.result.close();
            done(JSON.stringify([all.result, localStorage.getItem('rimpath.page.1')]));
          };
        };
      }),
  );

async function codeOn(page: Page): Promise<string | null> {
  const image = await loadImage(await page.screenshot());
  const canvas = createCanvas(image.width, image.height);
  canvas.getContext('2d').drawImage(image, 0, 0);
  const { data } = canvas.getContext('2d').getImageData(0, 0, image.width, image.height);
  return readCode(new Uint8ClampedArray(data), image.width, image.height)?.data ?? null;
}

function expectQuiet({ consoleErrors, foreignRequests }: Visit): void {
  expect(consoleErrors).toEqual([]);
  expect(foreignRequests).toEqual([]);
}

describe('a link', () => {
  test('shows the picture elsewhere, leaves what is kept there alone, and leads back or is kept', async () => {
    const giver = await open();
    await giver.page.getByRole('radio', { name: 'from the side' }).check({ force: true });
    await giver.page.getByRole('radio', { name: 'held still', exact: true }).check({ force: true });
    await giver.page.locator('.number-field--large input').first().fill('2.75');
    await label(giver.page).fill('Nobody’s business');
    await giver.page.waitForFunction(() => document.querySelector('.share-link') !== null);
    const said = await sentence(giver.page);
    await expect.poll(() => link(giver.page)).toContain('#see1=');
    const address = await link(giver.page);
    expect(address.startsWith(`${inject('appAddress')}#see1=`)).toBe(true);
    expect(giver.requests.filter((one) => one.includes('see1'))).toEqual([]);

    const taker = await open();
    const { page } = taker;
    await page.getByRole('button', { name: 'Start your own player' }).click();
    await label(page).fill('My own');
    await page.getByText('The last change is kept in this browser.').first().waitFor();
    // The page's own notes follow a moment after.
    await page.waitForTimeout(600);
    const before = await kept(page);
    // While the page is open: nothing is loaded anew.
    await page.evaluate((to) => (window.location.hash = new URL(to).hash), address);
    await band(page).waitFor();
    expect(await sentence(page)).toBe(said);
    expect(await label(page).inputValue()).toBe('Shared picture');
    expect(await page.getByRole('radio', { name: 'from the side' }).isChecked()).toBe(true);
    expect(await page.getByRole('radio', { name: 'held still', exact: true }).isChecked()).toBe(true);
    await label(page).fill('Changed in passing');
    await page.reload();
    await band(page).waitFor();
    expect(await sentence(page)).toBe(said);
    expect(await kept(page)).toBe(before);

    await band(page).getByRole('button', { name: 'Back to my own' }).click();
    await page.waitForFunction(() => document.querySelector<HTMLInputElement>('#player-label')?.value === 'My own');
    expect(new URL(page.url()).hash).toBe('');
    await band(page).getByRole('button', { name: 'Show it again' }).click();
    await page.waitForFunction(() => document.querySelector<HTMLInputElement>('#player-label')?.value === 'Shared picture');
    await band(page).getByRole('button', { name: 'Keep as my own' }).click();
    await band(page).waitFor({ state: 'detached' });
    await page.reload();
    await ready(page);
    expect(await label(page).inputValue()).toBe('Shared picture');
    expect(await page.locator('#lessons .kept-list__name').allInnerTexts()).toEqual(expect.arrayContaining(['My own']));
    for (const one of [giver, taker]) {
      expectQuiet(one);
      await one.close();
    }
  });

  test('that is damaged, foreign or newer opens the page as usual and says why', async () => {
    for (const [hash, words] of [
      ['#see1=MkSFEO2Y0Q2AIAxEZ9L', 'This link is not whole: it was cut off or changed on its way.'],
      ['#see7=abc', 'This link was made by a newer version of this program'],
      ['#/some/route?x=1', 'What stands behind the # of this address is no picture of this program.'],
    ] as const) {
      const visit = await open(hash, { width: 390, height: 844 });
      expect(await refusal(visit.page).innerText()).toContain(words);
      // Seen at once, on a phone too.
      expect((await refusal(visit.page).boundingBox())!.y).toBeLessThan(300);
      if (hash.startsWith('#see7')) expect(await axeFaults(visit.page, WITH_GOOD_PRACTICE)).toEqual([]);
      expect(await band(visit.page).count()).toBe(0);
      expect(await label(visit.page).inputValue()).toBe('Invented player, pushes up');
      await refusal(visit.page).getByRole('button', { name: 'Close' }).click();
      await refusal(visit.page).waitFor({ state: 'detached' });
      expectQuiet(visit);
      await visit.close();
    }
  });

  test('opened while a number is being typed takes nothing of it over, and gives nothing back', async () => {
    const giver = await open();
    const { hash } = new URL(await link(giver.page));
    const home = (page: Page) => page.locator('#player').getByLabel('Home place, up');
    const shared = await home(giver.page).inputValue();
    await giver.close();
    const visit = await open();
    const { page } = visit;
    await page.getByRole('button', { name: 'Start your own player' }).click();
    await label(page).fill('My own');
    for (const typed of ['7', '12,x']) {
      await home(page).fill(typed);
      await page.evaluate((to) => (window.location.hash = to), hash);
      await band(page).waitFor();
      await expect.poll(() => home(page).inputValue()).toBe(shared);
      await page.keyboard.press('Escape');
      expect(await home(page).inputValue()).toBe(shared);
      await band(page).getByRole('button', { name: 'Back to my own' }).click();
      await page.waitForFunction(() => document.querySelector<HTMLInputElement>('#player-label')?.value === 'My own');
      // What could be read is kept, what could not is gone with the field.
      expect(await home(page).inputValue()).toBe('7');
    }
    expectQuiet(visit);
    await visit.close();
  });

  test('names nobody unless it is ticked, and one player’s tick is not the next one’s', async () => {
    const visit = await open();
    const { page } = visit;
    await label(page).fill('Anna B.');
    const tick = page.locator('#share').getByLabel('label and day');
    await tick.check();
    await expect.poll(() => page.locator('#share-link').innerText()).not.toContain('No label');
    const named = await link(page);
    await page.getByRole('button', { name: 'Start your own player' }).click();
    await page.waitForFunction(() => document.querySelector<HTMLInputElement>('#player-label')?.value === 'New player');
    expect(await tick.isChecked()).toBe(false);
    const other = await open(new URL(named).hash);
    expect(await label(other.page).inputValue()).toBe('Anna B.');
    for (const one of [visit, other]) {
      expectQuiet(one);
      await one.close();
    }
  });

  test('is copied, and where the browser does not allow it stands marked in its field', async () => {
    const visit = await open();
    const { page } = visit;
    await page.context().grantPermissions(['clipboard-read', 'clipboard-write']);
    await page.getByRole('button', { name: 'Copy the link' }).click();
    await page.locator('#share-link').getByText('The link is copied.').waitFor();
    expect(await page.evaluate(() => navigator.clipboard.readText())).toBe(await link(page));
    await page.evaluate(() => {
      navigator.clipboard.writeText = () => Promise.reject(new Error('no'));
      document.execCommand = () => false;
    });
    await page.getByRole('button', { name: 'Copy the link' }).click();
    await page.getByText('copy it from there').waitFor();
    expect(await page.evaluate(() => getSelection()?.toString())).toBe(await link(page));
    expectQuiet(visit);
    await visit.close();
  });
});

describe('the code of a link', () => {
  test('is shown large by keys alone, read from the projector’s own dots, and closed by Escape', async () => {
    const visit = await open();
    const { page } = visit;
    for (const theme of ['Paper', 'Projector'] as const) {
      await page.getByRole('radio', { name: theme }).check({ force: true });
      await page.getByRole('button', { name: 'Show the code large' }).focus();
      await page.keyboard.press('Enter');
      const shown = page.getByRole('dialog', { name: 'The code of the link' });
      await shown.waitFor();
      for (const [width, height] of [[1920, 1080], [1280, 720], [390, 844]] as const) {
        await page.setViewportSize({ width, height });
        expect(await codeOn(page), `${theme} ${width}`).toBe(await link(page));
        const box = (await shown.locator('.link-code').boundingBox())!;
        // As large as the window lets it be, its words no smaller than what is read from the last row.
        expect(Math.min(box.width, box.height)).toBeGreaterThan(0.8 * Math.min(width, height));
        expect(await shown.locator('p').evaluate((words) => Number.parseFloat(getComputedStyle(words).fontSize))).toBeGreaterThanOrEqual(24);
        expect(await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)).toBeLessThanOrEqual(0);
      }
      expect(await axeFaults(page, WITH_GOOD_PRACTICE)).toEqual([]);
      await page.keyboard.press('Escape');
      await shown.waitFor({ state: 'detached' });
      expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('Show the code large');
      await page.setViewportSize({ width: 1440, height: 900 });
    }
    expectQuiet(visit);
    await visit.close();
  });

  test('of more than a room can read is not shown; a shorter one is offered', async () => {
    const visit = await open();
    const { page } = visit;
    await page.locator('#share').getByLabel('remarks and what to try').check();
    await page.locator('#hand-out').getByLabel('What to try').fill(Array.from({ length: 480 }, (_, at) => String.fromCodePoint(0x4e00 + ((at * 7919) % 9000))).join(''));
    await page.locator('#share-link').getByText('too fine to be read across a room').waitFor();
    expect(await page.locator('#share-link .link-code').count()).toBe(0);
    const shorter = page.locator('.share-shorter');
    await shorter.getByRole('button', { name: 'Only the chosen note and home' }).click();
    // The words are still in it: now they are all that can be left out.
    await expect.poll(() => shorter.getByRole('button').allInnerTexts()).toEqual(['Leave out what is ticked']);
    await shorter.getByRole('button').click();
    await page.locator('#share-link .link-code').waitFor();
    expect(await page.locator('#share').getByLabel('remarks and what to try').isChecked()).toBe(false);
    await page.locator('#share-link .link-code').scrollIntoViewIfNeeded();
    expect(await codeOn(page)).toBe(await link(page));
    expectQuiet(visit);
    await visit.close();
  });
});

describe('while a shared picture is shown', () => {
  test.each(['Paper', 'Projector'])('axe finds nothing in the %s theme, and nothing is wider than the window', async (theme) => {
    const giver = await open();
    const { hash } = new URL(await link(giver.page));
    await giver.close();
    const visit = await open(hash);
    const { page } = visit;
    await page.getByRole('radio', { name: theme }).check({ force: true });
    // The last is 1440 × 900 at 200 %.
    for (const [width, height] of [[390, 844], [720, 450]] as const) {
      await page.setViewportSize({ width, height });
      expect(await axeFaults(page, WITH_GOOD_PRACTICE)).toEqual([]);
      expect(await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)).toBeLessThanOrEqual(0);
    }
    expectQuiet(visit);
    await visit.close();
  });
});

describe('one file', () => {
  const LARGEST_GZIPPED_BYTES = 1_500_000;

  async function saveFile(page: Page, name: string): Promise<string> {
    const coming = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Save as one file' }).click();
    const download = await coming;
    expect(download.suggestedFilename()).toMatch(/^rimpath-picture-\d{4}-\d{2}-\d{2}\.html$/);
    const path = join(folder, name);
    await download.saveAs(path);
    return path;
  }

  /** From the disk, the network cut. */
  async function openFile(path: string, options = {}): Promise<Visit> {
    const visit = await visitAddress(pathToFileURL(path).href, { webgl: false, before: (page) => page.context().setOffline(true), ...options });
    await ready(visit.page);
    return visit;
  }

  test('opens from a disk without a network to a moving path, works things out, keeps, and saves another', async () => {
    const giver = await open();
    await label(giver.page).fill('Not in it');
    await giver.page.locator('#share').getByLabel('remarks and what to try').check();
    // What would end the element that holds it, or run, if it were not put in as data.
    const hostile = '</script><script>window.broken = true</script><!--<img src=x onerror="window.broken = true">';
    await giver.page.locator('#hand-out').getByLabel('What to try').fill(hostile);
    await expect.poll(() => link(giver.page).then((one) => one.length)).toBeGreaterThan(400);
    const path = await saveFile(giver.page, 'first.html');
    const bytes = readFileSync(path);
    const gzipped = gzipSync(bytes, { level: 9 }).length;
    expect(gzipped).toBeLessThan(LARGEST_GZIPPED_BYTES);
    expect(bytes.toString()).not.toContain('Not in it');
    expectQuiet(giver);
    await giver.close();

    const taker = await openFile(path);
    const { page } = taker;
    await band(page).getByText('This file holds a picture that was saved for you.').waitFor();
    expect(await page.locator('.transport__play').innerText()).toBe('Pause');
    const now = (): Promise<string> => page.locator('.shown-row__now').innerText();
    const first = await now();
    await expect.poll(now).not.toBe(first);
    await page.locator('.transport__play').click();
    // Its workers are in it too.
    await page.locator('#says-line').waitFor();
    expect(await page.locator('#hand-out').getByLabel('What to try').inputValue()).toBe(hostile);
    expect(await page.evaluate('window.broken')).toBeUndefined();
    expect(await page.locator('#measure').innerText()).toContain('left out of it');
    expect(await page.locator('#share-link').innerText()).toContain('it has no address of its own');
    const policy = await page.locator('meta[http-equiv="Content-Security-Policy"]').getAttribute('content');
    expect(policy).toMatch(/^default-src 'none'; script-src 'sha256-[^']+';/);
    expect(policy).not.toMatch(/unsafe-eval|https?:|\*/);
    await page.evaluate(() => document.body.append(Object.assign(document.createElement('script'), { textContent: 'window.broken = true' })));
    expect(await page.evaluate('window.broken')).toBeUndefined();

    await page.locator('.number-field--large input').first().fill('1.25');
    const said = await sentence(page);
    await expect.poll(async () => readFileSync(await saveFile(page, 'second.html'), 'utf8').includes('1.25')).toBe(true);
    await band(page).getByRole('button', { name: 'Keep as my own' }).click();
    await band(page).waitFor({ state: 'detached' });
    expect(await page.locator('#lessons .kept-list__name').allInnerTexts()).toContain('Shared picture (open)');
    // The one that was put in by the test, which the policy refused.
    expect(taker.consoleErrors.filter((words) => !words.includes('Content Security Policy'))).toEqual([]);
    expect(taker.requests.filter((one) => !/^(file|blob|data):/.test(one))).toEqual([]);
    await taker.close();

    const second = await openFile(join(folder, 'second.html'), { reducedMotion: 'reduce' });
    expect(await sentence(second.page)).toBe(said);
    expect(second.consoleErrors).toEqual([]);
    await second.close();
  });

  test('in a browser that keeps nothing for pages from a disk works, and says so', async () => {
    const giver = await open();
    const path = await saveFile(giver.page, 'nowhere.html');
    await giver.close();
    const nowhere = `for (const name of ['indexedDB', 'localStorage']) Object.defineProperty(window, name, { get() { throw new DOMException('no', 'SecurityError'); } })`;
    const visit = await openFile(path, { reducedMotion: 'reduce', before: async (page: Page) => void (await page.addInitScript(nowhere)) });
    const { page } = visit;
    await band(page).getByText('The browser keeps nothing for it').waitFor();
    await band(page).getByRole('button', { name: 'Keep as my own' }).click();
    await page.locator('.notebook > .keeping--warns').getByText('nothing is kept: save a file before you close').waitFor();
    await page.locator('.number-field--large input').first().fill('1.5');
    expect(await sentence(page)).toContain('1.5\u00a0mm up');
    expect(visit.consoleErrors).toEqual([]);
    await visit.close();
  });

  test('whose picture was spoilt opens as the page does, and says why', async () => {
    const giver = await open();
    const path = await saveFile(giver.page, 'whole.html');
    await giver.close();
    const spoilt = join(folder, 'spoilt.html');
    writeFileSync(spoilt, readFileSync(path, 'utf8').replace('"rimpath-picture"', '"something-else"'));
    const visit = await openFile(spoilt, { reducedMotion: 'reduce' });
    expect(await refusal(visit.page).innerText()).toContain('The picture in this file cannot be read (format: "something-else"; allowed: "rimpath-picture").');
    expect(await band(visit.page).count()).toBe(0);
    expect(visit.consoleErrors).toEqual([]);
    await visit.close();
  });
});
