import type { Page } from 'playwright-core';
import { afterAll, describe, expect, test } from 'vitest';
import { type Visit, openPage } from './support/chromium';

/** Counts what the page draws with WebGL, from before its own scripts. */
async function countDraws(page: Page): Promise<void> {
  await page.addInitScript(() => {
    const counted = window as unknown as { draws: number };
    counted.draws = 0;
    const prototype = WebGL2RenderingContext.prototype as unknown as Record<string, (...all: unknown[]) => unknown>;
    for (const name of ['drawElements', 'drawArrays', 'drawElementsInstanced']) {
      const plain = prototype[name]!;
      prototype[name] = function (this: unknown, ...all: unknown[]) {
        counted.draws++;
        return plain.apply(this, all);
      };
    }
  });
}

const draws = (page: Page): Promise<number> => page.evaluate(() => (window as unknown as { draws: number }).draws);

/**
 * Waits until nothing is drawn any more. The browser asks for no new picture before the last is done, so rounds of its own frames
 * without a draw say so however slowly software draws.
 */
async function settle(page: Page): Promise<void> {
  await page.evaluate(async () => {
    const counted = window as unknown as { draws: number };
    const frame = (): Promise<unknown> => new Promise(requestAnimationFrame);
    let before = -1;
    for (let quiet = 0; quiet < 4; ) {
      await frame();
      await frame();
      await new Promise((done) => setTimeout(done, 60));
      quiet = counted.draws === before ? quiet + 1 : 0;
      before = counted.draws;
    }
  });
}

/** The first picture without a graphics card, on cores that others use too. */
const SLOW_MS = 120_000;

/** One page for the whole file: the first picture is what takes longest. */
let stage: Visit | undefined;

/** The page as it is after opening: nothing edited, seen from three-quarter; small, since each pixel is computed by the processor. */
async function afresh(size = { width: 1000, height: 720 }): Promise<Page> {
  stage ??= await openStage();
  const { page } = stage;
  await page.setViewportSize(size);
  const undo = page.getByRole('button', { name: 'Undo' });
  while (await undo.isEnabled()) await undo.click();
  await page.getByLabel('tooth numbers').uncheck();
  await look(page, 'three-quarter');
  return page;
}

async function openStage(): Promise<Visit> {
  const visit = await openPage({ width: 1000, height: 720, reducedMotion: 'reduce', before: countDraws });
  await visit.page.locator('.stage canvas').waitFor({ timeout: SLOW_MS });
  await visit.page.waitForFunction(() => (window as unknown as { draws: number }).draws > 0, null, { timeout: SLOW_MS });
  // What is computed in spare time is through when the deviations are known.
  await visit.page.waitForFunction(() => document.querySelector('.sentence')?.textContent?.includes('±') ?? false, null, { timeout: SLOW_MS });
  await settle(visit.page);
  return visit;
}

afterAll(() => stage?.close());

const angleShown = (page: Page): Promise<string> => page.locator('.stage-label-angle').innerText();

interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly name: string;
}

const shownLabels = (page: Page): Promise<(Box & { readonly fontPx: number })[]> =>
  page.locator('.stage-label').evaluateAll((elements) =>
    elements
      .filter((element) => getComputedStyle(element).visibility === 'visible')
      .map((element) => {
        const { x, y, width, height } = element.getBoundingClientRect();
        return { x, y, width, height, name: element.textContent ?? '', fontPx: parseFloat(getComputedStyle(element).fontSize) };
      }),
  );

const overlap = (a: Box, b: Box): boolean =>
  a.x + 0.5 < b.x + b.width && b.x + 0.5 < a.x + a.width && a.y + 0.5 < b.y + b.height && b.y + 0.5 < a.y + a.height;

async function look(page: Page, name: string): Promise<void> {
  await page.locator('.looking').getByRole('radio', { name, exact: true }).check();
  await settle(page);
}

describe('the stage', () => {
  test('draws when something changes, and not otherwise', async () => {
    const page = await afresh();
    // Without a graphics card the last picture is drawn once more, finely.
    await page.waitForTimeout(1500);
    await settle(page);
    const still = await draws(page);
    await page.waitForTimeout(1500);
    expect(await draws(page)).toBe(still);
    await page.locator('.stage-handle').focus();
    await page.keyboard.press('ArrowUp');
    await page.waitForFunction((count) => (window as unknown as { draws: number }).draws > count, still);
  });

  test('the rim goes where the pointer drags it, and the horn’s angle follows', async () => {
    const page = await afresh();
    await look(page, 'face to face');
    const before = await angleShown(page);
    const rim = (await page.locator('.stage-handle').boundingBox())!;
    const start = { x: rim.x + rim.width / 2, y: rim.y + rim.height / 2 };
    await page.mouse.move(start.x, start.y);
    await page.mouse.down();
    await page.mouse.move(start.x - 8, start.y - 5, { steps: 4 });
    await page.mouse.up();
    await settle(page);
    const after = (await page.locator('.stage-handle').boundingBox())!;
    // The rim's outline tips a little as it goes, so its middle need not move by exactly as much.
    expect(Math.abs(after.x + after.width / 2 - (start.x - 8))).toBeLessThan(3);
    expect(Math.abs(after.y + after.height / 2 - (start.y - 5))).toBeLessThan(3);
    expect(await angleShown(page)).not.toBe(before);
  });

  test('without a graphics card the picture is drawn coarsely while something moves, and finely when it stands', async () => {
    const page = await afresh();
    const fineness = (): Promise<number> =>
      page.locator('.stage canvas').evaluate((canvas: HTMLCanvasElement) => Math.round((10 * canvas.width) / canvas.getBoundingClientRect().width) / 10);
    const becomes = (wanted: number): Promise<void> => expect.poll(fineness, { timeout: SLOW_MS }).toBe(wanted);
    await becomes(2);
    const rim = (await page.locator('.stage-handle').boundingBox())!;
    const [x, y] = [rim.x + rim.width / 2, rim.y + rim.height / 2];
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.move(x + 4, y - 3);
    await becomes(1);
    // A hand that has paused sees what it holds.
    await becomes(2);
    await page.mouse.up();
    await page.getByRole('button', { name: 'Play', exact: true }).click();
    await becomes(1);
    await page.getByRole('button', { name: 'Pause' }).click();
    await becomes(2);
    await page.getByRole('group', { name: /turn it with the arrow keys/ }).press('ArrowLeft');
    await becomes(1);
    await becomes(2);
  });

  test('an arrow moves the rim that way in the picture, as in a mirror too', async () => {
    const page = await afresh();
    for (const view of ['face to face', 'as in a mirror']) {
      await look(page, view);
      const before = (await page.locator('.stage-handle').boundingBox())!;
      await page.locator('.stage-handle').focus();
      await page.keyboard.press('Shift+ArrowRight');
      await settle(page);
      const after = (await page.locator('.stage-handle').boundingBox())!;
      expect(after.x + after.width / 2, view).toBeGreaterThan(before.x + before.width / 2 + 2);
      await page.keyboard.press('Shift+ArrowLeft');
      await settle(page);
    }
  });

  test('a mirror shows the same picture turned left for right', async () => {
    const page = await afresh();
    const middle = async (): Promise<number> => {
      const rim = (await page.locator('.stage-handle').boundingBox())!;
      const stage = (await page.locator('.stage').boundingBox())!;
      return rim.x + rim.width / 2 - (stage.x + stage.width / 2);
    };
    await page.locator('.stage-handle').focus();
    await look(page, 'face to face');
    await page.locator('.stage-handle').focus();
    for (let step = 0; step < 4; step++) await page.keyboard.press('Shift+ArrowRight');
    await settle(page);
    const facing = await middle();
    await look(page, 'as in a mirror');
    expect(facing).toBeGreaterThan(4);
    expect(Math.abs(facing + (await middle()))).toBeLessThan(2);
  });

  test.each([
    { width: 1440, height: 900 },
    { width: 390, height: 844 },
  ])('labels are legible and apart, and the handle is large enough, in every view at $width × $height', async (size) => {
    const page = await afresh(size);
    await page.getByLabel('tooth numbers').check();
    for (const view of ['three-quarter', 'face to face', 'as in a mirror', 'from the side', 'from above']) {
      await look(page, view);
      const labels = await shownLabels(page);
      expect(labels.length, view).toBeGreaterThan(2);
      const legend = { ...(await page.locator('.stage-legend').boundingBox())!, name: 'legend' };
      for (const [index, label] of labels.entries()) {
        expect(label.fontPx, label.name).toBeGreaterThanOrEqual(12);
        for (const other of [legend, ...labels.slice(index + 1)]) {
          expect(overlap(label, other), `${view}: ${label.name} over ${other.name}`).toBe(false);
        }
      }
      const handle = (await page.locator('.stage-handle').boundingBox())!;
      expect(Math.min(handle.width, handle.height)).toBeGreaterThanOrEqual(24);
    }
  });

  test('without a graphics card a flat drawing moves first; a hand that holds it keeps it, and the focus goes along', async () => {
    const { page, consoleErrors, close } = await openPage({ width: 700, height: 600, before: async (blank) => {
      await countDraws(blank);
      await blank.addInitScript(() => {
        // The hand comes down on the flat drawing the moment it stands; one that the browser knows nothing of cannot be captured.
        HTMLElement.prototype.setPointerCapture = () => undefined;
        new MutationObserver((_, watching) => {
          const handle = document.querySelector('.stage-flat .stage-handle');
          if (handle === null) return;
          watching.disconnect();
          const now = document.querySelector('.shown-row__now')!;
          const words = now.textContent;
          const look = (): void => {
            if (now.textContent === words) requestAnimationFrame(look);
            else {
              Object.assign(window, { movedFlat: document.querySelector('.stage-flat') !== null });
              handle.dispatchEvent(new PointerEvent('pointerdown', { bubbles: true, cancelable: true, pointerId: 7, clientX: 300, clientY: 200 }));
            }
          };
          look();
        }).observe(document, { childList: true, subtree: true });
      });
    } });
    await page.waitForFunction(() => 'movedFlat' in window, null, { timeout: SLOW_MS });
    expect(await page.evaluate('window.movedFlat')).toBe(true);
    // Ready, and it waits for the hand.
    await page.locator('.stage-turn--coming canvas').waitFor({ state: 'attached', timeout: SLOW_MS });
    await page.waitForFunction(() => (window as unknown as { draws: number }).draws > 0, null, { timeout: SLOW_MS });
    await settle(page);
    expect(await page.locator('.stage-flat').count()).toBe(1);
    await page.locator('.stage-flat .stage-handle').evaluate((handle) => handle.dispatchEvent(new PointerEvent('pointerup', { bubbles: true, pointerId: 7 })));
    await page.locator('.stage canvas').waitFor({ timeout: SLOW_MS });
    expect(await page.locator('.stage-flat').count()).toBe(0);
    expect(await page.locator('.stage-handle').evaluate((handle) => handle === document.activeElement)).toBe(true);
    expect(consoleErrors).toEqual([]);
    await close();
  });

  // The last for this page: the graphics do not come back.
  test('when the graphics stop, the flat drawing stands in', async () => {
    const page = await afresh();
    await page.evaluate(() => {
      const canvas = document.querySelector<HTMLCanvasElement>('.stage canvas');
      canvas?.getContext('webgl2')?.getExtension('WEBGL_lose_context')?.loseContext();
    });
    await page.locator('.stage-flat svg').first().waitFor();
    expect(await page.locator('.stage-message').innerText()).toMatch(/flat drawing/);
  });

  test('without WebGL the drawing is flat, can be moved by keys and pointer, and nothing of three is fetched', async () => {
    const { page, requests, consoleErrors, close } = await openPage({ reducedMotion: 'reduce', webgl: false });
    await page.locator('.stage-flat svg').first().waitFor();
    expect(await page.locator('.stage-message').innerText()).toMatch(/WebGL/);
    expect(requests.filter((url) => /three-/.test(url))).toEqual([]);
    const handle = page.locator('.stage-handle');
    const angle = page.locator('.stage-flat-angle');
    const before = await angle.innerText();
    await handle.focus();
    await page.keyboard.press('Shift+ArrowUp');
    await page.waitForFunction((text) => document.querySelector('.stage-flat-angle')?.textContent !== text, before);
    const rim = (await handle.boundingBox())!;
    const between = await angle.innerText();
    await page.mouse.move(rim.x + rim.width / 2, rim.y + rim.height / 2);
    await page.mouse.down();
    await page.mouse.move(rim.x + rim.width / 2, rim.y + rim.height / 2 + 12, { steps: 3 });
    await page.mouse.up();
    await page.waitForFunction((text) => document.querySelector('.stage-flat-angle')?.textContent !== text, between);
    expect(consoleErrors).toEqual([]);
    await close();
  });
});
