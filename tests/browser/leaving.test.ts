/** Pictures, films and printed bodies from the page itself: by keys, saved, read back; what is called off; no fault by axe, on a narrow screen too. */
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { expectWithin } from '../support/expectWithin';
import { readGlb, readStl, validateGlb } from '../support/readSolids';
import { measureSoup } from '../support/soup';
import { axeFaults } from './support/axe';
import { type Visit, openPage } from './support/chromium';

let visit: Visit;
let page: Page;
beforeAll(async () => {
  visit = await openPage({ reducedMotion: 'reduce', webgl: false });
  page = visit.page;
  await page.locator('#hold button').first().waitFor();
});
afterAll(() => visit.close());

async function saved(name: string | RegExp, inside: '#pictures' | '#hold'): Promise<{ readonly name: string; readonly bytes: Buffer }> {
  const button = page.locator(inside).getByRole('button', { name });
  // What was saved before lets go of the buttons.
  await page.waitForFunction((one) => !(one as HTMLButtonElement).disabled, await button.elementHandle());
  const [download] = await Promise.all([page.waitForEvent('download'), button.press('Enter')]);
  return { name: download.suggestedFilename(), bytes: readFileSync(await download.path()) };
}

const words = async (inside: '#pictures' | '#hold'): Promise<string> => (await page.locator(inside).innerText()).replaceAll('\u00a0', ' ');

describe('things to print and hold', () => {
  test('nothing of it is fetched before it is asked for', () => {
    expect(visit.requests.some((url) => /solidWorker|writeFilm|takeFlat|takeStage/.test(url))).toBe(false);
  });

  test('can be called off, by keys, and leave nothing behind', async () => {
    const ask = page.locator('#hold').getByRole('button', { name: 'Make them from this record' });
    await ask.focus();
    await page.keyboard.press('Enter');
    await page.locator('#hold progress').waitFor();
    await page.waitForFunction(() => document.activeElement?.textContent === 'Cancel');
    await page.keyboard.press('Enter');
    await ask.waitFor();
    expect(await page.locator('#hold .share-files').count()).toBe(0);
    expect(await page.locator('#hold progress').count()).toBe(0);
  });

  test('are made beside the page, with their sizes in words', async () => {
    await page.locator('#hold').getByRole('button', { name: 'Make them from this record' }).press('Enter');
    await page.locator('#hold .share-files').waitFor();
    const said = await words('#hold');
    expect(said).toMatch(/Both jaws as they bite\s+\d+ × \d+ × \d+ mm; prints in one piece on its back, without supports; a real rim of 27 mm rolls over it\./);
    expect(said).toMatch(/Rim\s+27 × 27 × 7 mm; prints in one piece on its flat back\./);
    expect(said).toMatch(/A tray and 8 pegs, \d+ × \d+ × \d+ mm side by side/);
    expect(said).toContain('not a cast of anybody’s teeth, and nothing to put in the mouth');
    expect(said).not.toMatch(/NaN|undefined|Infinity/);
    // The focus is on what has taken the button's place.
    expect(await page.evaluate(() => document.activeElement?.className)).toBe('share-files__what');
  });

  test('are closed bodies as they were saved, in the size that was said', async () => {
    const stl = await saved('Save as STL: Both jaws as they bite', '#hold');
    expect(stl.name).toBe('rimpath-both.stl');
    const body = measureSoup(readStl(new Uint8Array(stl.bytes)));
    expect([body.openEdges, body.emptyTriangles]).toEqual([0, 0]);
    expect(body.volume).toBeGreaterThan(10_000);
    const said = /Both jaws as they bite\s+(\d+) × (\d+) × (\d+) mm/.exec(await words('#hold'))!;
    [1, 2, 3].forEach((at) => expectWithin(body.high[at - 1]! - body.low[at - 1]!, Number(said[at]), { abs: 0.51 }, 'size'));

    const glb = await saved('Save as GLB: Rim', '#hold');
    expect(await validateGlb(new Uint8Array(glb.bytes))).toEqual({ errors: [], warnings: [] });
    const { bodies } = await readGlb(new Uint8Array(glb.bytes));
    const ring = measureSoup(bodies[0]!.worldMetres);
    expectWithin(ring.high[0] - ring.low[0], 0.027, { abs: 1e-6 }, 'metres across');
  });

  test('carry the label in their names only where that is ticked', async () => {
    await page.locator('#hold').getByRole('checkbox').check();
    const { name } = await saved('Save as STL: Rim', '#hold');
    expect(name).not.toMatch(/^rimpath/);
    expect(name).toMatch(/-rim\.stl$/);
    await page.locator('#hold').getByRole('checkbox').uncheck();
  });

  test('are offered anew when the record has changed', async () => {
    const field = page.locator('.number-field--large input').first();
    const travel = await field.inputValue();
    await field.fill('9');
    await page.locator('#hold').getByRole('button', { name: 'The record has changed. Make them anew' }).waitFor();
    await field.fill(travel);
    await page.locator('#hold').getByRole('button', { name: 'Make them anew' }).press('Enter');
    await page.locator('#hold .share-files').waitFor();
  });
});

describe('pictures and moving pictures', () => {
  test('a PNG of the chosen width, an SVG and a WAV', async () => {
    await page.locator('#pictures select').selectOption('1280');
    const png = await saved('Save as PNG', '#pictures');
    expect([png.name, png.bytes.toString('latin1', 1, 4), png.bytes.readUInt32BE(16), png.bytes.readUInt32BE(20)]).toEqual(['rimpath-picture.png', 'PNG', 1280, 720]);
    const svg = await saved('Save as SVG', '#pictures');
    expect([svg.name, svg.bytes.toString('utf8').startsWith('<?xml')]).toEqual(['rimpath-picture.svg', true]);
    expect(svg.bytes.toString('utf8')).not.toContain('Invented');
    const wav = await saved(/Save the sound alone/, '#pictures');
    expect([wav.name, wav.bytes.toString('latin1', 0, 4), wav.bytes.readUInt32LE(24)]).toEqual(['rimpath-sound.wav', 'RIFF', 48_000]);
    await page.getByText('Saved as rimpath-sound.wav.').waitFor();
  });

  test('a film tells how far it is, and can be called off by keys', async () => {
    const make = page.locator('#pictures').getByRole('button', { name: 'Make the film' });
    await make.focus();
    await page.keyboard.press('Enter');
    await page.locator('#pictures progress').waitFor();
    await page.waitForFunction(() => (document.querySelector<HTMLProgressElement>('#pictures progress')?.value ?? 0) > 0);
    await page.waitForFunction(() => document.activeElement?.textContent === 'Cancel');
    await page.keyboard.press('Enter');
    await page.getByText('The film was called off; nothing was saved.').waitFor();
    expect(await page.locator('#pictures progress').count()).toBe(0);
    expect(await page.locator('body > div[inert]').count()).toBe(0);
  });
});

describe('the two parts', () => {
  test.each(['paper', 'projector'])('axe finds no fault with them, theme %s', async (theme) => {
    await page.evaluate((name) => (document.documentElement.dataset['theme'] = name), theme);
    expect(await axeFaults(page, undefined, '#share')).toEqual([]);
  });

  test('fit a narrow screen, with buttons large enough for a finger', async () => {
    await page.setViewportSize({ width: 390, height: 844 });
    const [scroll, client] = await page.evaluate(() => [document.documentElement.scrollWidth, document.documentElement.clientWidth] as const);
    expect(scroll).toBeLessThanOrEqual(client);
    const small = await page.locator('#pictures button, #hold button').evaluateAll((all) => all.filter((one) => one.getBoundingClientRect().height < 24).length);
    expect(small).toBe(0);
    expect(visit.consoleErrors).toEqual([]);
    expect(visit.foreignRequests).toEqual([]);
  });
});

test('a label that was ticked for one player is not ticked for the next', async () => {
  const tick = page.locator('#pictures').getByRole('checkbox', { name: /label/ });
  await tick.check();
  await page.locator('.masthead__picker select').first().selectOption({ label: 'Invented player who pulls down to ascend' });
  await page.waitForFunction(() => document.querySelector<HTMLInputElement>('#player-label')?.value === 'Invented player, pulls down');
  expect(await tick.isChecked()).toBe(false);
  expect((await saved('Save as SVG', '#pictures')).name).toBe('rimpath-picture.svg');
});
