/** Pictures, short films and their sound, made with the app's own code in a small page and read back. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { expectWithin } from '../support/expectWithin';
import type { ReadFilm } from './picturesPage/page';
import { type ServedPage, servePage } from './support/servePage';
import { type Visit, closeBrowsers, visit } from './support/visit';

let served: ServedPage;
let opened: Visit;
let page: Page;
beforeAll(async () => {
  served = await servePage('picturesPage');
  opened = await visit(served.address, { width: 800, height: 600 });
  page = opened.page;
  await page.waitForFunction('window.formats !== undefined');
});
afterAll(async () => {
  await closeBrowsers();
  await served.close();
});

/** 1.2 s at ten frames a second. */
const FRAMES = 12;

function expectFilm(film: ReadFilm, type: string): void {
  expect(film.type).toContain(type);
  expect([film.width, film.height]).toEqual([480, 270]);
  expect(film.timesS.length).toBe(FRAMES);
  // A WebM keeps whole milliseconds.
  film.timesS.forEach((timeS, frame) => expectWithin(timeS, frame / 10, { abs: 0.001 }, `time of frame ${frame}`));
  expect(film.change).toBeGreaterThan(1);
}

/** Each frame is the picture of its own moment, as far as the encoder keeps it, and not that of another. */
function expectMoments(film: ReadFilm): void {
  const [[first, firstFromLast], [lastFromFirst, last]] = film.differences as [[number, number], [number, number]];
  expect(first).toBeLessThan(0.6 * firstFromLast);
  expect(last).toBeLessThan(0.6 * lastFromFirst);
}

describe('a film', () => {
  test('this browser writes films, and says which', async () => {
    const formats = await page.evaluate(() => window.formats());
    expect(formats.length).toBeGreaterThan(0);
    for (const { container, video } of formats) expect([container, container === 'mp4' ? video === 'avc' : video.startsWith('vp')]).toEqual([container, true]);
  });

  test('of the stage, with its sound: every frame at its time', async () => {
    const film = await page.evaluate(() => window.film(false, 'webm', true));
    expectFilm(film, 'video/webm');
    // The encoder rounds the end up to a whole packet.
    expectWithin(film.soundS!, 1.2, { abs: 0.05 }, 'sound');
    expect(film.loudest).toBeGreaterThan(0.05);
    expect(film.loudest).toBeLessThan(0.5);
  });

  test('of the flat drawing, silent, in every format: every frame is drawn for its moment', async () => {
    const formats = await page.evaluate(() => window.formats());
    for (const { container } of formats) {
      const film = await page.evaluate((kind) => window.film(true, kind, false), container);
      expectFilm(film, `video/${container}`);
      expectMoments(film);
      expect(film.soundS).toBeNull();
    }
  });

  test('that is stopped leaves nothing behind', async () => {
    expect(await page.evaluate(() => window.stoppedFilm())).toEqual({ made: false, parts: 3, left: 0 });
  });
});

describe('a picture', () => {
  test('of the flat drawing as PNG has its size and is not blank', async () => {
    const png = await page.evaluate(() => window.flatPng());
    expect([png.width, png.height]).toEqual([480, 270]);
    expect(png.colours).toBeGreaterThan(60);
    expect(png.captionColours).toBeGreaterThan(10);
  });

  test('of the stage as PNG has its size and is not blank, and as in a mirror it is the other way round', async () => {
    const seen = await page.evaluate(() => window.facePngs());
    expect([seen.width, seen.height]).toEqual([480, 270]);
    expect(seen.colours).toBeGreaterThan(60);
    // Labels are turned by no mirror, so the two differ by these.
    expect(seen.fromTurnedFace).toBeLessThan(0.5 * seen.fromFace);
  });

  test('as SVG is whole markup that needs nothing else, its words as words', async () => {
    const source = await page.evaluate(() => window.svg());
    const read = await page.evaluate((text) => {
      const parsed = new DOMParser().parseFromString(text, 'image/svg+xml');
      const root = parsed.documentElement;
      return {
        faults: parsed.querySelectorAll('parsererror').length,
        name: root.nodeName,
        drawings: root.querySelectorAll('svg').length,
        paths: root.querySelectorAll('path').length,
        words: [...root.querySelectorAll('text')].map((one) => one.textContent).join(' '),
        fonts: root.getAttribute('font-family'),
        named: root.querySelectorAll('[class], [id]').length,
      };
    }, source);
    expect(read).toMatchObject({ faults: 0, name: 'svg', drawings: 2, named: 0 });
    expect(read.paths).toBeGreaterThan(30);
    expect(read.words).toMatch(/^<\d+> Invented The rim is .* up & aside\.$/);
    expect(read.fonts).toMatch(/Source Sans 3.*sans-serif$/);
    expect(source).not.toMatch(/href|url\(|var\(|@import|<script|<style|foreignObject/);
  });
});

test('the sound of fourteen seconds is made in pieces', async () => {
  const { seconds, longestTaskMs } = await page.evaluate(() => window.sound());
  expectWithin(seconds, 12.3, { abs: 1e-6 });
  // Pieces are of 12 ms; a busy machine may let other work in between.
  expect(longestTaskMs).toBeLessThan(1000);
  expect(opened.consoleErrors).toEqual([]);
  expect(opened.foreignRequests).toEqual([]);
});
