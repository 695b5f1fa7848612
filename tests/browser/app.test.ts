import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { type OpenOptions, type Visit, openPage } from './support/chromium';

/**
 * Opens the page at rest (no path playing), with the notebook ready. With the flat drawing unless a test is about the picture:
 * graphics computed by the processor would make each step here take seconds.
 */
async function openStill(options: OpenOptions = {}): Promise<Visit> {
  const visit = await openPage({ reducedMotion: 'reduce', webgl: false, ...options });
  await visit.page.locator('.sentence').waitFor();
  return visit;
}

/** Without the deviations, which come a moment after the numbers. */
const sentence = async (page: Page): Promise<string> => (await page.locator('.sentence').innerText()).replaceAll(/ ± [\d.]+°/g, '');
const angles = (page: Page): Promise<string[]> => page.locator('.angle-out__number').allInnerTexts();
/** The note that is spoken of, e.g. "B♭5". */
const noteShown = (page: Page): Promise<string> => page.locator('#this-note-heading').innerText();

/** Nothing went wrong and nothing was asked of any other server. */
function expectQuiet({ consoleErrors, foreignRequests }: Visit): void {
  expect(consoleErrors).toEqual([]);
  expect(foreignRequests).toEqual([]);
}

describe('a first visit', () => {
  test('shows the sentence, and the path plays', async () => {
    const visit = await openPage({ webgl: false });
    const { page } = visit;
    await page.getByRole('button', { name: 'Pause' }).waitFor();
    expect(await sentence(page)).toMatch(/^At .+ the rim is .+ home\. From the horn angle .+\. Held still, .+\.$/);
    const before = await page.locator('.shown-row__now').innerText();
    await page.waitForFunction((text) => document.querySelector('.shown-row__now')?.textContent !== text, before);
    await page.getByRole('button', { name: 'Pause' }).click();
    await page.getByRole('button', { name: 'Play', exact: true }).waitFor();
    expectQuiet(visit);
    await visit.close();
  });

  test('does not play for readers who want less motion', async () => {
    const visit = await openStill();
    expect(await visit.page.getByRole('button', { name: 'Play', exact: true }).isVisible()).toBe(true);
    await visit.close();
  });

  test('the picture comes after the notebook can be used', async () => {
    const visit = await openStill({ webgl: true });
    await visit.page.locator('.stage canvas').waitFor();
    const three = visit.requests.findIndex((url) => /\/three-/.test(url));
    const main = visit.requests.findIndex((url) => /\/index-.*\.js$/.test(url));
    expect(main).toBeGreaterThanOrEqual(0);
    expect(three).toBeGreaterThan(main);
    expectQuiet(visit);
    await visit.close();
  });

  test('the name of a new player is at hand before another key is pressed, and is typed over', async () => {
    const visit = await openStill();
    const { page } = visit;
    const button = page.getByRole('button', { name: 'Start your own player' });
    await button.waitFor();
    const atOnce = await button.evaluate(async (element: HTMLButtonElement) => {
      element.click();
      await new Promise((resolve) => setTimeout(resolve, 0));
      const label = document.activeElement as HTMLInputElement;
      return { id: label.id, value: label.value, marked: [label.selectionStart, label.selectionEnd] };
    });
    expect(atOnce).toEqual({ id: 'player-label', value: 'New player', marked: [0, 'New player'.length] });
    await page.keyboard.type('M. K.');
    expect(await page.locator('#player-label').inputValue()).toBe('M. K.');
    await visit.close();
  });

  test('one’s own player is one click away, and whoever was on the page before is in the list', async () => {
    const visit = await openStill();
    const { page } = visit;
    const label = page.locator('#player-label');
    const list = page.getByRole('banner').getByLabel('Player', { exact: true });
    const shows = (words: string): Promise<unknown> =>
      page.waitForFunction((wished) => document.querySelector<HTMLInputElement>('#player-label')!.value === wished, words);
    expect(await label.inputValue()).toContain('Invented');
    await label.fill('Changed');
    await page.getByRole('button', { name: 'Start your own player' }).click();
    // The last change is saved first: what could not be kept would not be left.
    await shows('New player');
    await page.waitForFunction(() => document.activeElement?.id === 'player-label');
    // Undo goes no further back than this player does.
    expect(await page.getByRole('button', { name: 'Undo' }).isDisabled()).toBe(true);
    await label.fill('M. K.');
    // An invented player that was never changed is there to be looked at anew.
    await list.selectOption({ label: 'Invented player who pushes up to ascend' });
    await shows('Invented player, pushes up');
    // Both that were changed are kept, the last change too though nobody waited for it.
    await list.selectOption({ label: 'M. K.' });
    await shows('M. K.');
    await list.selectOption({ label: 'Changed' });
    await shows('Changed');
    expectQuiet(visit);
    await visit.close();
  });
});

describe('typing a travel', () => {
  test('changes the angle within one frame', async () => {
    const visit = await openStill();
    const { page } = visit;
    const before = await angles(page);
    await page.locator('.number-field--large input').first().focus();
    // Set the way React hears it, then look at the very next frame.
    const after = await page.evaluate(
      () =>
        new Promise<string[]>((done) => {
          const field = document.querySelector<HTMLInputElement>('.number-field--large input')!;
          Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value')!.set!.call(field, '1,5');
          field.dispatchEvent(new Event('input', { bubbles: true }));
          requestAnimationFrame(() => done([...document.querySelectorAll('.angle-out__number')].map((one) => one.textContent ?? '')));
        }),
    );
    expect(after).toHaveLength(2);
    expect(after[0]).not.toBe(before[0]);
    expect(await sentence(page)).toContain('1.5');
    expectQuiet(visit);
    await visit.close();
  });

  test('takes a minus sign and a decimal comma, and arrow keys step', async () => {
    const visit = await openStill();
    const { page } = visit;
    const field = page.locator('.number-field--large input').first();
    await field.fill('−1,5');
    expect(await sentence(page)).toContain('1.5\u00a0mm down');
    await field.press('ArrowUp');
    expect(await field.inputValue()).toBe('−1.4');
    await field.press('Shift+ArrowUp');
    expect(await field.inputValue()).toBe('−0.4');
    await visit.close();
  });

  test('a wrong value is kept, marked and answered; the picture stays, and Escape takes it back', async () => {
    const visit = await openStill();
    const { page } = visit;
    const field = page.locator('.number-field--large input').first();
    const before = { field: await field.inputValue(), sentence: await sentence(page), angles: await angles(page) };
    await field.fill('abc');
    await field.blur();
    expect(await field.inputValue()).toBe('abc');
    expect(await field.getAttribute('aria-invalid')).toBe('true');
    expect(await page.locator('.this-note [role="alert"]').innerText()).toContain('“abc” is not a number. Allowed: from −60 to 60');
    expect(await sentence(page)).toBe(before.sentence);
    expect(await angles(page)).toEqual(before.angles);
    await field.focus();
    await field.press('Escape');
    expect(await field.inputValue()).toBe(before.field);
    expect(await page.locator('.this-note [role="alert"]').count()).toBe(0);
    expectQuiet(visit);
    await visit.close();
  });

  test('a place out of reach is said in words, and the other notes stay', async () => {
    const visit = await openStill();
    const { page } = visit;
    const note = (await noteShown(page)).replace('At ', '');
    await page.locator('.number-field--large input').nth(1).fill('55');
    const words = await page.locator('.problems').innerText();
    expect(words).toContain(`At ${note} `);
    expect(words).toContain('The picture stays as it was.');
    expect(await page.locator('.readings tbody td.figure').first().innerText()).toMatch(/\d/);
    expectQuiet(visit);
    await visit.close();
  });

  test('entries facing the player turn the sign of what is shown, not of what is kept', async () => {
    const visit = await openStill();
    const { page } = visit;
    const field = page.locator('.number-field--large input').nth(1);
    const own = await field.inputValue();
    await page.getByText('How travel is typed and notes are named').click();
    await page.getByRole('radio', { name: 'right, facing the player' }).check();
    expect(await field.inputValue()).toBe(own.startsWith('−') ? own.slice(1) : `−${own}`);
    expect(await sentence(page)).toContain('to the player’s right');
    await page.getByRole('radio', { name: 'rim widths', exact: true }).check();
    expect(await page.locator('.number-field--large .number-field__unit').first().innerText()).toContain('rim w.');
    expectQuiet(visit);
    await visit.close();
  });
});

test('the sentence says how sure it is, once that is known', async () => {
  const visit = await openStill();
  await visit.page.waitForFunction(() => /° ± \d\.\d° /.test(document.querySelector('.sentence')?.textContent ?? ''));
  expectQuiet(visit);
  await visit.close();
});

describe('the rim', () => {
  test('moves by keys, is spoken of, and is undone in one step', async () => {
    const visit = await openStill();
    const { page } = visit;
    const field = page.locator('.number-field--large input').first();
    const before = Number(await field.inputValue());
    const handle = page.locator('.stage-handle');
    await handle.focus();
    await handle.press('ArrowUp');
    await handle.press('ArrowUp');
    expect(Number(await field.inputValue())).toBe(Math.round((before + 0.2) * 10) / 10);
    expect(await page.locator('[aria-live="polite"]').last().innerText()).toContain('the rim is');
    await page.getByRole('button', { name: 'Undo' }).click();
    expect(Number(await field.inputValue())).toBe(before);
    expectQuiet(visit);
    await visit.close();
  });

  test('can be dragged, and the numbers follow', async () => {
    const visit = await openStill({ width: 1200, height: 800 });
    const { page } = visit;
    const before = await page.locator('.number-field--large input').first().inputValue();
    // The handle finds its place over the rim with the first frame that is drawn.
    await page.waitForFunction(() => document.querySelector<HTMLElement>('.stage-handle')?.style.transform !== '');
    await page.locator('.stage-handle').hover();
    const box = (await page.locator('.stage-handle').boundingBox())!;
    await page.mouse.down();
    await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2 + 25, { steps: 4 });
    await page.waitForFunction(
      (text) => document.querySelector<HTMLInputElement>('.number-field--large input')?.value !== text,
      before,
    );
    await page.mouse.up();
    expect(await sentence(page)).toContain((await page.locator('.number-field--large input').first().inputValue()).replace('−', '').slice(0, 2));
    expectQuiet(visit);
    await visit.close();
  });
});

test('typing in the middle of a travel leaves the caret where it is', async () => {
  const visit = await openStill();
  const { page } = visit;
  const field = page.locator('.number-field--large input').first();
  await field.fill('6.25');
  await field.press('Tab');
  await field.focus();
  for (const key of ['Home', 'ArrowRight', 'ArrowRight', '3', '7']) await field.press(key);
  expect(await field.inputValue()).toBe('6.3725');
  await visit.close();
});

describe('while the rim is dragged', () => {
  /** Takes the rim up and moves it a first time, so that what a drag measures once is measured. */
  async function takeUp(page: Page): Promise<{ x: number; y: number }> {
    await page.waitForFunction(() => document.querySelector<HTMLElement>('.stage-handle')?.style.transform !== '');
    const handle = page.locator('.stage-handle');
    await handle.hover();
    // A picture drawn in software may still be on its way to its place.
    let box = (await handle.boundingBox())!;
    for (let steady = 0; steady < 4; ) {
      await page.waitForTimeout(250);
      const next = (await handle.boundingBox())!;
      steady = next.x === box.x && next.y === box.y ? steady + 1 : 0;
      box = next;
    }
    const at = { x: box.x + box.width / 2, y: box.y + box.height / 2 };
    await page.mouse.move(at.x, at.y);
    const field = page.locator('.number-field--large input').first();
    const before = await field.inputValue();
    await page.mouse.down();
    await page.mouse.move(at.x, at.y + 12);
    await page.waitForFunction((text) => document.querySelector<HTMLInputElement>('.number-field--large input')?.value !== text, before);
    return at;
  }

  test('the arrow keys are at hand afterwards, and no ring is drawn round what a mouse has taken hold of', async () => {
    const visit = await openStill();
    const { page } = visit;
    await takeUp(page);
    const focus = (): Promise<readonly boolean[]> =>
      page.evaluate(() => {
        const handle = document.querySelector('.stage-handle')!;
        return [document.activeElement === handle, handle.matches(':focus-visible')];
      });
    expect(await focus()).toEqual([true, false]);
    await page.mouse.up();
    const before = await page.locator('.number-field--large input').first().inputValue();
    await page.keyboard.press('ArrowUp');
    await page.waitForFunction((text) => document.querySelector<HTMLInputElement>('.number-field--large input')?.value !== text, before);
    expect((await focus())[0]).toBe(true);
    await visit.close();
  });

  test('the numbers and the chart’s mark follow within two frames, with no pause of the hand', async () => {
    const visit = await openStill();
    const { page } = visit;
    const at = await takeUp(page);
    await page.evaluate(`
      window.shownNow = () => [
        document.querySelector('[data-testid="angle-out"]').textContent,
        [...document.querySelectorAll('#angles table.figures')].map((table) => table.textContent).join(),
        document.querySelector('#angles .chart-readout').textContent,
        [...document.querySelectorAll('#angles .chart-predicted-mark')].map((mark) => mark.getAttribute('cy')).join(),
      ];
      window.shownBefore = window.shownNow();
      window.addEventListener('pointermove', () => requestAnimationFrame(() => requestAnimationFrame(() => {
        window.shownAfter = window.shownNow();
      })), { capture: true, once: true });
    `);
    await page.mouse.move(at.x + 6, at.y + 40);
    await page.waitForFunction(() => 'shownAfter' in window);
    const [before = [], after = []] = await page.evaluate<string[][]>('[window.shownBefore, window.shownAfter]');
    expect(after.length).toBe(4);
    after.forEach((text, index) => expect(text).not.toBe(before[index]));
    await page.mouse.up();
    expectQuiet(visit);
    await visit.close();
  });

  test.each([{ webgl: false }, { webgl: true }])('no move asks where things lie, which would lay the page out (3D: $webgl)', async ({ webgl }) => {
    const visit = await openStill({ webgl });
    const { page } = visit;
    await page.locator(webgl ? '.stage canvas' : '.stage-flat').waitFor();
    const at = await takeUp(page);
    await page.evaluate(`
      window.asked = [];
      const counted = (prototype, name) => {
        const own = prototype[name];
        prototype[name] = function (...given) { window.asked.push(name); return own.apply(this, given); };
      };
      counted(Element.prototype, 'getBoundingClientRect');
      counted(Element.prototype, 'getClientRects');
      counted(SVGGraphicsElement.prototype, 'getScreenCTM');
      counted(SVGGraphicsElement.prototype, 'getBBox');
    `);
    const field = page.locator('.number-field--large input').first();
    const before = await field.inputValue();
    for (let step = 1; step <= 5; step++) await page.mouse.move(at.x + step, at.y + 12 + 2 * step);
    await page.waitForFunction((text) => document.querySelector<HTMLInputElement>('.number-field--large input')?.value !== text, before);
    expect(await page.evaluate('window.asked')).toEqual([]);
    await page.mouse.up();
    expectQuiet(visit);
    await visit.close();
  });
});

/** What a drag says of its travel: to the hundredth, from the fields the notebook shows. */
const travelShown = (page: Page): Promise<readonly number[]> =>
  page.locator('.number-field--large input').evaluateAll((fields) => fields.map((field) => Number((field as HTMLInputElement).value.replace('−', '-'))));

describe('one pixel of the hand is one pixel of the rim', () => {
  interface Held {
    readonly visit: Visit;
    readonly at: { readonly x: number; readonly y: number };
    /** Moves the hand to so many px from where it took hold, and says what the travel then is. */
    to(x: number, y: number): Promise<readonly number[]>;
    stageHeight(): Promise<number>;
  }

  const twoFrames = (page: Page): Promise<unknown> =>
    page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));

  /** Takes hold of the rim at B♭4, in the middle of the staff, with so much travel there. */
  async function takeHold(upMm: number, rightMm: number): Promise<Held> {
    const visit = await openStill({ width: 1440, height: 900 });
    const { page } = visit;
    while ((await noteShown(page)) !== 'At B♭4') await page.getByRole('button', { name: 'Note before' }).click();
    const fields = page.locator('.number-field--large input');
    await fields.first().fill(upMm.toFixed(2));
    await fields.nth(1).fill(rightMm.toFixed(2));
    await page.waitForFunction(() => document.querySelector('.sentence')?.textContent?.includes('±') ?? false);
    await page.locator('.stage-handle').hover();
    const box = (await page.locator('.stage-handle').boundingBox())!;
    const at = { x: Math.round(box.x + box.width / 2), y: Math.round(box.y + box.height / 2) };
    await page.mouse.move(at.x, at.y);
    await page.mouse.down();
    return {
      visit,
      at,
      to: async (x, y) => {
        await page.mouse.move(at.x + x, at.y + y);
        await twoFrames(page);
        return travelShown(page);
      },
      stageHeight: async () => (await page.locator('.stage').boundingBox())!.height,
    };
  }

  /** Millimetres under one pixel of the hand, over a way on which the sentence keeps its length. */
  async function pixelOf({ visit, to }: Held): Promise<number> {
    const from = (await travelShown(visit.page))[1]!;
    const pixelMm = ((await to(-10, 0))[1]! - from) / 10;
    expect(pixelMm).toBeGreaterThan(0.05);
    await visit.page.mouse.up();
    await visit.close();
    return pixelMm;
  }

  /** Travel is shown to the hundredth; two of them differ by as much more or less. */
  const ROUNDING_MM = 0.011;

  test('all the way across home, where the sentence loses and gains a line', async () => {
    const pixelMm = await pixelOf(await takeHold(1, 1));
    // So that the rim comes to lie straight above home, which needs fewer words, and then on its other side.
    const { visit, to, stageHeight } = await takeHold(1, 6 * pixelMm);
    const height = await stageHeight();
    const places = [await travelShown(visit.page)];
    const heights: number[] = [];
    const words = [await sentence(visit.page)];
    for (let px = 1; px <= 12; px++) {
      places.push(await to(px, 0));
      heights.push(await stageHeight());
      words.push(await sentence(visit.page));
    }
    expect(words[0]).toContain('to the player’s right of home');
    expect(words[6]).toContain('above home');
    expect(words[12]).toContain('to the player’s left of home');
    places.slice(1).forEach(([up = NaN, right = NaN], index) => {
      const said = `at pixel ${index + 1} of ${places.map((place) => place.join(', ')).join(' | ')}`;
      expect(Math.abs(places[index]![1]! - right - pixelMm), said).toBeLessThan(ROUNDING_MM);
      expect(Math.abs(up - 1), said).toBeLessThan(ROUNDING_MM);
    });
    expect(new Set(heights)).toEqual(new Set([height]));
    await visit.page.mouse.up();
    await visit.close();
  });

  test('though the window takes another size in between', async () => {
    const { visit, to } = await takeHold(1, 0.3);
    const before = await to(-2, 0);
    await visit.page.setViewportSize({ width: 1300, height: 760 });
    await to(-2, 0);
    const after = await to(-3, 0);
    // The picture is smaller now, so a pixel is more of a millimetre, but not by much.
    const [up, right] = [0, 1].map((axis) => Math.abs(after[axis]! - before[axis]!));
    expect(up).toBeLessThan(ROUNDING_MM);
    expect(right).toBeGreaterThan(0.05);
    expect(right).toBeLessThan(0.4);
    await visit.page.mouse.up();
    await visit.close();
  });

  test('whatever other pointers come down on it meanwhile', async () => {
    const { visit, at, to } = await takeHold(1, 0.3);
    const before = await to(-2, 0);
    await visit.page.evaluate(({ x, y }) => {
      const handle = document.querySelector('.stage-handle')!;
      const second = (type: string, clientX: number): boolean =>
        handle.dispatchEvent(new PointerEvent(type, { pointerId: 77, button: 0, clientX, clientY: y, bubbles: true }));
      // An invented pointer cannot be captured; that it was asked for is enough.
      Element.prototype.setPointerCapture = () => undefined;
      second('pointerdown', x + 20);
      second('pointermove', x + 40);
    }, at);
    const after = await to(-3, 0);
    expect(Math.abs(after[1]! - before[1]!)).toBeGreaterThan(0.05);
    expect(Math.abs(after[1]! - before[1]!)).toBeLessThan(0.4);
    await visit.page.mouse.up();
    await visit.close();
  });
});

test('how the rim is dragged is said until it was', async () => {
  const visit = await openStill();
  const { page } = visit;
  const hint = page.getByText('Drag the rim. The horn shows where it has to point.');
  expect(await hint.isVisible()).toBe(true);
  await page.locator('.stage-handle').hover();
  const box = (await page.locator('.stage-handle').boundingBox())!;
  await page.mouse.down();
  await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2 - 12, { steps: 3 });
  const drawing = await page.locator('.stage-flat-front').boundingBox();
  await page.mouse.up();
  await hint.waitFor({ state: 'hidden' });
  // Its room stays: the drawing does not move at the moment the hand lets go.
  expect(await page.locator('.stage-flat-front').boundingBox()).toEqual(drawing);
  await page.reload();
  await page.locator('.stage-handle').waitFor();
  expect(await hint.count()).toBe(0);
  expectQuiet(visit);
  await visit.close();
});

test('while it is worked out how sure an angle is, the notebook below stays where it is', async () => {
  const visit = await openStill();
  const { page } = visit;
  const out = page.getByTestId('angle-out');
  await out.locator('.angle-out__margin').first().waitFor();
  await page.locator('.stage-handle').hover();
  const box = (await page.locator('.stage-handle').boundingBox())!;
  const before = (await page.locator('#player').boundingBox())!.y;
  await page.mouse.down();
  await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2 - 3);
  await page.getByText('How sure this is, is being worked out.').waitFor();
  // A margin of another place is not shown as that of this one.
  expect(await out.locator('.angle-out__margin').first().isVisible()).toBe(false);
  expect((await page.locator('#player').boundingBox())!.y).toBe(before);
  await page.mouse.up();
  await visit.close();
});

test('beside each angle stands how sure it is, and what most of that is', async () => {
  const visit = await openStill();
  const out = visit.page.getByTestId('angle-out');
  await out.locator('.angle-out__margin').first().waitFor();
  expect(await out.locator('.angle-out__margin').allInnerTexts()).toEqual([expect.stringMatching(/^± \d\.\d°$/), expect.stringMatching(/^± \d\.\d°$/)]);
  expect(await out.innerText()).toMatch(/± is a 95 % band: .+\. (Its largest part is|Most of it is the jaw)/);
  await visit.close();
});

describe('what is shown', () => {
  test('can be switched beside the picture, in step with the chapter', async () => {
    const visit = await openStill();
    const { page } = visit;
    const row = page.getByRole('group', { name: 'What is shown' });
    const now = page.locator('.shown-row__now');
    const seated = await now.innerText();
    await row.getByRole('radio', { name: 'held still' }).check({ force: true });
    expect(await page.getByRole('radio', { name: 'held still as at home' }).isChecked()).toBe(true);
    expect(await now.innerText()).toMatch(/· 0\.0°, 0\.0°$/);
    await page.getByRole('radio', { name: /^Surface normal/ }).check();
    expect(await row.getByLabel('shown').inputValue()).toBe('normal');
    // Whoever asks for a view wants to see the horn follow it.
    expect(await row.getByRole('radio', { name: 'horn follows' }).isChecked()).toBe(true);
    await row.getByLabel('shown').selectOption('seated rim');
    expect(await now.innerText()).toBe(seated);
    expectQuiet(visit);
    await visit.close();
  });

  test('a way down that was seen apart is drawn, named and played apart', async () => {
    const visit = await openStill();
    const { page } = visit;
    expect(await page.getByLabel('plays').count()).toBe(0);
    const notes = await page.locator('.staff-note').count();
    await page.getByText(/^More about B♭5/).click();
    await page.getByLabel('Seen', { exact: true }).selectOption('on the way up');
    await page.getByRole('button', { name: 'Note before' }).click();
    await page.getByText(/^More about F5/).click();
    await page.getByLabel('Seen', { exact: true }).selectOption('on the way down');
    expect(await page.locator('.staff-way').allInnerTexts()).toEqual(['ascending', 'descending']);
    // The others lie on both ways.
    expect(await page.locator('.staff-note').count()).toBe(2 * notes - 2);
    expect(await page.locator('.chart-falling').count()).toBeGreaterThan(2);
    expect(await noteShown(page)).toBe('At F5, descending');
    await page.getByLabel('plays').selectOption('descending');
    expectQuiet(visit);
    await visit.close();
  });

  test('an instrument with several clefs is read in the one wished for', async () => {
    const visit = await openStill();
    const { page } = visit;
    expect(await page.getByLabel('read in').count()).toBe(0);
    await page.getByLabel('Instrument').selectOption('euphonium');
    const clef = page.getByLabel('read in');
    expect(await clef.locator('option').allInnerTexts()).toEqual(['bass clef', 'treble clef, transposed']);
    const spoken = (): Promise<string | null> => page.locator('.staff-spoken').first().textContent();
    expect(await spoken()).not.toContain('written');
    await clef.selectOption('treble');
    expect(await spoken()).toContain('written');
    expectQuiet(visit);
    await visit.close();
  });

  test('switches between following and held still, and between four views', async () => {
    const visit = await openStill();
    const { page } = visit;
    const now = page.locator('.shown-row__now');
    const seated = await now.innerText();
    await page.getByRole('radio', { name: 'held still as at home' }).check({ force: true });
    expect(await now.innerText()).toMatch(/· 0\.0°, 0\.0°$/);
    await page.getByRole('radio', { name: 'the horn follows' }).check({ force: true });
    expect(await now.innerText()).toBe(seated);
    await page.getByRole('radio', { name: /^One sphere/ }).check();
    expect(await now.innerText()).not.toBe(seated);
    await page.getByRole('radio', { name: /^Flat plate/ }).check();
    expect(await now.innerText()).toMatch(/· 0\.0°, 0\.0°$/);
    expectQuiet(visit);
    await visit.close();
  });

  test('a note is chosen on the staff and in the table', async () => {
    const visit = await openStill();
    const { page } = visit;
    await page.getByRole('button', { name: 'Note before' }).click();
    const second = await noteShown(page);
    await page.locator('.staff-notes').focus();
    await page.keyboard.press('ArrowLeft');
    expect(await noteShown(page)).not.toBe(second);
    await page.locator('[data-cell="travelUp"]').first().focus();
    expect(await page.locator('tr[aria-current="true"]').first().getAttribute('data-reading')).toBe('0');
    await page.keyboard.press('Enter');
    expect(await page.locator('tr[aria-current="true"]').first().getAttribute('data-reading')).toBe('1');
    expectQuiet(visit);
    await visit.close();
  });

  test('a note that is come to along the staff is chosen and told of though the hand stands still there and holds on', async () => {
    const visit = await openStill();
    const { page } = visit;
    const notes = page.locator('.staff-note');
    const middle = async (at: number): Promise<readonly [number, number]> => {
      const box = (await notes.nth(at).boundingBox())!;
      return [box.x + box.width / 2, box.y + box.height / 2];
    };
    const [from, to] = [await middle(3), await middle(1)];
    const name = (await notes.nth(1).locator('.staff-name').innerText()).trim();
    const row = await page.locator('tr[aria-current="true"]').first().getAttribute('data-reading');
    await page.mouse.move(...from);
    await page.mouse.down();
    // One step and no other: no further one takes the words along.
    await page.mouse.move(...to);
    await page.waitForFunction((note) => document.querySelector('#this-note-heading')?.textContent?.includes(note), name);
    expect(await sentence(page)).toContain(name);
    expect(await notes.nth(1).getAttribute('aria-selected')).toBe('true');
    // The table is slow to draw: it waits for the hand to pause, and needs no lifting of it.
    await page.waitForFunction((before) => document.querySelector('tr[aria-current="true"]')?.getAttribute('data-reading') !== before, row);
    await page.mouse.up();
    expect(await noteShown(page)).toContain(name);
    expectQuiet(visit);
    await visit.close();
  });

  test('an instrument on the lap is spoken of by the head', async () => {
    const visit = await openStill();
    const { page } = visit;
    await page.getByLabel('Instrument').selectOption('tuba');
    expect(await sentence(page)).toContain('the head would tip');
    expectQuiet(visit);
    await visit.close();
  });

  test('a reload finds the page as it was', async () => {
    const visit = await openStill();
    const { page } = visit;
    await page.locator('.number-field--large input').first().fill('2.2');
    await page.getByRole('radio', { name: 'Projector' }).check({ force: true });
    await page.getByRole('radio', { name: /^One sphere/ }).check();
    const before = { note: await noteShown(page), sentence: await sentence(page) };
    // No waiting: leaving the page saves what was not yet saved.
    await page.reload();
    await page.locator('.sentence').waitFor();
    expect(await page.locator('.number-field--large input').first().inputValue()).toBe('2.2');
    expect({ note: await noteShown(page), sentence: await sentence(page) }).toEqual(before);
    expect(await page.evaluate(() => document.documentElement.dataset['theme'])).toBe('projector');
    expect(await page.getByRole('radio', { name: /^One sphere/ }).isChecked()).toBe(true);
    expectQuiet(visit);
    await visit.close();
  });

  test('a travel typed just before a reload is there after it, at its note, however busy the machine is', async () => {
    for (let round = 0; round < 6; round++) {
      const visit = await openStill();
      const { page } = visit;
      const note = await noteShown(page);
      const throttle = await page.context().newCDPSession(page);
      await throttle.send('Emulation.setCPUThrottlingRate', { rate: 1 + (round % 6) });
      await page.locator('.number-field--large input').first().fill('2.2');
      await page.reload();
      await page.locator('.sentence').waitFor();
      expect([await noteShown(page), await page.locator('.number-field--large input').first().inputValue()], `round ${round}`).toEqual([note, '2.2']);
      expectQuiet(visit);
      await visit.close();
    }
  });

  test('without WebGL the notebook works and a flat drawing stands in, with a message', async () => {
    const visit = await openStill();
    const { page } = visit;
    await page.getByText('This browser has no WebGL 2').waitFor();
    await page.locator('.number-field--large input').first().fill('1.5');
    expect(await sentence(page)).toContain('1.5\u00a0mm up');
    expect(visit.foreignRequests).toEqual([]);
    await visit.close();
  });
});
