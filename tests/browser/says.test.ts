import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { WITH_GOOD_PRACTICE, axeFaults } from './support/axe';
import { type Visit, openPage } from './support/chromium';

let visit: Visit;
let page: Page;

beforeAll(async () => {
  visit = await openPage({ reducedMotion: 'reduce', webgl: false });
  page = visit.page;
  await page.locator('#says .says-part').first().waitFor();
});
afterAll(() => visit.close());

const plain = (words: string): string => words.replaceAll('\u00a0', ' ');
const part = async (heading: string): Promise<string> =>
  plain(await page.locator('.says-part', { has: page.getByRole('heading', { name: heading }) }).innerText());

describe('what the readings say', () => {
  test('is fetched after the page, from its own server', () => {
    const main = visit.requests.findIndex((url) => /\/index-.*\.js$/.test(url));
    const says = visit.requests.findIndex((url) => /\/SaysPane-.*\.js$/.test(url));
    expect(main).toBeGreaterThanOrEqual(0);
    expect(says).toBeGreaterThan(main);
    expect(visit.consoleErrors).toEqual([]);
    expect(visit.foreignRequests).toEqual([]);
  });

  test('of the demo player, whose line and way are told', async () => {
    expect(await part('Line of travel')).toMatch(/The rim goes up(?: and \d+° to the player’s (?:right|left))? as the pitch rises: \d\.\d mm an octave \(\d\.\d to \d\.\d\)\./);
    expect(await part('Which way')).toMatch(/To ascend, the rim is pushed up: \d\.\d mm an octave/);
    expect(await part('Turn-back')).toMatch(/To find a turn-back of 2\.0 mm over the last three notes you would need: by eye about \d+ takes? of every note/);
    expect(await part('Turn-back')).toContain('(common practice, no published source)');
    for (const day of ['2 March 2026', '23 March 2026', '20 April 2026']) expect(await part('Over the lessons')).toContain(day);
    expect(await part('Over the lessons')).toMatch(/Lesson\s+Travel\s+2 March 2026\s+\d\.\d \(\d\.\d to \d\.\d\)/);
    expect(await part('Line of travel')).not.toMatch(/NaN|undefined|Infinity/);
  });

  test('every picture is told in words and in numbers', async () => {
    const pictures = await page.locator('#says svg[role="img"]').evaluateAll((all) => all.map((one) => one.getAttribute('aria-label') ?? ''));
    expect(pictures.length).toBeGreaterThan(0);
    for (const words of pictures) expect(words.length).toBeGreaterThan(10);
    expect(await page.locator('#says figure').count()).toBe(await page.locator('#says figure table caption').count());
  });

  test('its numbers follow a reading that is changed, and come back with undo', async () => {
    const before = await part('Line of travel');
    const field = page.locator('.number-field--large input').first();
    const travel = await field.inputValue();
    await field.fill('9');
    await page.waitForFunction((words) => !document.querySelector('#says')!.textContent.replaceAll('\u00a0', ' ').includes(words), firstLine(before));
    expect(firstLine(await part('Line of travel'))).not.toBe(firstLine(before));
    await field.fill(travel);
    await page.waitForFunction((words) => document.querySelector('#says')!.textContent.replaceAll('\u00a0', ' ').includes(words), firstLine(before));
  });

  test('is reached and opened by keys', async () => {
    await page.getByRole('link', { name: 'What they say' }).press('Enter');
    expect(new URL(page.url()).hash).toBe('#says');
    const summary = page.locator('#says summary').first();
    await summary.focus();
    await page.keyboard.press('Enter');
    expect(await page.locator('#says details').first().evaluate((one: HTMLDetailsElement) => one.open)).toBe(true);
  });
});

describe('the own shape', () => {
  const ask = (): ReturnType<Page['getByRole']> => page.getByRole('button', { name: 'Fit the arch to these readings' });
  const own = 'This player’s own shape';

  test('can be called off, by keys, and leaves nothing behind', async () => {
    await ask().focus();
    await page.keyboard.press('Enter');
    await page.locator('#says progress').waitFor();
    // The focus is on what has taken the button's place.
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('Cancel');
    await page.keyboard.press('Enter');
    await ask().waitFor();
    expect(await page.locator('#says progress').count()).toBe(0);
    expect(await part(own)).not.toContain('the front’s radius');
  });

  test('is worked out beside the page, and tells how far it is', async () => {
    await page.evaluate(() => {
      const parts: number[] = [];
      (window as unknown as { parts: number[] }).parts = parts;
      new MutationObserver(() => {
        const value = document.querySelector<HTMLProgressElement>('#says progress')?.value;
        if (value !== undefined && value !== parts.at(-1)) parts.push(value);
      }).observe(document.querySelector('#says')!, { subtree: true, childList: true, attributes: true, characterData: true });
    });
    await ask().click();
    await page.waitForFunction(() => document.querySelector('#says')!.textContent.includes('the front’s radius'));
    const parts = await page.evaluate(() => (window as unknown as { parts: number[] }).parts);
    expect(parts.length).toBeGreaterThan(5);
    expect(parts).toEqual([...parts].sort((a, b) => a - b));
    expect(visit.consoleErrors).toEqual([]);
    expect(visit.foreignRequests).toEqual([]);
  });

  test('is shown before and after, with what is left over and how likely that is', async () => {
    const words = await part(own);
    const radius = /is (\d+\.\d) mm \((\d+\.\d) to (\d+\.\d)\); the chosen arch alone says (\d+\.\d) mm \((\d+\.\d) to (\d+\.\d)\)/g;
    const radii = [...words.matchAll(radius)].map((found) => found.slice(1).map(Number));
    expect(radii.length).toBe(2);
    for (const [after, low, high, before, lowBefore, highBefore] of radii) {
      expect(low! < after! && after! < high! && lowBefore! < before! && before! < highBefore!).toBe(true);
      // Readings never make a radius less sure.
      expect(Math.log(high! / low!)).toBeLessThan(Math.log(highBefore! / lowBefore!) + 0.02);
    }
    expect(words).toMatch(/What the fitted arch leaves of the measured swings is \d\.\d° \(root mean square\)\./);
    expect(words).toMatch(/From a horn that follows the arch, swings this far off or further come .* \(p = \d\.\d+\)\./);
    expect(words).toContain('from 2,000 mouths');
    expect(words).not.toMatch(/NaN|undefined|Infinity/);
  });

  test('its predictions reach every semitone, each with its band on both sides', async () => {
    const rows = await page.locator('#says-shape, .says-part', { has: page.getByRole('heading', { name: own }) }).locator('table').last().locator('tbody tr').evaluateAll(
      (all) => all.map((row) => [...row.children].map((cell) => cell.textContent.replaceAll('\u00a0', ' '))),
    );
    expect(rows.length).toBe(30);
    expect(rows.filter(([note]) => note!.endsWith('horn not measured')).length).toBe(25);
    for (const [note, ...cells] of rows) {
      for (const cell of cells) {
        const [value, low, high] = cell.match(/−?\d+\.\d/g)!.map((text) => Number(text.replace('−', '-')));
        expect(low! <= value! && value! <= high!, `${note}: ${cell}`).toBe(true);
      }
    }
  });

  test('is said to be behind when a reading is changed', async () => {
    const field = page.locator('.number-field--large input').first();
    const travel = await field.inputValue();
    await field.fill('5');
    await page.getByRole('button', { name: 'Work it out again' }).waitFor();
    await field.fill(travel);
  });
});

describe('over one’s own players', () => {
  const own = () => page.locator('.says-part', { has: page.getByRole('heading', { name: 'Over your own players' }) });
  const look = async (): Promise<void> => {
    await own().getByRole('button', { name: /^Look/ }).press('Enter');
    await page.waitForFunction(() => [...document.querySelectorAll('#says [role="status"]')].some((one) => one.textContent.startsWith('Looked at')));
  };
  /** Another label is a change like any other: from then on the player is kept. */
  const keepAs = async (label: string): Promise<void> => {
    await page.locator('#player-label').fill(label);
    await page.locator('optgroup[label="Kept in this browser"] option', { hasText: label }).waitFor({ state: 'attached' });
    await page.waitForFunction(() => document.querySelector('#lessons')!.textContent.includes('The last change is kept'));
  };
  /** The counts of a row, by the words at its head. */
  const row = (table: RegExp, head: string): Promise<string[]> =>
    own().getByRole('table', { name: table }).getByRole('row', { name: new RegExp(`^${head}`) }).getByRole('cell').allInnerTexts();

  test('nothing is counted before it is asked for, and one player is too few', async () => {
    expect(await own().getByRole('table').count()).toBe(0);
    await keepAs('A. B.');
    await look();
    expect(await own().innerText()).toContain('Only one player is kept here. A table needs at least 2.');
    expect(await own().getByRole('table').count()).toBe(0);
  });

  test('two kept players are counted, and an invented one beside them is not', async () => {
    const invented = page.locator('optgroup[label="Invented, to look at"] option');
    const players = page.locator('.masthead__picker select').first();
    await players.selectOption((await invented.nth(1).getAttribute('value')));
    await keepAs('C. D.');
    await players.selectOption((await invented.nth(2).getAttribute('value')));
    await page.waitForFunction(() => document.querySelector<HTMLInputElement>('#player-label')!.value.startsWith('Invented'));
    await own().getByText('The kept players have changed since.').waitFor();
    await look();
    expect(await own().innerText()).toContain('Your own 2 players, each by the last lesson');
    expect(await own().getByText('The kept players have changed since.').count()).toBe(0);
    for (const table of [/which way the air goes/, /what the horn does/]) expect((await row(table, 'all')).at(-1)).toBe('2');
    const rows = await Promise.all(['pushed up', 'pulled down', 'mostly to the side', 'cannot tell'].map((head) => row(/what the horn does/, head)));
    expect(rows.map((one) => Number(one.at(-1)))).toEqual([1, 1, 0, 0]);
    for (const one of rows) expect(one.slice(0, -1).reduce((sum, cell) => sum + Number(cell), 0)).toBe(Number(one.at(-1)));
  });

  test('keeps the place of whoever works by keys', async () => {
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('Look again');
  });
});

describe('the look of it', () => {
  const openAll = (): Promise<void> => page.evaluate(() => document.querySelectorAll<HTMLDetailsElement>('#says details').forEach((one) => (one.open = true)));

  test.each(['Paper', 'Projector'].flatMap((theme) => [{ theme, width: 1440, height: 900 }, { theme, width: 390, height: 844 }]))(
    'in the $theme theme at $width × $height axe finds nothing (WCAG 2.2 A and AA)',
    async ({ theme, width, height }) => {
      await page.setViewportSize({ width, height });
      await page.getByRole('radio', { name: theme }).check({ force: true });
      await openAll();
      expect(await axeFaults(page, WITH_GOOD_PRACTICE, '#says')).toEqual([]);
    },
  );

  test.each([[360, 740], [390, 844], [720, 450], [1440, 900]])('at %d × %d nothing stands out to the side', async (width, height) => {
    await page.setViewportSize({ width, height });
    await openAll();
    await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
    const { beyond, small } = await page.evaluate(() => {
      const chapter = document.querySelector('#says')!;
      const right = chapter.getBoundingClientRect().right + 1;
      return {
        beyond: [...chapter.querySelectorAll('p, figure, svg, ul, details, .cross-table, .says-work')]
          .filter((one) => one.getBoundingClientRect().right > right && one.closest('.chart-hidden') === null)
          .map((one) => `${one.tagName} ${one.className.toString()}`),
        small: [...chapter.querySelectorAll('svg text')].filter((one) => parseFloat(getComputedStyle(one).fontSize) < 12).length,
      };
    });
    expect(beyond).toEqual([]);
    expect(small).toBe(0);
  });
});

test.each([
  ['has none', 'window.Worker = undefined'],
  ['forbids them', 'window.Worker = class { constructor() { throw new DOMException("Failed to construct", "SecurityError"); } }'],
])('where the browser %s, work beside the page is said to be missing, in plain words', async (_, script) => {
  const without = await openPage({ reducedMotion: 'reduce', webgl: false, before: async (one) => void (await one.addInitScript(script)) });
  const said = without.page.locator('#says', { hasText: 'This could not be worked out: this browser lets no work go on beside the page.' });
  await said.waitFor();
  expect(await said.innerText()).not.toMatch(/constructor|construct/);
  expect(without.consoleErrors).toEqual([]);
  await without.close();
});

/** The answer, which stands under the heading. */
const firstLine = (words: string): string => words.split('\n').find((line) => line.includes('as the pitch rises')) ?? words;
