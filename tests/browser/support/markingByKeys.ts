/** A mark put and brought to its place by keys alone: where the cross stands, then by tens of pixels, by single ones, and by tenths. */
import type { Locator, Page } from 'playwright-core';
import { expect } from 'vitest';
import type { Point } from '../../../src/measure/picture';
import { expectWithin } from '../../support/expectWithin';

export const markButton = (page: Page, name: string): Locator => page.locator('.mark-button').and(page.getByRole('button', { name }));

/** The mark must be the one that is asked for. */
export async function putByKeys(page: Page, name: string, { x, y }: Point): Promise<void> {
  await page.locator('.put-cross').focus();
  expect(await page.locator('.put-cross').getAttribute('aria-label')).toContain(name);
  await page.keyboard.press('Enter');
  await markButton(page, name).focus();
  const away = async (): Promise<Point> => {
    const [atX, atY] = (await markButton(page, name).getAttribute('aria-label'))!.match(/-?\d+\.\d/g)!.map(Number);
    return { x: x - atX!, y: y - atY! };
  };
  for (const [held, size] of [['Shift+', 10], ['', 1], ['Alt+', 0.1]] as const) {
    const { x: right, y: down } = await away();
    for (let count = Math.round(Math.abs(right) / size); count > 0; count--) await page.keyboard.press(`${held}Arrow${right > 0 ? 'Right' : 'Left'}`);
    for (let count = Math.round(Math.abs(down) / size); count > 0; count--) await page.keyboard.press(`${held}Arrow${down > 0 ? 'Down' : 'Up'}`);
  }
  const left = await away();
  // Half of the last step, and half of what the name is rounded to.
  expectWithin(left.x, 0, { abs: 0.11 }, `${name}, x, px`);
  expectWithin(left.y, 0, { abs: 0.11 }, `${name}, y, px`);
}
