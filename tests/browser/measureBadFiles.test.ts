/** Files that cannot be used, and work that breaks off, through the page itself: each gets its sentence, nothing hangs, and the rest goes on. */
import { createCanvas } from '@napi-rs/canvas';
import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { LANDMARK_NAMES, type PictureMarks } from '../../src/measure/marks';
import { markName } from '../../src/notebook/measure/markNames';
import { badFiles, pngHeader } from '../support/films/badFiles';
import { longFilm, madeFilm } from '../support/films/encodeFilm';
import { marksAt } from '../support/films/marksAt';
import { type Scene, sceneOf } from '../support/films/scene';
import { type Visit, openPage } from './support/chromium';
import { chooseMark, markByMouse, measureChapter, tapPicture } from './support/markingByMouse';

const SMALL = { durationS: 3, width: 480, height: 270, rimWidthPx: 60, framesPerS: 10 };
const BITS = { bitsPerS: 1_500_000 } as const;
const take: Scene = sceneOf({ seed: 21, ...SMALL });
const otherTake: Scene = sceneOf({ seed: 22, ...SMALL });

interface GivenFile {
  readonly name: string;
  readonly mimeType: string;
  readonly buffer: Buffer;
}
const film = (name: string, bytes: Uint8Array): GivenFile => ({ name, mimeType: 'video/mp4', buffer: Buffer.from(bytes) });

let visit: Visit;
let page: Page;
let good: Uint8Array;
let silent: Uint8Array;
let other: Uint8Array;
beforeAll(async () => {
  good = await madeFilm(take, BITS);
  silent = await madeFilm(take, { ...BITS, sound: null });
  other = await madeFilm(otherTake, BITS);
  visit = await openPage({ reducedMotion: 'reduce', webgl: false });
  page = visit.page;
  await page.locator('#measure .files-door').waitFor();
});
afterAll(() => visit.close());

const measure = (): Locator => measureChapter(page);
const give = (...files: GivenFile[]): Promise<void> => measure().locator('input[type=file]').setInputFiles(files);
const button = (name: string): Locator => measure().getByRole('button', { name });
const rest = (): Promise<void> => measure().locator('.film-work').waitFor({ state: 'detached' });
const room = (): Locator => page.locator('.measuring__canvas');

/** The sentences under the door, once one of them says what is expected. */
async function said(words: string): Promise<string[]> {
  await measure().getByRole('alert').filter({ hasText: words }).waitFor({ timeout: 20_000 });
  return measure().locator('.caution[role=alert]').allInnerTexts();
}

async function close(name = 'Close and forget the film'): Promise<void> {
  await button(name).click();
  await page.locator('.stage-flat').waitFor();
}

/** The rest of the page: another lesson's home is not touched, and a number can be typed. */
async function expectPageWorks(): Promise<void> {
  const lesson = page.locator('.masthead').getByRole('combobox', { name: 'Lesson' });
  const before = await lesson.inputValue();
  const [first] = await lesson.locator('option').evaluateAll((options) => options.map((option) => (option as HTMLOptionElement).value));
  await lesson.selectOption(first!);
  expect(await lesson.inputValue()).toBe(first);
  await lesson.selectOption(before);
  expect(visit.consoleErrors).toEqual([]);
}

const mark = ({ rim, landmarks }: PictureMarks): Promise<void> => markByMouse(page, { rim, landmarks }, SMALL);

describe('a film that cannot be used', () => {
  test('is refused by name, each in its own sentence, and nothing is opened', async () => {
    const bad = badFiles(good).filter(({ name }) => name !== 'wall.png' && name !== 'half.mp4');
    const soundOnly = await madeFilm(take, { ...BITS, video: null });
    await give(...bad.map(({ name, bytes }) => film(name, bytes)), film('sound.mp4', soundOnly), film('concert.mp4', await longFilm(3 * 3600)), film('empty too.mp4', new Uint8Array(0)));
    const sentences = await said('empty too.mp4');
    await rest();
    const expected: readonly (readonly [string, RegExp])[] = [
      ['empty.mp4', /empty \(0 bytes\)\. Copy the film/],
      ['head-only.mp4', /end of the file is missing|damaged/],
      ['words.mp4', /holds text, not a film/],
      ['phone.mp4', /HEVC \(H\.265\), which this browser cannot show\. Set the phone’s camera to H\.264/],
      ['wall.mp4', /7680 × 4320 px; at most/],
      ['noise.webm', /not a film that can be opened/],
      ['sound.mp4', /holds sound and no picture/],
      ['concert.mp4', /lasts 3 h 0 min; at most 20 minutes/],
      ['empty too.mp4', /empty \(0 bytes\)/],
    ];
    expect(sentences.length).toBe(expected.length);
    for (const [name, words] of expected) expect(sentences.find((sentence) => sentence.includes(name))).toMatch(words);
    expect(await room().count()).toBe(0);
    await expectPageWorks();
  });

  test('but for its first part is opened as far as it goes, and that is said', async () => {
    await give(film('half.mp4', badFiles(good).find(({ name }) => name === 'half.mp4')!.bytes));
    await room().waitFor();
    expect(await measure().getByText(/Only the first 1\.\d s of the film can be read/).count()).toBe(1);
    await rest();
    await close();
    await expectPageWorks();
  });
});

describe('a film without sound', () => {
  test('says so; its notes are tapped, named, and stand in the list', async () => {
    await give(film('silent.mp4', silent));
    await measure().getByText('The film has no sound').waitFor();
    await rest();
    for (let note = 0; note < 3; note++) {
      await page.getByRole('button', { name: 'Tap: a note begins' }).click();
      // A tap counts for the frame that is seen, which may be one behind the last press.
      for (let frame = 0; frame < 9; frame++) await page.getByRole('button', { name: 'Frame on' }).click();
    }
    const rows = measure().locator('.film-notes tbody tr');
    expect(await rows.count()).toBe(3);
    await rows.nth(1).getByRole('button').click();
    await measure().locator('.film-note').getByRole('textbox', { name: 'Note' }).fill('F4');
    expect(await rows.nth(1).locator('th').innerText()).toBe('F4');
    expect(await rows.nth(1).locator('td').first().innerText()).toMatch(/^0\.[6-9]\d$/);
    await expectPageWorks();
  });

  test('a rim that lies at the picture’s edge cannot be followed, and that is said', async () => {
    // A quarter of it is in the picture.
    const beside = Array.from({ length: 8 }, (_, index) => ({ x: 2 + 25 * Math.cos((index * Math.PI) / 14), y: 2 + 25 * Math.sin((index * Math.PI) / 14) }));
    await mark({ rim: beside, landmarks: { 'ear-left': { x: 478, y: 268 } } });
    await button('Follow the marks through the film').click();
    await measure().getByText('could not be followed').first().waitFor();
    const missing = await measure().locator('.caution').allInnerTexts();
    expect(missing.some((words) => words.includes('The rim could not be followed: mark it where it is clear and away from the picture’s edge.'))).toBe(true);
    expect(missing.some((words) => words.includes('Left ear could not be followed'))).toBe(true);
    expect(missing.some((words) => words.includes('there is no travel yet'))).toBe(true);
    await expectPageWorks();
  });

  test('pictures among films are left out by name, and the other way round', async () => {
    const picture = still('face.png');
    await give(picture, film('again.mp4', other));
    expect((await said('measured apart')).join()).toContain('face.png: films and pictures are measured apart; close the film first.');
    await rest();
    // No sound in the first: when this one began can only be typed.
    expect(await measure().getByText('type by how many seconds').count()).toBe(1);
    await close();
    await give(picture, film('again.mp4', other));
    expect((await said('measured apart')).join()).toContain('again.mp4: pictures and films are measured apart; close the pictures first.');
    await close('Close the pictures');
    await expectPageWorks();
  });
});

describe('work that breaks off', () => {
  let marks = 0;
  test('closed in the middle of following, the stage is back and the film can be opened anew with its marks', async () => {
    await give(film('take.mp4', good));
    await page.locator('.measuring__canvas').waitFor();
    await rest();
    await mark(marksAt(take, 0, { rimPoints: 10 }));
    marks = await page.locator('.mark-button').count();
    expect(marks).toBeGreaterThan(13);
    await startFollowing();
    await close();
    await expectPageWorks();
    await give(film('take.mp4', good));
    await page.locator('.mark-button').first().waitFor();
    expect(await page.locator('.mark-button').count()).toBe(marks);
    await rest();
  });

  test('a film given while another is worked at is told to wait, and the work goes on to its end', async () => {
    await startFollowing();
    await give(film('other.mp4', other));
    const sentences = await said('other.mp4');
    expect(sentences.join()).toMatch(/other\.mp4: wait until the work at the open film is done, or stop it, and choose again\./);
    await measure().getByText('followed, 30 frames').waitFor();
  });

  test('a worker that ends is told; opened again, the film goes on with its marks and what was followed', async () => {
    const worker = page.workers().at(-1)!;
    // Not caught by anything: as the browser ends a worker.
    await worker.evaluate(() => void setTimeout(() => {
      throw new Error('ended');
    }));
    await page.getByRole('button', { name: 'Frame on' }).click();
    expect((await said('Reading the film broke off')).length).toBe(1);
    await give(film('take.mp4', good));
    await measure().getByText('Reading the film broke off').waitFor({ state: 'detached' });
    await rest();
    expect(await measure().locator('.open-picture').filter({ hasText: 'take.mp4' }).count()).toBe(1);
    expect(await measure().getByText('followed, 30 frames').count()).toBe(1);
    await page.getByRole('button', { name: 'Frame on' }).click();
    await page.locator('.film-bar__time').filter({ hasText: /^0\.[12]\d s$/ }).waitFor();
    await expectPageWorks();
  });

  test('two films whose sound does not match: the second’s beginning is typed', async () => {
    await give(film('other.mp4', other));
    await measure().getByText('The two films’ sound could not be matched').waitFor();
    await rest();
    const offset = measure().getByRole('textbox', { name: 'Began later than the first film by' });
    expect(await offset.inputValue()).toBe('');
    await offset.fill('0.5');
    await measure().getByText('typed', { exact: true }).waitFor();
    expect(visit.consoleErrors).toEqual([]);
  });

  test('reloaded in the middle, the page is as it was and the film’s marks are there again', async () => {
    await button('Show take.mp4').click();
    await startFollowing();
    await page.reload();
    await page.locator('#measure .files-door').waitFor();
    await page.locator('.stage-flat').waitFor();
    await give(film('copied.mp4', good));
    await page.locator('.mark-button').first().waitFor();
    expect(await page.locator('.mark-button').count()).toBe(marks);
    await rest();
    await close();
    await expectPageWorks();
  });

  /** In the page itself: from outside the small film would be done before one could press anything else. */
  async function startFollowing(): Promise<void> {
    await measure().getByRole('button', { name: /^Follow (the marks|once more)/ }).click({ noWaitAfter: true });
  }
});

describe('pictures', () => {
  test('that are none are refused by name; of thirteen the last is left out', async () => {
    await give(
      { ...film('words.jpg', new TextEncoder().encode('Dear teacher, the picture did not fit into the letter.\n'.repeat(9))), mimeType: 'image/jpeg' },
      { ...film('wall.png', pngHeader(30_000, 20_000)), mimeType: 'image/png' },
      { ...film('empty.jpg', new Uint8Array(0)), mimeType: 'image/jpeg' },
    );
    const sentences = await said('empty.jpg');
    expect(sentences.length).toBe(3);
    for (const [name, words] of [['words.jpg', 'holds text, not a picture'], ['wall.png', '30000 × 20000 px; at most 100 million'], ['empty.jpg', 'empty (0 bytes)']] as const) {
      expect(sentences.find((sentence) => sentence.includes(name))).toContain(words);
    }
    await give(...Array.from({ length: 13 }, (_, index) => still(`picture ${index + 1}.png`)));
    expect(await said('picture 13.png')).toEqual([expect.stringContaining('Up to 12 pictures can be open at once: picture 13.png was left out.')]);
    expect(await measure().locator('.open-picture').count()).toBe(12);
  });

  test('of no face: marked all the same, it is told that this is no head', async () => {
    const size = { width: STILL.width, height: STILL.height };
    const round = Array.from({ length: 8 }, (_, index) => ({ x: 120 + 30 * Math.cos((index * Math.PI) / 4), y: 150 + 30 * Math.sin((index * Math.PI) / 4) }));
    for (const point of round) await tapPicture(page, point, { ...SMALL, ...size });
    const anywhere = [[20, 160], [200, 30], [40, 20], [210, 165], [130, 10], [60, 100], [180, 100]] as const;
    for (const [index, [x, y]] of anywhere.entries()) {
      await chooseMark(page, markName(LANDMARK_NAMES[index]!));
      await tapPicture(page, { x, y }, { ...SMALL, ...size });
    }
    await measure().getByText(/do not fit a head|are exchanged/).waitFor();
    expect(await measure().locator('.measure__lines').count()).toBe(0);
    await close('Close the pictures');
    await expectPageWorks();
    expect(visit.foreignRequests).toEqual([]);
  });
});

const STILL = { width: 240, height: 180 };

function still(name: string): GivenFile {
  const canvas = createCanvas(STILL.width, STILL.height);
  const context = canvas.getContext('2d');
  for (let spot = 0; spot < 300; spot++) {
    context.fillStyle = `hsl(${(spot * 37) % 360} 40% ${20 + ((spot * 53) % 60)}%)`;
    context.fillRect(((spot * 0.618034) % 1) * STILL.width, ((spot * 0.754878) % 1) * STILL.height, 14, 12);
  }
  // Each another picture: the same one twice would be one file.
  context.fillText(name, 10, 20);
  return { name, mimeType: 'image/png', buffer: canvas.toBuffer('image/png') };
}
