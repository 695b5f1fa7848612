/** The class view as a teacher uses it: by keys alone, in a hall, and made their own. */
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { expectWithin } from '../support/expectWithin';
import { WITH_GOOD_PRACTICE, axeFaults } from './support/axe';
import { type OpenOptions, type Visit, openPage } from './support/chromium';

/** The class as it comes: title, and whether it asks first. */
const SEQUENCE = [
  ['not-a-wall', 'Teeth are not a flat wall', false],
  ['flat-plate', 'A rim on a flat plate', false],
  ['held-still', 'On teeth, the horn held still', true],
  ['horn-follows', 'Now the horn follows', true],
  ['sideways', 'The rim goes sideways', true],
  ['the-other-way', 'Another player goes the other way', false],
  ['your-turn', 'Your turn', false],
] as const;

/** The same in German, which is longer. */
const IN_GERMAN = [
  ['not-a-wall', 'Zähne sind keine ebene Wand', false],
  ['flat-plate', 'Ein Rand auf einer ebenen Platte', false],
  ['held-still', 'Auf Zähnen, das Instrument festgehalten', true],
  ['horn-follows', 'Jetzt geht das Instrument mit', true],
  ['sideways', 'Der Rand geht zur Seite', true],
  ['the-other-way', 'Ein anderer Spieler geht den anderen Weg', false],
  ['your-turn', 'Zurufe aus dem Raum', false],
] as const;

/** With the flat drawing unless a test is about the picture; what plays is at its end at once. */
async function openClass(title: string = SEQUENCE[0][1], options: OpenOptions = {}): Promise<Visit> {
  const visit = await openPage({ path: '#class', reducedMotion: 'reduce', webgl: false, width: 1280, height: 720, ...options });
  await titleIs(visit.page, title);
  return visit;
}

const titleIs = (page: Page, title: string): Promise<unknown> =>
  page.waitForFunction((wanted) => document.querySelector('.klass__title')?.textContent === wanted, title);
const address = (page: Page): Promise<string> => page.evaluate(() => window.location.hash);
const answered = (page: Page): Promise<string[]> => page.locator('.klass-answer--so .klass-answer__words').allInnerTexts();
const said = (page: Page): Promise<string> => page.locator('.klass-result').first().innerText();

function expectQuiet({ consoleErrors, foreignRequests }: Visit): void {
  expect(consoleErrors).toEqual([]);
  expect(foreignRequests).toEqual([]);
}

/** What cannot be read from the back of the room: words that are seen and smaller than this, px. */
const tooSmall = (page: Page, leastPx: number): Promise<string[]> =>
  page.evaluate((least) => {
    const words = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    const found: string[] = [];
    while (words.nextNode() !== null) {
      const element = words.currentNode.parentElement!;
      if (words.currentNode.textContent!.trim() === '' || element.closest('.only-heard, option, script, style') !== null) continue;
      const { fontSize, display } = getComputedStyle(element);
      if (display !== 'none' && element.getClientRects().length > 0 && parseFloat(fontSize) < least) found.push(`${fontSize}: ${words.currentNode.textContent}`);
    }
    for (const field of document.querySelectorAll('input[type="text"], select, textarea')) {
      const { fontSize } = getComputedStyle(field);
      if (parseFloat(fontSize) < least) found.push(`${fontSize}: ${field.tagName}`);
    }
    return found;
  }, leastPx);

/** What of the words beside the picture, px, can be seen only by scrolling, and words that no line of the page holds. */
const cutWords = (page: Page): Promise<string[]> =>
  page.evaluate(() => {
    const words = document.querySelector('.klass__words')!;
    const found = words.scrollHeight > words.clientHeight + 1 ? [`${words.scrollHeight - words.clientHeight} px of the words`] : [];
    const bar = document.querySelector('.klass-bar')!.getBoundingClientRect().top;
    for (const line of document.querySelectorAll('.klass__say, .klass button, .klass-result, .klass-answer__words, .klass__title, .klass .stage-caption')) {
      if (line.closest('.klass-plan') !== null) continue;
      const { left, right, top, bottom } = line.getBoundingClientRect();
      const isCut = left < -1 || right > window.innerWidth + 1 || top < -1 || bottom > (line.closest('.klass-bar') === null ? bar : window.innerHeight) + 1;
      if (isCut || line.scrollWidth > line.clientWidth + 1) found.push(line.textContent);
    }
    // What is said of a player and the drawing under it.
    for (const drawing of document.querySelectorAll('.stage-flat-drawings')) {
      const drawn = drawing.getBoundingClientRect();
      for (const caption of document.querySelectorAll('.stage-caption')) {
        const { left, right, bottom } = caption.getBoundingClientRect();
        if (left < drawn.right && right > drawn.left && bottom > drawn.top + 1 && drawn.bottom > bottom) found.push(`over the drawing: ${caption.textContent}`);
      }
    }
    for (const angle of document.querySelectorAll('.stage-flat-angle')) {
      const { top, bottom } = angle.getBoundingClientRect();
      const caption = angle.closest('.stage-cell')?.querySelector('.stage-caption')?.getBoundingClientRect();
      if (caption !== undefined && top < caption.bottom && bottom > caption.top) found.push(`over the caption: ${angle.textContent}`);
    }
    return found;
  });

const overflowsPx = (page: Page): Promise<number> => page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);

/** Through the whole class by keys; `at` is called at every stop, with the step's id and whether its question still waits. */
async function throughAll(page: Page, at: (id: string, asks: boolean) => Promise<void>, sequence: typeof SEQUENCE | typeof IN_GERMAN = SEQUENCE): Promise<void> {
  for (const [index, [id, title, asks]] of sequence.entries()) {
    if (index > 0) await page.keyboard.press('ArrowRight');
    await titleIs(page, title);
    await at(id, asks);
    if (!asks) continue;
    await page.keyboard.press('ArrowRight');
    await page.locator('.klass-answer--so').waitFor();
    await at(id, false);
  }
}

describe('by keys alone', () => {
  test('in from the page, through every step, and out again', async () => {
    const visit = await openPage({ reducedMotion: 'reduce', webgl: false });
    const { page } = visit;
    await page.locator('.sentence').first().waitFor();
    const button = page.getByRole('button', { name: 'Class view' });
    await button.focus();
    await page.keyboard.press('Enter');
    await titleIs(page, SEQUENCE[0][1]);
    expect(await page.evaluate(() => document.documentElement.dataset['theme'])).toBe('projector');
    const stops: string[] = [];
    await throughAll(page, async (id, asks) => {
      expect(await address(page)).toBe(`#class/${id}`);
      stops.push(`${id}${asks ? '?' : ''} ${(await answered(page)).join()}`);
      if (asks) expect(await page.locator('.klass-result').count()).toBe(0);
    });
    expect(stops).toEqual([
      'not-a-wall ', 'flat-plate ', 'held-still? ', expect.stringMatching(/^held-still the (upper|lower) half/), 'horn-follows? ',
      expect.stringMatching(/^horn-follows up/), 'sideways? ', expect.stringMatching(/^sideways player’s right/), 'the-other-way ', 'your-turn ',
    ]);
    // The end stays the end; what a clicker sends; to either end.
    await page.keyboard.press('PageDown');
    await titleIs(page, 'Your turn');
    await page.keyboard.press('PageUp');
    await titleIs(page, 'Another player goes the other way');
    await page.keyboard.press('Home');
    await titleIs(page, SEQUENCE[0][1]);
    await page.keyboard.press('Space');
    await titleIs(page, SEQUENCE[1][1]);
    await page.keyboard.press('Shift+Space');
    await titleIs(page, SEQUENCE[0][1]);
    await page.keyboard.press('End');
    await titleIs(page, 'Your turn');
    await page.keyboard.press('Escape');
    await page.locator('.sentence').first().waitFor();
    await page.waitForFunction(() => document.activeElement?.id === 'class-view');
    expect(await address(page)).toBe('');
    expect(await page.evaluate(() => document.documentElement.dataset['theme'])).toBe('paper');
    expectQuiet(visit);
    await visit.close();
  });

  test('a travel and a note from the room are typed, and the horn is said', async () => {
    const { page, close } = await openClass('Your turn', { path: '#class/your-turn' });
    const up = page.getByLabel('Up (a minus: down)');
    await up.focus();
    await page.keyboard.type('2,5');
    await page.keyboard.press('Enter');
    await page.waitForFunction(() => /2\.5.mm up/.test(document.querySelector('.klass-result')?.textContent ?? ''));
    expect(await said(page)).toMatch(/^With the rim 2\.5\u00a0mm up, the bell would come \d+\.\d° up/);
    // What the rim cannot reach is said, and the picture stays.
    await up.fill('29');
    await page.getByLabel('To the player’s right (a minus: left)').fill('29');
    await page.keyboard.press('Enter');
    await page.getByRole('alert').getByText('The rim cannot rest there.').waitFor();
    expect(await said(page)).toContain('2.5\u00a0mm up');
    await page.getByLabel('or a note').selectOption({ label: 'B♭5' });
    await page.waitForFunction(() => /3\.6.mm up/.test(document.querySelector('.klass-result')?.textContent ?? ''));
    // Escape gives the keys back to the class first.
    await page.keyboard.press('Escape');
    await page.keyboard.press('ArrowLeft');
    await titleIs(page, 'Another player goes the other way');
    await close();
  });
});

describe('made one’s own', () => {
  test('reordered, skipped and worded by keys, kept over a reload, and put back as it came', async () => {
    const visit = await openClass();
    const { page } = visit;
    const press = async (name: string, key = 'Enter'): Promise<void> => {
      await page.getByRole('button', { name, exact: true }).focus();
      await page.keyboard.press(key);
    };
    const titles = (): Promise<string[]> => page.locator('.klass-plan__title').allInnerTexts();
    await press('Steps');
    await page.getByRole('heading', { name: 'Steps of this class' }).waitFor();
    await press('Move “A rim on a flat plate” earlier');
    expect((await titles()).slice(0, 2)).toEqual(['A rim on a flat plate', 'Teeth are not a flat wall']);
    // The button that was pressed still has the keys.
    expect(await page.evaluate(() => document.activeElement?.getAttribute('aria-label'))).toBe('Move “A rim on a flat plate” earlier');
    await page.getByLabel('Show “On teeth, the horn held still”').focus();
    await page.keyboard.press('Space');
    const own = page.locator('.klass-plan__row').filter({ hasText: 'A rim on a flat plate' });
    await own.locator('summary').focus();
    await page.keyboard.press('Enter');
    const heading = own.getByLabel('Heading');
    await heading.focus();
    await page.keyboard.press('Control+A');
    await page.keyboard.type('On a board');
    await page.keyboard.press('Escape');
    await page.keyboard.press('Escape');
    expect(await page.locator('.klass-plan').count()).toBe(0);

    await page.reload();
    await page.locator('.klass__title').waitFor();
    await page.keyboard.press('Home');
    await titleIs(page, 'On a board');
    await page.keyboard.press('ArrowRight');
    await titleIs(page, 'Teeth are not a flat wall');
    await page.keyboard.press('ArrowRight');
    await titleIs(page, 'Now the horn follows');
    expect(await page.locator('.klass-bar__count').innerText()).toBe('3 of 6');

    await press('Steps');
    await press('Everything as it came');
    expect((await titles()).slice(0, 3)).toEqual(['Teeth are not a flat wall', 'A rim on a flat plate', 'On teeth, the horn held still']);
    expect(await page.evaluate(() => localStorage.getItem('rimpath.class.1'))).toBeNull();
    expectQuiet(visit);
    await visit.close();
  });

  test('a version that is damaged is left out, and the class is as it came', async () => {
    const visit = await openClass(undefined, { before: damage });
    expect(await visit.page.locator('.klass-bar__count').innerText()).toBe('1 of 7');
    expectQuiet(visit);
    await visit.close();
  });

  test('as many words as are allowed leave the pictures more than half of the place, and are scrolled by keys', async () => {
    const visit = await openClass(LONG.slice(0, 60).trim(), { path: '#class/the-other-way', before: wordy });
    const { page } = visit;
    await page.getByRole('button', { name: 'Speaker’s words' }).click();
    const words = page.locator('.klass__words');
    const sizes = await words.evaluate((element) => ({ shown: element.clientHeight, all: element.scrollHeight, picture: document.querySelector('.klass__stage')!.clientHeight }));
    expect(sizes.picture).toBeGreaterThan(sizes.shown);
    expect(sizes.all).toBeGreaterThan(sizes.shown);
    await words.focus();
    await page.keyboard.press('ArrowDown');
    await page.waitForFunction(() => document.querySelector('.klass__words')!.scrollTop > 0);
    expect(await address(page)).toBe('#class/the-other-way');
    // A press on them gives the keys back to the class.
    await words.click({ position: { x: 5, y: 5 } });
    await page.keyboard.press('ArrowDown');
    await titleIs(page, 'Your turn');
    expectQuiet(visit);
    await visit.close();
  });

  test('a key that is held down is one step', async () => {
    const visit = await openClass();
    const { page } = visit;
    // The keys belong to the class once it has the focus.
    await page.waitForFunction(() => document.activeElement?.classList.contains('klass') === true);
    for (let press = 0; press < 4; press++) await page.keyboard.down('PageDown');
    await page.keyboard.up('PageDown');
    await titleIs(page, SEQUENCE[1][1]);
    expect(await page.locator('.klass-bar__count').innerText()).toBe('2 of 7');
    await visit.close();
  });

  test('this player: whoever is on the page, once it is switched on', async () => {
    const visit = await openClass();
    const { page } = visit;
    await page.getByRole('button', { name: 'Steps', exact: true }).click();
    await page.getByLabel('Show “This player”').check();
    await page.getByRole('button', { name: 'Go there: “This player”' }).click();
    await titleIs(page, 'This player');
    await page.getByText(/^With the rim 3\.6\u00a0mm up/).first().waitFor();
    await visit.close();
  });
});

const LONG = 'As long as it may be '.repeat(20);

async function wordy(page: Page): Promise<void> {
  const words = { title: LONG.slice(0, 60).trim(), words: LONG.slice(0, 240), toSay: LONG.slice(0, 400) };
  const plan = { classId: 'rim-over-teeth', order: [], shown: {}, words: { 'the-other-way': words } };
  await page.addInitScript((kept) => localStorage.setItem('rimpath.class.1', kept), JSON.stringify(plan));
}

async function damage(page: Page): Promise<void> {
  await page.addInitScript(() => localStorage.setItem('rimpath.class.1', '{"classId":"rim-over-teeth","order":'));
}

describe('in the hall', () => {
  const languages = [['en', SEQUENCE, 'Speaker’s words', 'Steps'], ['de', IN_GERMAN, 'Sprechtext', 'Schritte']] as const;
  const halls = languages.flatMap(([language, ...said]) => [[1920, 1080], [1280, 720]].map(([width, height]) => [language, width!, height!, ...said] as const));
  test.each(halls)('in %s at %d × %d nothing is smaller than 24 px, cut or runs out of the page, and axe finds nothing at any step', async (language, width, height, sequence, toSay, steps) => {
    const visit = await openClass(sequence[0][1], { path: `?language=${language}#class`, width, height });
    const { page } = visit;
    await page.getByRole('button', { name: toSay }).click();
    await page.keyboard.press('Home');
    await throughAll(page, async (id) => {
      expect(await tooSmall(page, 24), id).toEqual([]);
      expect(await cutWords(page), id).toEqual([]);
      expect(await overflowsPx(page), id).toBeLessThanOrEqual(0);
      expect(await axeFaults(page, WITH_GOOD_PRACTICE), id).toEqual([]);
    }, sequence);
    await page.getByRole('button', { name: steps, exact: true }).click();
    await page.locator('summary').first().click();
    expect(await tooSmall(page, 24)).toEqual([]);
    expect(await axeFaults(page, WITH_GOOD_PRACTICE)).toEqual([]);
    expectQuiet(visit);
    await visit.close();
  });

  test.each([[1280, 720], [720, 450], [390, 844]])('come to from the page at %d × %d, where the styles of the picture came first, two players have their words clear of each other', async (width, height) => {
    const visit = await openPage({ path: '?language=de', reducedMotion: 'reduce', webgl: false, width, height });
    const { page } = visit;
    await page.locator('.stage-flat').waitFor();
    await page.evaluate(() => void (window.location.hash = '#class/the-other-way'));
    await titleIs(page, 'Ein anderer Spieler geht den anderen Weg');
    await page.locator('.stage-caption__said').nth(1).waitFor();
    await page.locator('.stage-cell .stage-flat-angle').nth(1).waitFor();
    expect((await cutWords(page)).filter((words) => words.startsWith('over'))).toEqual([]);
    expect(await overflowsPx(page)).toBeLessThanOrEqual(0);
    await visit.close();
  });

  test('on a phone nothing runs out of the page at any step', async () => {
    const visit = await openClass(undefined, { width: 390, height: 844, hasTouch: true });
    await throughAll(visit.page, async (id) => {
      expect(await overflowsPx(visit.page), id).toBeLessThanOrEqual(0);
    });
    await visit.page.getByRole('button', { name: 'Back', exact: true }).tap();
    await titleIs(visit.page, 'Another player goes the other way');
    await visit.close();
  });

  test('without a graphics card what is seen from above is drawn from above', async () => {
    const visit = await openClass('The rim goes sideways', { path: '#class/sideways' });
    const { page } = visit;
    const section = page.getByRole('img', { name: 'Section from above' });
    // Downward in this drawing is to the player's right.
    const place = (): Promise<{ rimMm: number; heldMm: number; shownMm: number }> =>
      section.evaluate((drawing) => {
        const [, down] = /translate\(\S+ (\S+)\)/.exec(drawing.querySelector('g[transform]')!.getAttribute('transform')!)!;
        const [heldMm, shownMm] = [...drawing.querySelectorAll('line')].map((line) => Number(line.getAttribute('y2')) - Number(line.getAttribute('y1')));
        return { rimMm: Number(down), heldMm: heldMm!, shownMm: shownMm! };
      });
    const before = await place();
    await page.keyboard.press('ArrowRight');
    await page.locator('.klass-answer--so').waitFor();
    const after = await place();
    expectWithin(after.rimMm - before.rimMm, 4, { abs: 0.01 }, 'mm to the right');
    expectWithin(after.heldMm, before.heldMm, { abs: 1e-6 }, 'the held horn keeps its way');
    const said = Number(/(\d+\.\d)° to the right/.exec((await page.locator('.klass-result').first().innerText()).replaceAll('\u00a0', ' '))![1]);
    const turnedDeg = (Math.asin((after.shownMm - before.shownMm) / 62) * 180) / Math.PI;
    expectWithin(turnedDeg, said, { abs: 0.15 }, 'the axis turns as it is said');
    await page.keyboard.press('Home');
    await titleIs(page, SEQUENCE[0][1]);
    expect(await page.getByRole('img', { name: 'Section from above' }).count()).toBe(2);
    expectQuiet(visit);
    await visit.close();
  });

  test('where motion is welcome, what is asked moves only when the next key is pressed', async () => {
    const visit = await openClass(undefined, { reducedMotion: 'no-preference' });
    const { page } = visit;
    for (const title of [SEQUENCE[1][1], SEQUENCE[2][1]]) {
      await page.keyboard.press('ArrowRight');
      await titleIs(page, title);
    }
    expect(await page.getByRole('button', { name: 'Pause' }).count()).toBe(0);
    await page.keyboard.press('ArrowRight');
    await page.getByRole('button', { name: 'Pause' }).waitFor();
    await page.locator('.klass-answer--so').waitFor();
    await page.getByRole('button', { name: 'Play', exact: true }).waitFor();
    await visit.close();
  });

  test('in three dimensions two players share one canvas, and the words in the picture are large enough', async () => {
    const visit = await openPage({ path: '#class/the-other-way', reducedMotion: 'reduce', width: 1280, height: 720 });
    const { page } = visit;
    await page.locator('.stage-cell .stage-label-angle').nth(1).waitFor({ state: 'attached' });
    await page.waitForFunction(() => [...document.querySelectorAll('.stage-cell .stage-label-angle')].filter((one) => (one as HTMLElement).style.visibility === 'visible').length === 2);
    expect(await page.locator('canvas').count()).toBe(1);
    expect(await tooSmall(page, 24)).toEqual([]);
    expect(await page.locator('.stage-caption').allInnerTexts()).toEqual([
      expect.stringMatching(/^Pushes up to ascend\s+From F3 to B♭4 the rim goes .+ up/),
      expect.stringMatching(/^Pulls down to ascend Has no B♭5: stands still\.\s+From F3 to B♭4 the rim goes .+ down/),
    ]);
    await page.keyboard.press('ArrowRight');
    await titleIs(page, 'Your turn');
    await page.locator('.stage-handle').waitFor();
    expect(await tooSmall(page, 24)).toEqual([]);
    expectQuiet(visit);
    await visit.close();
  });
});
