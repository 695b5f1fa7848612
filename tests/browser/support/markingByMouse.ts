/** Marks put on a whole picture by the mouse, as a person puts them: the first rim points one after the other, every other mark chosen by its name. */
import type { Locator, Page } from 'playwright-core';
import { LANDMARK_NAMES, type PictureMarks } from '../../../src/measure/marks';
import type { Point } from '../../../src/measure/picture';
import { markName } from '../../../src/notebook/measure/markNames';

export interface PictureSize {
  readonly width: number;
  readonly height: number;
}

/** The chapter on pictures and film. */
export const measureChapter = (page: Page): Locator => page.locator('#measure');

/** Where a place of the whole picture lies on the page, CSS px. */
export async function placeOnPage(page: Page, { x, y }: Point, { width, height }: PictureSize): Promise<Point> {
  const box = (await page.locator('.measuring__surface').boundingBox())!;
  const scale = Math.min(box.width / width, box.height / height);
  return { x: box.x + (box.width - width * scale) / 2 + (x + 0.5) * scale, y: box.y + (box.height - height * scale) / 2 + (y + 0.5) * scale };
}

export async function tapPicture(page: Page, point: Point, size: PictureSize): Promise<void> {
  const { x, y } = await placeOnPage(page, point, size);
  await page.mouse.click(x, y);
}

/** In the list of marks. */
export const chooseMark = (page: Page, name: string): Promise<void> =>
  measureChapter(page).locator('.mark-item__choose').and(page.getByRole('button', { name })).first().click();

/** Everything that is marked of a frame or a picture, eight points of its rim; the rim is asked for first. */
export async function markByMouse(page: Page, { rim = [], landmarks, horn, level }: PictureMarks, size: PictureSize): Promise<void> {
  const put = async (name: string, point: Point): Promise<void> => {
    await chooseMark(page, name);
    await tapPicture(page, point, size);
  };
  for (const point of rim.slice(0, 8)) await tapPicture(page, point, size);
  for (const name of LANDMARK_NAMES) if (landmarks[name] !== undefined) await put(markName(name), landmarks[name]);
  if (horn !== undefined) {
    await put(markName('horn-from'), horn.from);
    await put(markName('horn-to'), horn.to);
  }
  if (level !== undefined) {
    await put(markName('level-from'), level.from);
    await put(markName('level-to'), level.to);
  }
}
