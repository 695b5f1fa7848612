/** The hand-out printed to PDF, drawn again from the PDF and looked at; figures saved as files. */
import { readFileSync } from 'node:fs';
import { createCanvas, loadImage } from '@napi-rs/canvas';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { CAUTIONS } from '../../src/print/cautionWords';
import { FIGURE_WIDTHS_MM, PAPERS, type Paper } from '../../src/print/paper';
import { expectWithin } from '../support/expectWithin';
import { axeFaults } from './support/axe';
import { servePage, type ServedPage } from './support/servePage';
import { inkPart, lookAtPdf, type LookedAtPdf } from './support/pdf';
import { closeBrowsers, visit, type Visit } from './support/visit';

let served: ServedPage;
beforeAll(async () => {
  served = await servePage('handOutPage');
});
afterAll(async () => {
  await closeBrowsers();
  await served.close();
});

async function open(query: string, width = 900): Promise<Visit> {
  const opened = await visit(`${served.address}?${query}`, { width, webgl: false });
  await opened.page.locator('[data-figure=above] svg').waitFor();
  if (!query.includes('player=none')) await opened.page.locator('.printed-staff [data-index]').first().waitFor({ state: 'attached' });
  return opened;
}

async function printed(opened: Visit, paper: Paper): Promise<LookedAtPdf> {
  await opened.page.locator(`input[value=${paper}]`).check({ force: true });
  return lookAtPdf(await opened.page.pdf({ preferCSSPageSize: true }), DOTS_PER_INCH);
}

const DOTS_PER_INCH = 150;
/** The browser rounds A4 to whole points, and text boxes to their own grid. */
const PAGE_MM = { abs: 0.3 };
const LONG_TRY = 'Let the horn come up with the rim, and look at the tuner only at the end. '.repeat(30);
const HOSTILE = '<script>window.broken = true</script><img src=x onerror="window.broken = true">'.repeat(3).slice(0, 200);

const players = [
  ['up', 'player=up&bands', ['F3', 'D4', 'Invented player, pushes up', 'Trumpet in B flat']],
  ['tuba', 'player=tuba&bands', ['F1', 'Invented tuba player', 'head']],
  ['one', 'player=one', ['F4']],
  ['none', 'player=none', ['No notes have been written down yet.']],
  ['many', `player=many&bands&findings&label=${encodeURIComponent(HOSTILE)}&try=${encodeURIComponent(LONG_TRY)}`, ['E3', 'G4', '<script>window.broken']],
  ['widest', `player=widest&bands&findings&label=${'W'.repeat(200)}&try=${encodeURIComponent('Try.\n'.repeat(40))}`, ['C2', 'are not on this sheet', 'left out']],
] as const;

describe.each(players)('player %s', (_name, query, expected) => {
  test.each(['a4', 'letter'] as const)('is one page of %s with everything on it', async (paper) => {
    const size = PAPERS[paper];
    const opened = await open(query);
    const { pages, texts, picture } = await printed(opened, paper);
    expect(pages.length).toBe(1);
    const [page] = pages as [(typeof pages)[number]];
    expectWithin(page.widthMm, size.widthMm, PAGE_MM, 'width');
    expectWithin(page.heightMm, size.heightMm, PAGE_MM, 'height');

    const text = texts.map((one) => one.text).join(' ').replace(/\s+/gu, ' ');
    const inOneRun = text.replaceAll(' ', '');
    for (const words of [...expected, ...Object.values(CAUTIONS), '1 March 2026', 'What to try']) {
      expect(inOneRun).toContain(words.replaceAll(' ', ''));
    }
    expect(text).not.toContain('Not to be printed');
    expect(text).not.toContain('Save as');

    for (const one of texts) {
      expect([one.text, one.leftMm >= size.besideMm - 0.3, one.rightMm <= size.widthMm - size.besideMm + 0.3]).toEqual([one.text, true, true]);
      expect([one.text, one.baselineMm - one.heightMm >= size.aboveMm - 1.5, one.baselineMm <= size.heightMm - size.aboveMm + 0.3]).toEqual([one.text, true, true]);
    }

    // Nothing is cut off by the page's end, and both figures are drawn.
    const [needed, room] = await opened.page.locator('.hand-out-content').evaluate((content) => [content.scrollHeight, content.clientHeight] as const);
    expect(needed - room).toBeLessThanOrEqual(1);
    const title = texts.find((one) => one.text.startsWith('From the side'))!;
    const figureMm = 40;
    const topMm = title.baselineMm + 2;
    const side = { leftMm: size.besideMm, topMm, widthMm: FIGURE_WIDTHS_MM.side, heightMm: figureMm };
    const above = { leftMm: size.widthMm - size.besideMm - FIGURE_WIDTHS_MM.above, topMm, widthMm: FIGURE_WIDTHS_MM.above, heightMm: figureMm };
    // Lines on white: some per cent, far from none and far from a blot.
    for (const box of [side, above]) {
      expect(inkPart(picture, DOTS_PER_INCH, box)).toBeGreaterThan(0.01);
      expect(inkPart(picture, DOTS_PER_INCH, box)).toBeLessThan(0.4);
    }
    // The margins are white.
    for (const [leftMm, topMm, widthMm, heightMm] of [
      [0, 0, size.besideMm - 0.5, size.heightMm],
      [size.widthMm - size.besideMm + 0.5, 0, size.besideMm - 0.6, size.heightMm],
      [0, size.heightMm - size.aboveMm + 0.5, size.widthMm, size.aboveMm - 0.6],
    ] as const) {
      expect(inkPart(picture, DOTS_PER_INCH, { leftMm, topMm, widthMm, heightMm })).toBe(0);
    }
    expect(opened.consoleErrors).toEqual([]);
    expect(opened.foreignRequests).toEqual([]);
    expect(await opened.page.evaluate('window.broken')).toBeUndefined();
    await opened.close();
  });
});

describe('saved figures', () => {
  test.each(['View from the side', 'View from above', 'Exercise'])('%s: SVG that stands alone, PNG at 300 dots an inch', async (name) => {
    const opened = await open(`player=up&label=${encodeURIComponent('../Zoë <b>/ 5a')}`);
    const saved = async (kind: string): Promise<{ file: string; bytes: Buffer }> => {
      const [download] = await Promise.all([
        opened.page.waitForEvent('download'),
        opened.page.getByRole('button', { name: `Save as ${kind}: ${name}` }).click(),
      ]);
      return { file: download.suggestedFilename(), bytes: readFileSync(await download.path()) };
    };
    const svg = await saved('SVG');
    expect(svg.file).toMatch(/^Zoë-b-5a-(side|above|staff)\.svg$/);
    const text = svg.bytes.toString('utf8');
    expect(text).toMatch(/^<\?xml/);
    expect(text.includes('@font-face')).toBe(true);
    // Nothing that only the page knows: classes, colours by reference, other files.
    expect(text.match(/class=|currentColor|var\(|(?:href|src)="?(?:http|\/)|url\((?!data:)/)?.[0]).toBeUndefined();
    const well: boolean = await opened.page.evaluate((source) => new DOMParser().parseFromString(source, 'image/svg+xml').querySelector('parsererror') === null, text);
    expect(well).toBe(true);

    const png = await saved('PNG');
    const picture = await loadImage(png.bytes);
    const [, width, height] = /viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(text)!;
    expectWithin(picture.width, (Number(width) / 25.4) * 300, { abs: 1 }, 'dots across');
    expectWithin(picture.height, (Number(height) / 25.4) * 300, { abs: 1 }, 'dots down');
    const canvas = createCanvas(picture.width, picture.height);
    canvas.getContext('2d').drawImage(picture, 0, 0);
    const inked = inkPart(canvas, 300, { leftMm: 0, topMm: 0, widthMm: Number(width), heightMm: Number(height) });
    expect(inked).toBeGreaterThan(0.01);
    expect(inked).toBeLessThan(0.4);
    // The key's first words, or the first note's name: the words came along.
    const words = name === 'Exercise' ? { leftMm: 22, topMm: Number(height) - 10, widthMm: 40, heightMm: 9 } : { leftMm: 11, topMm: Number(height) - 17.4, widthMm: 30, heightMm: 17 };
    expect(inkPart(canvas, 300, words)).toBeGreaterThan(0.01);
    expect(opened.consoleErrors).toEqual([]);
    expect(opened.foreignRequests).toEqual([]);
    await opened.close();
  });
});

describe('the preview', () => {
  test.each([390, 900])('at %i px: fits, and what is typed stands on the page', async (width) => {
    const opened = await open('player=up', width);
    await opened.page.getByLabel('What to try').fill('Five long tones, then the slur again.');
    expect(await opened.page.locator('.hand-out-try').textContent()).toBe('Five long tones, then the slur again.');
    const [scroll, client] = await opened.page.evaluate(() => [document.documentElement.scrollWidth, document.documentElement.clientWidth] as const);
    expect(scroll).toBeLessThanOrEqual(client);
    await opened.close();
  });

  test.each(['paper', 'projector'])('axe finds no fault with it, theme %s', async (theme) => {
    const opened = await open(`player=up&bands&theme=${theme}`);
    expect(await axeFaults(opened.page, undefined, '.notebook')).toEqual([]);
    await opened.close();
  });

  test('the print button asks the browser to print', async () => {
    const opened = await open('player=up');
    await opened.page.evaluate('window.print = () => (window.printedTimes = (window.printedTimes ?? 0) + 1)');
    await opened.page.getByRole('button', { name: /^Print/ }).click();
    expect(await opened.page.evaluate('window.printedTimes')).toBe(1);
    await opened.close();
  });
});
