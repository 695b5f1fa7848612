import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { expectWithin } from '../support/expectWithin';
import { axeFaults } from './support/axe';
import { servePage, type ServedPage } from './support/servePage';
import { closeBrowsers, visit, type Visit, type VisitOptions } from './support/visit';

let served: ServedPage;
beforeAll(async () => {
  served = await servePage('staffPage');
});
afterAll(async () => {
  await closeBrowsers();
  await served.close();
});

const open = (query: string, options: VisitOptions = {}): Promise<Visit> =>
  visit(`${served.address}?${query}`, { width: 860, height: 500, webgl: false, ...options });

const events = (opened: Visit): Promise<unknown[]> => opened.page.evaluate('window.reported.events.splice(0)');
const noteheads = '.staff-music [data-index]';

async function middleOf(opened: Visit, selector: string): Promise<{ x: number; y: number }> {
  const box = await opened.page.locator(selector).boundingBox();
  if (!box) throw new Error(`${selector} is not on the page`);
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
}

const violations = (opened: Visit): Promise<string[]> => axeFaults(opened.page, undefined, '#root');

describe('staff', () => {
  test('draws the notes from its own server only, in a part that is not in the first load', async () => {
    const opened = await open('show=staff');
    await opened.page.locator(noteheads).first().waitFor({ state: 'attached' });
    expect(await opened.page.locator(noteheads).count()).toBe(5);
    expect(opened.foreignRequests).toEqual([]);
    expect(opened.consoleErrors).toEqual([]);
    expect(opened.requests.some((url) => /gonville.*\.woff2$/.test(url))).toBe(true);
    const html = readFileSync(`${served.folder}/index.html`, 'utf8');
    expect(html).toMatch(/assets\/index-[^"]*\.js/);
    expect(html).not.toMatch(/engrave/);
    expect(opened.requests.some((url) => /engrave[^/]*\.js$/.test(url))).toBe(true);
    expect(await opened.page.evaluate(`document.fonts.check('30px Gonville')`)).toBe(true);
    await opened.close();
  });

  test('the drawn noteheads stand in their columns and on their lines', async () => {
    const opened = await open('show=staff');
    await opened.page.locator(noteheads).first().waitFor({ state: 'attached' });
    const places: { x: number; y: number; column: number }[] = await opened.page.evaluate(`
      [...document.querySelectorAll('${noteheads}')].map((group, index) => {
        const head = group.querySelector('.vf-notehead text, .vf-notehead') ?? group.querySelector('text');
        const box = head.getBoundingClientRect();
        const column = document.querySelectorAll('[role=option]')[index].getBoundingClientRect();
        return { x: box.left + box.width / 2, y: Number(head.getAttribute('y') ?? head.querySelector('text').getAttribute('y')), column: column.left + column.width / 2 };
      })`);
    // Half a pixel for rounding and one for a glyph's side bearings.
    places.forEach(({ x, column }) => expectWithin(x, column, { abs: 1.5 }, 'middle of the notehead'));
    // Sounding F3 B♭3 D4 F4 B♭4 on a trumpet in B flat is written G3 C4 E4 G4 C5: steps of 3, 2, 2, 3, each 5 px.
    const steps = places.slice(1).map(({ y }, index) => ((places[index] as { y: number }).y - y) / 5);
    [3, 2, 2, 3].forEach((expected, index) => expectWithin(steps[index] as number, expected, { abs: 1e-6 }, 'step'));
    await opened.close();
  });

  test('a click selects and moves there; a drag moves continuously within the notes', async () => {
    const opened = await open('show=staff');
    const third = await middleOf(opened, '[role=option] >> nth=2');
    await opened.page.mouse.click(third.x + 10, third.y);
    expect(await events(opened)).toEqual([['select', 12], ['scrub', 62], ['scrubEnd']]);

    const fourth = await middleOf(opened, '[role=option] >> nth=3');
    await opened.page.mouse.move(third.x, third.y);
    await opened.page.mouse.down();
    await opened.page.mouse.move((third.x + fourth.x) / 2, third.y + 40);
    await opened.page.mouse.move(5000, third.y);
    await opened.page.mouse.up();
    const dragged = (await events(opened)) as [string, number][];
    const pitches = dragged.filter(([kind]) => kind === 'scrub').map(([, midi]) => midi);
    expectWithin(pitches[0] as number, 63.5, { abs: 0.05 }, 'half way from D4 to F4');
    expect(pitches.at(-1)).toBe(70);
    expect(dragged.at(-1)).toEqual(['scrubEnd']);
    await opened.close();
  });

  test('arrow keys, Home and End go through the notes', async () => {
    const opened = await open('show=staff');
    // The notation comes a moment after the page.
    await opened.page.locator(noteheads).first().waitFor({ state: 'attached' });
    await opened.page.keyboard.press('Tab');
    await opened.page.keyboard.press('ArrowRight');
    expect(await events(opened)).toEqual([['select', 12], ['scrub', 62], ['scrubEnd']]);
    await opened.page.keyboard.press('End');
    await opened.page.keyboard.press('ArrowRight');
    await opened.page.keyboard.press('Home');
    const kinds = (await events(opened)) as [string, number][];
    expect(kinds.filter(([kind]) => kind === 'select').map(([, index]) => index)).toEqual([14, 10]);
    expect(await opened.page.locator('[role=option][aria-selected=true]').textContent()).toBe('F3, written G3');
    const active = await opened.page.locator('[role=listbox]').getAttribute('aria-activedescendant');
    expect(await opened.page.locator('[role=option][aria-selected=true]').getAttribute('id')).toBe(active);
    const outline = await opened.page.locator('[role=option][aria-selected=true]').evaluate((note) => getComputedStyle(note).outlineStyle);
    expect(outline).toBe('solid');
    await opened.close();
  });

  test('the playhead follows the live source without rendering', async () => {
    const opened = await open('show=staff');
    await opened.page.locator(noteheads).first().waitFor({ state: 'attached' });
    const before = await opened.page.evaluate('window.reported.renders');
    await opened.page.evaluate('for (let midi = 53; midi <= 65; midi += 0.125) window.reported.play(midi)');
    const playhead = await middleOf(opened, '.staff-playhead');
    expectWithin(playhead.x, (await middleOf(opened, '[role=option] >> nth=3')).x, { abs: 0.6 }, 'playhead at F4');
    await opened.page.evaluate('window.reported.play(null)');
    expect(await opened.page.locator('.staff-playhead').isHidden()).toBe(true);
    expect(await opened.page.evaluate('window.reported.renders')).toBe(before);
    await opened.close();
  });

  test('without notation the names remain and the time line works', async () => {
    const opened = await open('show=staff&fail');
    await opened.page.getByText('The notation could not be loaded').waitFor();
    expect(await opened.page.locator('.staff-name').allTextContents()).toEqual(['F3', 'B♭3', 'D4', 'F4', 'B♭4']);
    await opened.page.mouse.click((await middleOf(opened, '[role=option] >> nth=4')).x, 30);
    expect(await events(opened)).toEqual([['select', 14], ['scrub', 70], ['scrubEnd']]);
    expect(opened.consoleErrors).toEqual([]);
    await opened.close();
  });

  test('a note beyond what can be written leaves the others usable', async () => {
    const opened = await open('show=staff&notes=F4+G9');
    await opened.page.getByText('outside what can be written').waitFor();
    expect(await opened.page.locator(noteheads).count()).toBe(0);
    expect(await opened.page.locator('.staff-name').allTextContents()).toEqual(['F4', 'G9']);
    expect(opened.consoleErrors).toEqual([]);
    await opened.close();
  });

  test('at 360 px many notes keep 36 px each, scroll, and stay in sight as they are played', async () => {
    const notes = 'Bb2 F3 Bb3 C4 D4 Eb4 F4 G4 A4 Bb4 C5 D5'.replaceAll(' ', '+');
    const opened = await open(`show=staff&notes=${notes}`, { width: 360, height: 400 });
    const widths: number[] = await opened.page
      .locator('[role=option]')
      .evaluateAll((options) => options.map((option) => option.getBoundingClientRect().width));
    widths.forEach((width) => expect(width).toBeGreaterThanOrEqual(36));
    await opened.page.evaluate('window.reported.play(74)');
    const playhead = await middleOf(opened, '.staff-playhead');
    expect(playhead.x).toBeGreaterThan(0);
    expect(playhead.x).toBeLessThan(360);
    expect(await opened.page.evaluate('document.documentElement.scrollWidth')).toBe(360);
    await opened.close();
  });

  test('in the projector theme everything is larger and a click still finds its note', async () => {
    const opened = await open('show=staff&swing&theme=projector');
    const size = await opened.page.locator('.staff-name').first().evaluate((name) => name.getBoundingClientRect().height);
    expectWithin(size, 22 * 1.25, { abs: 0.5 }, 'height of the row of names');
    const fifth = await middleOf(opened, '[role=option] >> nth=4');
    await opened.page.mouse.click(fifth.x, fifth.y);
    expect(await events(opened)).toEqual([['select', 14], ['scrub', 70], ['scrubEnd']]);
    await opened.close();
  });
});

describe('charts', () => {
  test('the angle chart is picked from by mouse and by keys, and says its numbers', async () => {
    const opened = await open('show=angles');
    await opened.page.locator('[role=slider]').focus();
    await opened.page.keyboard.press('End');
    await opened.page.keyboard.press('ArrowLeft');
    expect(await events(opened)).toEqual([['select', 14], ['select', 13]]);
    const said = 'F4: predicted 2.0° ± 2.7° up, 2.0° ± 1.2° left.';
    expect(await opened.page.locator('[role=slider]').getAttribute('aria-valuetext')).toBe(said);
    expect(await opened.page.locator('.chart-readout').textContent()).toBe(said);
    const marks = opened.page.locator('svg[role=img] circle');
    const last = await marks.nth(4).boundingBox();
    await opened.page.mouse.click((last?.x ?? 0) + 4, (last?.y ?? 0) + 30);
    expect(await events(opened)).toEqual([['select', 14]]);
    expect(await opened.page.locator('table tbody tr').count()).toBe(5);
    await opened.close();
  });

  test('the playhead crosses the chart without rendering', async () => {
    const opened = await open('show=angles');
    await opened.page.evaluate('window.reported.play(53)');
    const before = await opened.page.evaluate('window.reported.renders');
    const place = () => opened.page.locator('g:has(> .chart-playhead)').getAttribute('transform');
    const first = await place();
    await opened.page.evaluate('window.reported.play(58)');
    expect(await place()).not.toBe(first);
    expect(await opened.page.evaluate('window.reported.renders')).toBe(before);
    await opened.close();
  });

  test('a point of the travel chart is dragged up: tenths of a millimetre, one entry at the end', async () => {
    const opened = await open('show=travel');
    const handle = await middleOf(opened, '[aria-label="Travel up at F4"]');
    await opened.page.mouse.move(handle.x, handle.y);
    await opened.page.mouse.down();
    await opened.page.mouse.move(handle.x, handle.y - 12);
    await opened.page.mouse.move(handle.x + 30, handle.y - 24);
    const under = await middleOf(opened, '[aria-label="Travel up at F4"]');
    // A tenth of a millimetre is about 2 px here.
    expectWithin(under.y, handle.y - 24, { abs: 2 }, 'the point stays under the pointer');
    await opened.page.mouse.up();
    const seen = (await events(opened)) as [string, number, { upMm: number; rightMm: number }][];
    expect(seen[0]).toEqual(['select', 13]);
    expect(seen.at(-1)).toEqual(['travelEnd']);
    const travels = seen.filter(([kind]) => kind === 'travel').map(([, index, travel]) => ({ index, ...travel }));
    expect(travels.length).toBe(2);
    for (const { index, upMm, rightMm } of travels) {
      expect(index).toBe(13);
      expect(upMm).toBeGreaterThan(2);
      expect(upMm).toBe(Math.round(upMm * 10) / 10);
      expect(rightMm).toBe(-1);
    }
    await opened.close();
  });

  test('arrow keys move a point by 0.1 mm, with Shift by 1 mm, and go to its neighbours', async () => {
    const opened = await open('show=travel');
    await opened.page.locator('[aria-label="Travel up at B♭3"]').focus();
    await opened.page.keyboard.press('ArrowUp');
    await opened.page.keyboard.press('Shift+ArrowDown');
    expect(await events(opened)).toEqual([
      ['travel', 11, { upMm: 0.1, rightMm: 0 }],
      ['travelEnd'],
      ['travel', 11, { upMm: -0.9, rightMm: 0 }],
      ['travelEnd'],
    ]);
    await opened.page.keyboard.press('ArrowRight');
    expect(await events(opened)).toEqual([['select', 12]]);
    expect(await opened.page.evaluate('document.activeElement.getAttribute("aria-label")')).toBe('Travel up at D4');
    await opened.close();
  });

  test.each([
    { query: 'show=face', mirror: false },
    { query: 'show=face&mirror', mirror: true },
  ])('on the face a point follows the pointer; mirror $mirror flips the drawing only', async ({ query, mirror }) => {
    const opened = await open(query);
    const handle = await middleOf(opened, '[aria-label^="F4:"]');
    await opened.page.mouse.move(handle.x, handle.y);
    await opened.page.mouse.down();
    await opened.page.mouse.move(handle.x + 25, handle.y + 10);
    await opened.page.mouse.move(handle.x + 50, handle.y + 20);
    await opened.page.mouse.up();
    const seen = (await events(opened)) as [string, number, { upMm: number; rightMm: number }][];
    const last = seen.filter(([kind]) => kind === 'travel').at(-1)?.[2];
    expect((last?.upMm ?? 9) < 2).toBe(true);
    expect((last?.rightMm ?? -1) > -1).toBe(mirror);
    await opened.page.locator('[aria-label^="D4:"]').focus();
    await opened.page.keyboard.press('ArrowRight');
    expect(await events(opened)).toContainEqual(['travel', 12, { upMm: 1, rightMm: mirror ? -0.4 : -0.6 }]);
    await opened.close();
  });
});

test.each([
  'show=staff&swing',
  'show=staff&fail',
  'show=staff&swing&theme=projector',
  'show=angles',
  'show=angles&theme=projector',
  'show=travel',
  'show=face',
  'show=face&mirror&theme=projector',
])('axe finds nothing at %s, wide and narrow, and no text is under 12 px', async (query) => {
  const opened = await open(query);
  for (const width of [860, 360]) {
    await opened.page.setViewportSize({ width, height: 520 });
    await opened.page.locator('[role=option], [role=slider], [role=button]').first().waitFor();
    await opened.page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
    expect(await violations(opened)).toEqual([]);
    const small: string[] = await opened.page.evaluate(`
      [...document.querySelectorAll('#root *')]
        .filter((element) => [...element.childNodes].some((node) => node.nodeType === 3 && node.data.trim()))
        .filter((element) => parseFloat(getComputedStyle(element).fontSize) < 12)
        .map((element) => element.outerHTML)`);
    expect(small).toEqual([]);
    expect(opened.consoleErrors).toEqual([]);
  }
  await opened.close();
});
