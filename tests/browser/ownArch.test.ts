/** The own arch by ruler and caliper, typed by keys in a real browser, to the end: arch, bands, budget, and back. */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { WCAG_22_AA, axeFaults } from './support/axe';
import { type Visit, openPage } from './support/chromium';

let visit: Visit;
beforeAll(async () => {
  visit = await openPage({ reducedMotion: 'reduce', webgl: false, width: 390, height: 844 });
});
afterAll(() => visit.close());

describe('the own arch by ruler or caliper', () => {
  test('is fetched when it is opened, and says how sure the angle is', async () => {
    const { page, requests } = visit;
    expect(requests.some((url) => /\/OwnArchPane-/.test(url))).toBe(false);
    const summary = page.getByText('Own arch: with a ruler, or from a bite print');
    await summary.focus();
    await page.keyboard.press('Enter');
    await page.locator('.own-arch__bars').waitFor();
    expect(await page.locator('.own-arch__sure p').first().innerText()).toMatch(/^At .+ the change from home is sure to ±\s\d\.\d° up and down, ±\s\d\.\d° to the side, with nothing measured of the teeth\.$/);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(390);
  });

  test('two numbers make an arch of the player’s own, whose sureness is told', async () => {
    const { page } = visit;
    await page.getByLabel('A Upper canine width').focus();
    await page.keyboard.type('34');
    await page.getByLabel('B Upper canine depth').focus();
    await page.keyboard.type('6.5');
    await page.getByLabel('C Upper molar width').focus();
    await page.locator('.own-arch__sure p').filter({ hasText: 'with nothing measured of the teeth it would be' }).first().waitFor();
    expect(await page.getByLabel('Ready-made arch').locator('option:checked').innerText()).toBe('the player’s own, measured');
    expect(await page.locator('.own-arch__fitted').first().innerText()).toMatch(/^with the others: 3[34]\.\d ±\s0\.\d/);
  });

  test('a number that contradicts is named, one out of range is not taken', async () => {
    const { page } = visit;
    const lower = page.getByLabel('E Lower canine width');
    await lower.fill('17');
    await page.locator('.own-arch').getByText('Look again.').waitFor();
    await lower.fill('170');
    expect(await page.locator('.own-arch .number-field__wrong').innerText()).toContain('Allowed: from 14 to 48');
    await lower.press('Escape');
    await lower.fill('');
    await lower.press('Enter');
    await page.locator('.own-arch').getByText('Look again.').waitFor({ state: 'detached' });
    // With the arrow keys an empty field begins at what is likely, not at the end of its range.
    await lower.press('ArrowUp');
    expect(Number(await lower.inputValue())).toBeGreaterThan(23);
    await lower.press('Escape');
    await expect.poll(() => lower.inputValue()).toBe('');
  });

  test('nothing wrong is found in it by axe', async () => {
    expect(await axeFaults(visit.page, WCAG_22_AA, '.own-arch')).toEqual([]);
  });

  test('changed by its numbers it is the measured one no more, and says so', async () => {
    const { page } = visit;
    await page.getByText('The arch’s numbers').click();
    const radius = page.getByLabel('Radius in front').first();
    await radius.waitFor();
    await radius.focus();
    await page.keyboard.press('ArrowUp');
    await page.locator('.own-arch').getByText('were changed after it was measured').waitFor();
    expect(await page.getByLabel('Ready-made arch').locator('option:checked').innerText()).toBe('by its numbers');
    await page.getByRole('heading', { name: 'Player', exact: true }).click();
    await page.keyboard.press('Control+z');
    await page.locator('.own-arch').getByText('were changed after it was measured').waitFor({ state: 'detached' });
  });

  test('one click leads back to the average arch, and undo to the own one', async () => {
    const { page } = visit;
    const chosen = page.getByLabel('Ready-made arch').locator('option:checked');
    await page.getByRole('button', { name: 'Back to the average arch' }).click();
    expect(await chosen.innerText()).toBe('Average');
    expect(await page.getByLabel('A Upper canine width').inputValue()).toBe('');
    await page.getByRole('heading', { name: 'Player', exact: true }).click();
    await page.keyboard.press('Control+z');
    expect(await chosen.innerText()).toBe('the player’s own, measured');
    expect(await page.getByLabel('A Upper canine width').inputValue()).toBe('34');
    expect(visit.consoleErrors).toEqual([]);
    expect(visit.foreignRequests).toEqual([]);
  });
});
