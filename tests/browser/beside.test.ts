/** Another player beside the one on the page: in step by note, said in numbers, and neither of them changed. */
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { type Visit, openPage } from './support/chromium';

const PULLS_DOWN = 'Invented player who pulls down to ascend';

async function openTwo(webgl = false): Promise<Visit> {
  const visit = await openPage({ reducedMotion: 'reduce', webgl, ...(webgl && { width: 1000, height: 720 }) });
  await visit.page.locator('.sentence').first().waitFor();
  await visit.page.getByLabel('beside').selectOption({ label: PULLS_DOWN });
  await visit.page.locator('.stage-caption').nth(1).waitFor();
  return visit;
}

const said = (page: Page): Promise<string> => page.locator('.sentence--beside').innerText();
const captions = (page: Page): Promise<string[]> => page.locator('.stage-caption').allInnerTexts();
/** Where the other's rim is drawn, by the flat drawing's own numbers. */
const rimOfOther = (page: Page): Promise<string | null> => page.locator('.stage-cell').nth(1).locator('.stage-flat-section > g[fill][transform]').getAttribute('transform');
const choose = async (page: Page, wanted: string): Promise<void> => {
  while (!(await page.locator('#this-note-heading').innerText()).includes(wanted)) await page.getByRole('button', { name: 'Note before' }).click();
};

describe('another player beside', () => {
  test('stands still where the note is not theirs, and goes along where it is', async () => {
    const visit = await openTwo();
    const { page } = visit;
    expect(await captions(page)).toEqual([expect.stringContaining('pushes up'), expect.stringContaining('Has no B♭5: stands still.')]);
    expect(await said(page)).toBe('Invented player, pulls down has no B♭5 and stands still.');
    await choose(page, 'F5');
    const still = await rimOfOther(page);
    await choose(page, 'D5');
    expect(await rimOfOther(page)).toBe(still);
    await choose(page, 'B♭4');
    expect((await captions(page))[1]).not.toContain('stands still');
    expect(await said(page)).toMatch(
      /^Invented player, pulls down: From home to B♭4 the rim goes 3\.4\u00a0mm down .+; the bell would come .+\. Between the two: \d+\.\d\u00a0mm of travel up and down .+°.+ sideways\.$/,
    );
    const atTop = await rimOfOther(page);
    await choose(page, 'F4');
    expect(await rimOfOther(page)).not.toBe(atTop);
    expect(visit.consoleErrors).toEqual([]);
    await visit.close();
  });

  test('on a phone both stand one below the other, and no words in the picture are cut off or lie on others', async () => {
    const visit = await openTwo();
    const { page } = visit;
    await page.setViewportSize({ width: 390, height: 844 });
    const faults = (): Promise<string[]> =>
      page.evaluate(() => {
        const frame = document.querySelector('.stage-set')!.getBoundingClientRect();
        const cells = [...document.querySelectorAll('.stage-cell')].map((cell) => cell.getBoundingClientRect());
        const words = [...document.querySelectorAll('.stage-set .stage-legend, .stage-set .stage-flat-angle, .stage-set > .stage-message')].map((element) => ({
          text: element.textContent, box: element.getBoundingClientRect(), cell: element.closest('.stage-cell')?.getBoundingClientRect() ?? frame,
        }));
        return [
          ...(cells.length === 2 && cells[0]!.bottom <= cells[1]!.top + 1 ? [] : ['not below each other']),
          ...words.filter(({ box, cell }) => box.top < cell.top || box.bottom > cell.bottom + 0.5).map(({ text }) => `cut off: ${text}`),
          ...words.flatMap((one, at) => words.slice(at + 1).filter(({ box }) =>
            box.left < one.box.right && one.box.left < box.right && box.top < one.box.bottom && one.box.top < box.bottom).map(({ text }) => `${one.text} on ${text}`)),
        ];
      });
    await expect.poll(faults).toEqual([]);
    await visit.close();
  });

  test('changes nobody, and gives the place back', async () => {
    const visit = await openTwo();
    const { page } = visit;
    expect(await page.locator('.stage-flat').count()).toBe(2);
    await page.getByLabel('beside').selectOption({ label: 'nobody' });
    await page.locator('.stage-caption').first().waitFor({ state: 'detached' });
    expect(await page.locator('.stage-flat').count()).toBe(1);
    expect(await page.locator('.sentence--beside').count()).toBe(0);
    expect(await page.getByRole('button', { name: 'Undo' }).isDisabled()).toBe(true);
    await visit.close();
  });

  test('one who is kept is taken as they are now, steps aside for themselves, and deleted meanwhile is missed in words', async () => {
    const visit = await openPage({ reducedMotion: 'reduce', webgl: false });
    const { page } = visit;
    await page.locator('#player-label').fill('Kept one');
    await page.getByRole('button', { name: 'Start your own player' }).click();
    const beside = page.getByLabel('beside');
    await beside.locator('option', { hasText: 'Kept one' }).waitFor({ state: 'attached' });
    await beside.selectOption({ label: 'Kept one' });
    await page.locator('.stage-caption').nth(1).getByText('Kept one').waitFor();
    // On the page themselves, they stand beside nobody; and are as they are then when they are chosen again.
    const player = page.locator('.masthead__picker select').first();
    await player.selectOption({ label: 'Kept one' });
    await page.locator('.stage-caption').first().waitFor({ state: 'detached' });
    expect(await beside.inputValue()).toBe('');
    await page.locator('#player-label').fill('Kept, renamed');
    await page.getByRole('button', { name: 'Start your own player' }).click();
    await beside.locator('option', { hasText: 'Kept, renamed' }).waitFor({ state: 'attached' });
    await beside.selectOption({ label: 'Kept, renamed' });
    await page.locator('.stage-caption').nth(1).getByText('Kept, renamed').waitFor();
    // The list may be older than the shelf: as if another tab had deleted the player.
    await page.evaluate(() => {
      const select = [...document.querySelectorAll('select')].find((one) => [...one.options].some(({ text }) => text === 'nobody'))!;
      const option = [...select.options].find(({ text }) => text === 'Kept, renamed')!;
      option.value = 'gone';
      select.value = 'gone';
      select.dispatchEvent(new Event('change', { bubbles: true }));
    });
    await page.getByRole('alert').getByText('no longer kept here').waitFor();
    expect(visit.consoleErrors).toEqual([]);
    await visit.close();
  });

  test('in three dimensions both are drawn in one canvas, and the rim can still be moved by keys', async () => {
    const visit = await openTwo(true);
    const { page } = visit;
    await page.waitForFunction(() => [...document.querySelectorAll('.stage-cell .stage-label-angle')].filter((one) => (one as HTMLElement).style.visibility === 'visible').length === 2);
    expect(await page.locator('canvas').count()).toBe(1);
    const handle = page.locator('.stage-handle');
    expect(await handle.count()).toBe(1);
    const before = await page.locator('.number-field--large input').first().inputValue();
    await handle.press('Shift+ArrowDown');
    await page.waitForFunction((value) => document.querySelector<HTMLInputElement>('.number-field--large input')!.value !== value, before);
    expect(visit.consoleErrors).toEqual([]);
    await visit.close();
  });
});
