import { appendFile, cp, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { preview, type PreviewServer } from 'vite';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { closeBrowsers, visit, type Visit } from './support/visit';

/** Any folder of any static host will do. */
const BASE = '/teaching/rimpath/';

let folder: string;
let server: PreviewServer | null = null;
let address: string;

beforeAll(async () => {
  expect((await fetch(inject('appAddress'))).ok).toBe(true);
  folder = await mkdtemp(join(tmpdir(), 'rimpath-offline-'));
  await cp(inject('appFolder'), folder, { recursive: true });
});

afterAll(async () => {
  await stop();
  await closeBrowsers();
  await rm(folder, { recursive: true, force: true });
});

describe('after the first visit', () => {
  it('everything opens with the network cut: the 3D stage, the notation, the findings, the measuring of films', async () => {
    const seen = await firstVisit({ webgl: true });
    try {
      await stop();
      await seen.page.reload();
      await seen.page.getByRole('heading', { level: 1, name: 'Rimpath' }).waitFor();
      await seen.page.locator('.stage canvas').first().waitFor();
      await seen.page.locator('.staff svg').first().waitFor();
      await seen.page.locator('#says').scrollIntoViewIfNeeded();
      await seen.page.locator('#says .finding, #says p').first().waitFor();
      await seen.page.locator('#measure').scrollIntoViewIfNeeded();
      await seen.page.locator('#measure input[type="file"]').first().waitFor({ state: 'attached' });
      expect(await seen.page.locator('.note', { hasText: 'can no longer be fetched' }).count()).toBe(0);
      const offline = seen.page.locator('#offline');
      await offline.getByText('it opens and works here without a network').waitFor();
      // The browser's offer, which it makes to people only.
      expect(await offline.getByRole('button').count()).toBe(0);
      await seen.page.evaluate(() => {
        const offer = new Event('beforeinstallprompt', { cancelable: true });
        window.dispatchEvent(Object.assign(offer, { prompt: () => Promise.resolve(((window as { asked?: boolean }).asked = offer.defaultPrevented)) }));
      });
      await offline.getByRole('button', { name: 'Install it as an app…' }).click();
      expect(await seen.page.evaluate(() => (window as { asked?: boolean }).asked)).toBe(true);
      expect(await offline.getByRole('button').count()).toBe(0);
      expect(seen.foreignRequests).toEqual([]);
    } finally {
      await seen.close();
    }
  });

  it('what was entered without a network is there at the next opening without one', async () => {
    const seen = await firstVisit({ webgl: false });
    try {
      await stop();
      await seen.page.reload();
      await seen.page.getByRole('button', { name: 'Start your own player' }).click();
      await seen.page.locator('#player-label').fill('Without a network');
      await seen.page.locator('#player-label').blur();
      await seen.page.reload();
      await expect.poll(() => seen.page.locator('#player-label').inputValue(), { timeout: 60_000 }).toBe('Without a network');
    } finally {
      await seen.close();
    }
  });

  it('a newer version is announced, starts nothing by itself, and starts when told', async () => {
    const seen = await firstVisit({ webgl: false });
    try {
      await seen.page.locator('#player-label').waitFor();
      await seen.page.evaluate(() => ((window as { thisPage?: boolean }).thisPage = true));
      await putUpNewerVersion();
      await seen.page.evaluate(async () => (await navigator.serviceWorker.getRegistration())?.update());
      const start = seen.page.getByRole('button', { name: 'Start it now' });
      await start.waitFor();
      expect(await seen.page.evaluate(() => (window as { thisPage?: boolean }).thisPage)).toBe(true);
      expect(await seen.page.title()).toBe('Rimpath');
      await start.click();
      await expect.poll(() => seen.page.title(), { timeout: 60_000 }).toBe('Rimpath, newer');
    } finally {
      await seen.close();
    }
  });
});

describe('where the network fails before everything is put by', () => {
  it.each(['SharePane', 'SaysPane', 'MeasurePane', 'BesidePart', 'FlatStage', 'pictureLink'])('%s is missed in words, and costs nothing else', async (part) => {
    await start();
    const seen = await visit(`${address}#see1=abc`, { reducedMotion: 'reduce', webgl: false, before: without(part) });
    try {
      await seen.page.locator('.note', { hasText: 'A part of this page can no longer be fetched' }).waitFor();
      await seen.page.locator('.sentence').waitFor();
      // A choice that has not come is only not there; a link that cannot be read is told over the page.
      if (part === 'pictureLink') await seen.page.getByRole('alert').getByText('What reads links could not be fetched').waitFor();
      else if (part !== 'BesidePart') await seen.page.getByText('This part cannot be shown').waitFor();
      await seen.page.locator('#player-label').fill('Goes on');
      await seen.page.getByText('The last change is kept in this browser.').first().waitFor();
    } finally {
      await seen.close();
    }
  });

  it('the picture in the round, in whose place the flat one stands; nobody says that the browser had none', async () => {
    await start();
    const seen = await visit(address, { reducedMotion: 'reduce', before: without('three') });
    try {
      await seen.page.locator('.stage-flat .stage-message').getByText('The graphics stopped; the flat drawing stands in.').waitFor();
    } finally {
      await seen.close();
    }
  });

  it('the class view too, and the page comes back', async () => {
    await start();
    const seen = await visit(address, { reducedMotion: 'reduce', webgl: false, before: without('ClassView') });
    try {
      await seen.page.getByRole('button', { name: 'Class view' }).click();
      await seen.page.getByText('This part cannot be shown').waitFor();
      await seen.page.getByRole('button', { name: 'Close' }).click();
      await seen.page.locator('.sentence').waitFor();
    } finally {
      await seen.close();
    }
  });

  it.each([['OwnArchPane', 'Own arch: with a ruler'], ['ScanPane', 'Own arch: from a scan']])('%s, which is fetched when it is opened, and the page stays', async (part, summary) => {
    await start();
    const seen = await visit(address, { reducedMotion: 'reduce', webgl: false, before: without(part) });
    try {
      const opened = seen.page.locator('summary', { hasText: summary });
      await opened.click();
      await opened.locator('..').getByText('This part cannot be shown').waitFor();
      await seen.page.locator('#player-label').fill('Goes on');
      await seen.page.getByText('The last change is kept in this browser.').first().waitFor();
    } finally {
      await seen.close();
    }
  });

  it('what reads and writes tables and exercises: nothing is saved, taken in or pasted, and that is said', async () => {
    await start();
    const seen = await visit(address, { reducedMotion: 'reduce', webgl: false, before: without('(readingsTable|exerciseMidi)') });
    const { page } = seen;
    try {
      await page.locator('.readings-files > summary').click();
      await page.getByRole('button', { name: 'Save as a table (CSV)' }).click();
      const said = page.locator('.readings-files [role="status"]');
      await said.getByText('What is needed for this could not be fetched.').waitFor();
      await page.getByLabel('Exercise file').setInputFiles({ name: 'scale.mid', mimeType: 'audio/midi', buffer: Buffer.from('MThd') });
      await said.getByText('scale.mid: what reads it could not be fetched').waitFor();
      await page.getByLabel('Table of readings').setInputFiles({ name: 'mine.csv', mimeType: 'text/csv', buffer: Buffer.from('note') });
      await said.getByText('Not taken in. What is needed for this could not be fetched.').waitFor();
      await page.locator('.readings td input').first().evaluate((cell: HTMLInputElement) => {
        cell.focus();
        const clipboardData = new DataTransfer();
        clipboardData.setData('text', 'B\u266d2\t1\nF3\t2');
        cell.dispatchEvent(new ClipboardEvent('paste', { clipboardData, bubbles: true, cancelable: true }));
      });
      await page.getByRole('alert').getByText('Nothing was pasted').waitFor();
      expect(seen.consoleErrors.filter((words) => words.includes('dynamically imported'))).toEqual([]);
    } finally {
      await seen.close();
    }
  });

  it('a language: the page is in English and says so', async () => {
    await start();
    const seen = await visit(`${address}?language=de`, { reducedMotion: 'reduce', webgl: false, before: without('german') });
    try {
      await seen.page.getByText('could not be fetched, so the page is in English').waitFor();
      expect(await seen.page.locator('html').getAttribute('lang')).toBe('en');
    } finally {
      await seen.close();
    }
  });
});

const without = (part: string) => async (page: Page): Promise<void> => void (await page.route(new RegExp(`/assets/${part}-`), (route) => route.abort('internetdisconnected')));

it('can be installed: a manifest with a name, a start and icons of the sizes it states', async () => {
  await start();
  const manifestAddress = new URL('manifest.webmanifest', address);
  const manifest = (await (await fetch(manifestAddress)).json()) as {
    name: string;
    display: string;
    start_url: string;
    icons: { src: string; sizes: string; purpose?: string }[];
  };
  expect([manifest.name, manifest.display]).toEqual(['Rimpath', 'standalone']);
  expect(new URL(manifest.start_url, manifestAddress).href).toBe(address);
  for (const icon of manifest.icons) {
    const bytes = Buffer.from(await (await fetch(new URL(icon.src, manifestAddress))).arrayBuffer());
    // The width and height in the header of a PNG (ISO/IEC 15948, IHDR).
    expect(`${bytes.readUInt32BE(16)}x${bytes.readUInt32BE(20)}`).toBe(icon.sizes);
  }
  expect(manifest.icons.some((icon) => icon.purpose === 'maskable')).toBe(true);
});

/** A first visit, until everything is put by and the page is served from there; in three dimensions only where that is looked at. */
async function firstVisit({ webgl }: { readonly webgl: boolean }): Promise<Visit> {
  await start();
  const seen = await visit(address, { serviceWorkers: 'allow', reducedMotion: 'reduce', webgl });
  await seen.page.waitForFunction(() => navigator.serviceWorker.controller?.state === 'activated');
  return seen;
}

async function start(): Promise<void> {
  if (server !== null) return;
  const port = address === undefined ? 0 : Number(new URL(address).port);
  server = await preview({
    configFile: false,
    root: folder,
    base: BASE,
    build: { outDir: folder },
    preview: { host: '127.0.0.1', port, strictPort: port !== 0, open: false },
    logLevel: 'silent',
  });
  address = `http://127.0.0.1:${(server.httpServer.address() as AddressInfo).port}${BASE}`;
}

async function stop(): Promise<void> {
  if (server === null) return;
  const closing = server;
  server = null;
  (closing.httpServer as { closeAllConnections?: () => void }).closeAllConnections?.();
  await closing.close();
}

/** As if another build had been laid on the server: another page, and so another worker. */
async function putUpNewerVersion(): Promise<void> {
  const page = join(folder, 'index.html');
  await writeFile(page, (await readFile(page, 'utf8')).replace('<title>Rimpath</title>', '<title>Rimpath, newer</title>'));
  const worker = join(folder, 'sw.js');
  const text = await readFile(worker, 'utf8');
  const newer = text.replace(/(url:"index\.html",revision:")[0-9a-f]+/, '$1newer');
  expect(newer).not.toBe(text);
  await writeFile(worker, newer);
  await appendFile(worker, '\n// newer\n');
}
