import { readFile, writeFile, mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import midi from '@tonejs/midi';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { WITH_GOOD_PRACTICE, axeFaults } from './support/axe';
import { type OpenOptions, type Visit, openPage } from './support/chromium';

async function open(options: OpenOptions = {}): Promise<Visit> {
  const visit = await openPage({ reducedMotion: 'reduce', webgl: false, ...options });
  await visit.page.locator('.sentence').waitFor();
  return visit;
}

/** The cells of the table row by row, as shown, for the columns named. */
const shown = (page: Page, ...columns: string[]): Promise<string[][]> =>
  page.locator('#readings tr[data-reading]').evaluateAll(
    (rows, ids) => rows.map((row) => ids.map((id) => row.querySelector<HTMLInputElement | HTMLSelectElement>(`[data-cell="${id}"]`)!.value)),
    columns,
  );
const cell = (page: Page, row: number, column: string) => page.locator(`#readings tr[data-reading="${row}"] [data-cell="${column}"]`);
/** Which cell the keys go to: "2 travelUp". */
const focused = (page: Page): Promise<string> =>
  page.evaluate(() => {
    const now = document.activeElement as HTMLElement;
    return `${now.closest<HTMLElement>('[data-reading]')?.dataset['reading']} ${now.dataset['cell']}`;
  });
const press = async (page: Page, ...keys: string[]): Promise<void> => {
  for (const key of keys) await page.keyboard.press(key);
};
/** A paste as the browser tells the page of it. */
const paste = (page: Page, text: string): Promise<void> =>
  page.evaluate((block) => {
    const clipboardData = new DataTransfer();
    clipboardData.setData('text/plain', block);
    document.activeElement!.dispatchEvent(new ClipboardEvent('paste', { clipboardData, bubbles: true, cancelable: true }));
  }, text);
/** Without the deviations, which come a moment after the numbers. */
const sentence = async (page: Page): Promise<string> =>
  (await page.locator('.sentence').innerText()).replaceAll('\u00a0', ' ').replaceAll(/ ± [\d.]+°/g, '');
const rowCount = (page: Page, count: number): Promise<unknown> =>
  page.waitForFunction((wished) => document.querySelectorAll('#readings tr[data-reading]').length === wished, count);

function expectQuiet({ consoleErrors, foreignRequests }: Visit): void {
  expect(consoleErrors).toEqual([]);
  expect(foreignRequests).toEqual([]);
}

/** A player of one's own without any reading. */
async function emptyTable(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Start your own player' }).press('Enter');
  await page.locator('#readings tr[data-reading]').first().waitFor();
  const takeOut = page.getByRole('button', { name: /^Take .+ out$/ });
  await takeOut.focus();
  while ((await page.locator('#readings tr[data-reading]').count()) > 0) await page.keyboard.press('Enter');
}

describe('typing in the table', () => {
  test('three notes and two takes of them, by keys alone', async () => {
    const visit = await open();
    const { page } = visit;
    await emptyTable(page);
    await page.getByRole('button', { name: 'Add a note' }).press('Enter');
    expect(await focused(page)).toBe('0 note');
    await page.keyboard.type('C4');
    await press(page, 'Tab', 'Tab');
    await page.keyboard.type('0');
    await press(page, 'Tab');
    await page.keyboard.type('0');
    // A run of Tabs is gone on with below its beginning, and a row is added for it.
    await press(page, 'Enter');
    expect(await focused(page)).toBe('1 note');
    await page.keyboard.type('E4');
    await press(page, 'Tab', 'Tab');
    await page.keyboard.type('1,5');
    // Live: the sentence speaks of what is typed before the cell is left.
    expect(await sentence(page)).toContain('At E4 the rim is 1.5 mm above home');
    await press(page, 'Tab');
    await page.keyboard.type('-0.5');
    await press(page, 'Enter');
    await page.keyboard.type('G4');
    await press(page, 'Tab', 'Tab');
    await page.keyboard.type('2.5');
    await press(page, 'Tab');
    await page.keyboard.type('.3');
    await press(page, 'Shift+Tab');
    expect(await focused(page)).toBe('2 travelUp');
    await page.getByRole('button', { name: 'Add take 2 of all notes' }).press('Enter');
    expect(await focused(page)).toBe('3 travelUp');
    for (const text of ['0.2', '1.7', '2.7']) {
      await page.keyboard.type(text);
      await press(page, 'Enter');
    }
    // Down a column nothing is added at its end.
    expect(await shown(page, 'note', 'take', 'travelUp', 'travelRight')).toEqual([
      ['C4', '', '0.0', '0.0'],
      ['E4', '', '1.5', '−0.5'],
      ['G4', '', '2.5', '0.3'],
      ['C4', '2', '0.2', '0.0'],
      ['E4', '2', '1.7', '0.0'],
      ['G4', '2', '2.7', '0.0'],
    ]);
    expect(await sentence(page)).toContain('At G4 (mean of 2 takes) the rim is 2.6 mm up and 0.1 mm to the player’s right of home');
    expect(await page.locator('#readings').innerText()).toContain('go by the mean of its 2 takes, 2.60');
    expectQuiet(visit);
    await visit.close();
  });

  test('an angle of the horn that nobody saw is no number: emptied it is unseen, typed it is seen', async () => {
    const visit = await open();
    const { page } = visit;
    const right = cell(page, 0, 'hornRight');
    await cell(page, 0, 'hornUp').focus();
    await page.keyboard.type('-9');
    await press(page, 'ArrowDown');
    await right.focus();
    await press(page, 'Delete', 'ArrowDown');
    expect([await right.inputValue(), await right.getAttribute('placeholder')]).toEqual(['', 'unseen']);
    // The number that stands for an unseen angle is 0; a 0 that is typed was seen.
    await right.focus();
    await page.keyboard.type('0');
    await press(page, 'ArrowDown');
    expect([await right.inputValue(), await right.getAttribute('placeholder')]).toEqual(['0.0', '']);
    await right.focus();
    await press(page, 'Delete', 'ArrowLeft', 'Delete', 'ArrowDown');
    expect((await shown(page, 'hornUp', 'hornRight'))[0]).toEqual(['', '']);
    expect(await right.getAttribute('placeholder')).toBe('');
    expectQuiet(visit);
    await visit.close();
  });

  test('arrow keys go from cell to cell, and within the text once it is edited', async () => {
    const visit = await open();
    const { page } = visit;
    await cell(page, 1, 'travelUp').focus();
    await press(page, 'ArrowRight');
    expect(await focused(page)).toBe('1 travelRight');
    await press(page, 'ArrowDown', 'ArrowLeft', 'ArrowLeft');
    expect(await focused(page)).toBe('2 take');
    await press(page, 'End');
    expect(await focused(page)).toBe('2 ease');
    await press(page, 'Home', 'Control+End');
    expect(await focused(page)).toBe('7 note');
    await cell(page, 1, 'travelUp').focus();
    await page.keyboard.type('1.25');
    await press(page, 'ArrowLeft', 'ArrowLeft', '4');
    expect(await cell(page, 1, 'travelUp').inputValue()).toBe('1.425');
    await press(page, 'Escape');
    expect(await shown(page, 'travelUp').then((rows) => rows[1])).toEqual(['−1.1']);
    // Everything is marked again: typing replaces.
    await page.keyboard.type('7');
    expect(await cell(page, 1, 'travelUp').inputValue()).toBe('7');
    await press(page, 'Escape', 'F2', 'Backspace', '3');
    expect(await cell(page, 1, 'travelUp').inputValue()).toBe('−1.3');
    await press(page, 'Shift+Enter');
    expect(await focused(page)).toBe('0 travelUp');
    await press(page, 'Delete', 'ArrowRight', 'Delete', 'ArrowDown');
    expect((await shown(page, 'travelUp', 'travelRight')).slice(0, 2)).toEqual([['', ''], ['−1.3', '−0.3']]);
    expectQuiet(visit);
    await visit.close();
  });

  test('a letter chooses a word, Delete takes it away', async () => {
    const visit = await open();
    const { page } = visit;
    const air = cell(page, 0, 'airstream');
    await air.focus();
    await press(page, 'u');
    expect(await air.inputValue()).toBe('up');
    await press(page, '?');
    expect(await air.inputValue()).toBe('not sure');
    await press(page, 'Delete');
    expect(await air.inputValue()).toBe('');
    await press(page, 'd', 'ArrowDown');
    expect(await focused(page)).toBe('1 airstream');
    await page.locator('#readings').getByRole('radio', { name: 'travel', exact: true }).check({ force: true });
    await cell(page, 0, 'direction').focus();
    await press(page, 'd');
    expect(await cell(page, 0, 'direction').inputValue()).toBe('descending');
    await press(page, 'u');
    expect(await cell(page, 0, 'direction').inputValue()).toBe('ascending');
    expectQuiet(visit);
    await visit.close();
  });

  test('a wrong text stays where it was typed, is answered, and is not in the record; it moves with its row', async () => {
    const visit = await open();
    const { page } = visit;
    const before = await sentence(page);
    await cell(page, 7, 'travelUp').focus();
    await page.keyboard.type('3x');
    await press(page, 'Enter');
    const wrong = cell(page, 7, 'travelUp');
    expect(await wrong.inputValue()).toBe('3x');
    expect(await wrong.getAttribute('aria-invalid')).toBe('true');
    const words = page.locator(`[id="${await wrong.getAttribute('aria-describedby')}"]`);
    expect(await words.innerText()).toBe('Not taken. “3x” as travel up, mm. Allowed: a number from −60 to 60 mm.');
    expect(await sentence(page)).toBe(before);
    await cell(page, 7, 'travelRight').focus();
    await page.keyboard.type('2');
    await press(page, 'Alt+Shift+ArrowUp');
    expect(await focused(page)).toBe('6 travelRight');
    expect(await cell(page, 6, 'travelUp').inputValue()).toBe('3x');
    expect(await shown(page, 'note', 'travelRight').then((rows) => rows.slice(6))).toEqual([['B♭5', '2.0'], ['F5', '0.9']]);
    await cell(page, 6, 'travelUp').focus();
    await press(page, 'Escape');
    expect(await cell(page, 6, 'travelUp').inputValue()).toBe('3.6');
    expect(await page.locator('.readings [aria-invalid="true"]').count()).toBe(0);
    expectQuiet(visit);
    await visit.close();
  });

  test('one visit to a cell is one step back, and the keys for it work in the cell', async () => {
    const visit = await open();
    const { page } = visit;
    const travel = async (): Promise<string[]> => (await shown(page, 'travelUp', 'travelRight'))[6]!;
    await cell(page, 6, 'travelUp').focus();
    await page.keyboard.type('2.25');
    await press(page, 'Tab');
    await page.keyboard.type('0.5');
    await press(page, 'Enter');
    expect(await travel()).toEqual(['2.25', '0.5']);
    await press(page, 'Control+z');
    expect(await travel()).toEqual(['2.25', '0.9']);
    await press(page, 'Control+z');
    expect(await travel()).toEqual(['2.6', '0.9']);
    await press(page, 'Control+Shift+z');
    expect(await travel()).toEqual(['2.25', '0.9']);
    // A value that changed under the cursor is marked: typing replaces it.
    await cell(page, 7, 'travelUp').focus();
    await press(page, 'Control+z', '9');
    expect(await cell(page, 7, 'travelUp').inputValue()).toBe('9');
    expectQuiet(visit);
    await visit.close();
  });
});

describe('blocks from a spreadsheet', () => {
  const block = 'E4\t2\t1,5\t-0,25\nG4\t2\tabout 2\t0,5\nB4\t2\t3,5\t1\n';

  test('are put in with decimal commas, in one step; a wrong cell is marked and costs no other', async () => {
    const visit = await open();
    const { page } = visit;
    const before = await shown(page, 'note', 'take', 'travelUp', 'travelRight', 'ease');
    await cell(page, 7, 'note').focus();
    await paste(page, block);
    await rowCount(page, 10);
    const after = await shown(page, 'note', 'take', 'travelUp', 'travelRight', 'ease');
    expect(after.slice(0, 7)).toEqual(before.slice(0, 7));
    expect(after.slice(7)).toEqual([
      // What was not pasted over stays.
      ['E4', '2', '1.5', '−0.25', before[7]![4]],
      ['G4', '2', 'about 2', '0.5', ''],
      ['B4', '2', '3.5', '1.0', ''],
    ]);
    expect(await page.locator('.readings-wrong').innerText()).toContain('One cell could not be taken');
    await page.getByRole('button', { name: 'Go to it' }).press('Enter');
    expect(await focused(page)).toBe('8 travelUp');
    await page.getByRole('button', { name: 'Undo' }).click();
    expect(await shown(page, 'note', 'take', 'travelUp', 'travelRight', 'ease')).toEqual(before);
    expect(await page.locator('.readings [aria-invalid="true"]').count()).toBe(0);
    await page.getByRole('button', { name: 'Redo' }).click();
    expect(await cell(page, 8, 'travelUp').inputValue()).toBe('about 2');
    await cell(page, 8, 'travelUp').fill('2');
    await press(page, 'Enter');
    expect(await page.locator('.readings [aria-invalid="true"]').count()).toBe(0);
    expectQuiet(visit);
    await visit.close();
  });

  test('the whole table can be copied and comes back as it was', async () => {
    const visit = await open();
    const { page } = visit;
    await page.context().grantPermissions(['clipboard-read', 'clipboard-write']);
    const columns = ['note', 'take', 'travelUp', 'travelRight', 'hornUp', 'hornRight', 'airstream', 'ease'];
    const before = await shown(page, ...columns);
    await page.getByRole('button', { name: 'Copy table' }).click();
    await page.waitForFunction(() => document.querySelector('#readings [role="status"]')?.textContent?.includes('copied'));
    const copied = await page.evaluate(() => navigator.clipboard.readText());
    expect(copied.split('\n')).toHaveLength(before.length + 1);
    await emptyTable(page);
    await page.getByRole('button', { name: 'Add a note' }).press('Enter');
    await paste(page, copied);
    await rowCount(page, before.length);
    expect(await shown(page, ...columns)).toEqual(before);
    expectQuiet(visit);
    await visit.close();
  });
});

test('rows are added, doubled, moved, ordered and taken out by buttons, each one step', async () => {
  const visit = await open();
  const { page } = visit;
  const notes = async (): Promise<string> => (await shown(page, 'note')).flat().join(' ');
  const start = await notes();
  expect(start).toBe('F3 B♭3 D4 F4 B♭4 D5 F5 B♭5');
  await cell(page, 1, 'note').focus();
  await page.getByRole('button', { name: 'Move up' }).click();
  expect(await notes()).toBe('B♭3 F3 D4 F4 B♭4 D5 F5 B♭5');
  await page.getByRole('button', { name: 'Duplicate' }).click();
  expect(await notes()).toBe('B♭3 B♭3 F3 D4 F4 B♭4 D5 F5 B♭5');
  expect(await cell(page, 1, 'note').getAttribute('data-muted')).toBe('true');
  await page.getByRole('button', { name: 'Order by pitch' }).click();
  expect(await notes()).toBe('F3 B♭3 B♭3 D4 F4 B♭4 D5 F5 B♭5');
  await page.getByRole('button', { name: 'Take B♭3 out' }).click();
  expect(await notes()).toBe(start);
  for (let step = 0; step < 4; step++) await page.getByRole('button', { name: 'Undo' }).click();
  expect(await notes()).toBe(start);
  await page.getByText('One value for all readings').click();
  await page.getByLabel('Set', { exact: true }).selectOption('travel deviation, mm');
  await page.getByLabel('to', { exact: true }).fill('0,5');
  await page.getByRole('button', { name: 'Set in all readings' }).click();
  await page.locator('#readings').getByRole('radio', { name: 'travel', exact: true }).check({ force: true });
  expect(new Set((await shown(page, 'travelSd')).flat())).toEqual(new Set(['0.5']));
  expectQuiet(visit);
  await visit.close();
});

describe('files', () => {
  let folder: string;
  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'readings-'));
  });
  afterAll(() => rm(folder, { recursive: true, force: true }));

  test('a table is saved, opened with a look at it first, and its wrong cell marked', async () => {
    const visit = await open();
    const { page } = visit;
    await page.locator('#player-label').fill('A/B: “test” <1>');
    await page.getByText('Tables and exercises').click();
    await page.getByRole('radio', { name: 'comma, semicolons between cells' }).check({ force: true });
    const columns = ['note', 'take', 'travelUp', 'travelRight', 'hornUp', 'hornRight', 'airstream', 'ease'];
    const before = await shown(page, ...columns);
    const [file] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: 'Save as a table (CSV)' }).click()]);
    expect(file.suggestedFilename()).toBe('A-B-test-1-readings.csv');
    const path = join(folder, 'saved.csv');
    await file.saveAs(path);
    const text = await readFile(path, 'utf8');
    expect(text).toContain('-14,5');
    const changed = join(folder, 'changed.csv');
    await writeFile(changed, text.replace('-14,5', 'steep'));
    await page.getByLabel('Table of readings').setInputFiles(changed);
    await page.getByText('Nothing is changed yet').waitFor();
    expect(await page.locator('.incoming__wrong').allInnerTexts()).toEqual(['not taken: “steep”']);
    expect(await shown(page, ...columns)).toEqual(before);
    await page.getByRole('button', { name: 'Replace the readings' }).click();
    expect(await cell(page, 0, 'hornUp').inputValue()).toBe('steep');
    const after = await shown(page, ...columns);
    expect(after.slice(1)).toEqual(before.slice(1));
    await page.getByLabel('Table of readings').setInputFiles(path);
    await page.getByRole('button', { name: 'Add as further takes' }).click();
    await rowCount(page, 16);
    expect((await shown(page, ...columns)).slice(8)).toEqual(before.map((row) => row.with(1, '2')));
    await page.getByRole('button', { name: 'Undo' }).click();
    await page.getByRole('button', { name: 'Undo' }).click();
    expect(await shown(page, ...columns)).toEqual(before);
    await page.getByLabel('Table of readings').setInputFiles({ name: 'picture.csv', mimeType: 'text/csv', buffer: Buffer.from([0, 1, 2, 3, 0]) });
    await page.getByText('Not taken in.').waitFor();
    expect(await shown(page, ...columns)).toEqual(before);
    expectQuiet(visit);
    await visit.close();
  });

  test('the notes of an exercise are set up from a MIDI file, of the part chosen', async () => {
    const song = new midi.Midi();
    const scale = song.addTrack();
    scale.name = 'Scale';
    [60, 62, 64, 62, 60].forEach((pitch, index) => scale.addNote({ midi: pitch, time: index, duration: 1 }));
    const other = song.addTrack();
    other.name = 'Fifths';
    [60, 67].forEach((pitch, index) => other.addNote({ midi: pitch, time: index, duration: 1 }));
    const visit = await open();
    const { page } = visit;
    await page.getByText('Tables and exercises').click();
    expect(visit.requests.some((url) => /exerciseMidi/i.test(url))).toBe(false);
    const file = { name: 'exercise.mid', mimeType: 'audio/midi', buffer: Buffer.from(song.toArray()) };
    await page.getByLabel('Exercise file').setInputFiles(file);
    await page.getByLabel('Part', { exact: true }).selectOption({ label: 'Fifths, 2 notes' });
    expect(await page.locator('.incoming__notes').innerText()).toBe('C4 G4');
    await page.getByRole('button', { name: 'Add the notes that are missing' }).click();
    await rowCount(page, 10);
    expect((await shown(page, 'note', 'travelUp')).slice(8)).toEqual([['C4', ''], ['G4', '']]);
    await page.getByLabel('Exercise file').setInputFiles(file);
    await page.getByRole('button', { name: 'Replace the readings' }).click();
    await rowCount(page, 5);
    await page.locator('#readings').getByRole('radio', { name: 'travel', exact: true }).check({ force: true });
    expect(await shown(page, 'note', 'direction')).toEqual([
      ['C4', 'ascending'],
      ['D4', 'ascending'],
      ['E4', 'ascending'],
      ['D4', 'descending'],
      ['C4', 'descending'],
    ]);
    expectQuiet(visit);
    await visit.close();
  });
});

test('German names stand wherever notes are named, and are typed so', async () => {
  const visit = await open();
  const { page } = visit;
  await page.getByText('How travel is typed and notes are named').click();
  await page.getByRole('radio', { name: /^German/ }).check({ force: true });
  expect((await shown(page, 'note')).flat()).toEqual(['F3', 'B3', 'D4', 'F4', 'B4', 'D5', 'F5', 'B5']);
  await cell(page, 7, 'note').focus();
  await page.keyboard.type('h2');
  await press(page, 'Tab');
  expect(await cell(page, 7, 'note').inputValue()).toBe('H5');
  expect(await sentence(page)).toContain('At H5 the rim is');
  expect(await page.locator('#this-note-heading').innerText()).toBe('At H5');
  expect(await page.locator('.staff-name').allInnerTexts()).toContain('H5');
  expect(await page.locator('.shown-row__now').innerText()).toContain('H5');
  await page.getByRole('radio', { name: /^solfège/ }).check({ force: true });
  expect(await sentence(page)).toContain('At Si5 the rim is');
  await page.reload();
  await page.locator('.sentence').waitFor();
  expect(await sentence(page)).toContain('At Si5 the rim is');
  expectQuiet(visit);
  await visit.close();
});

describe('on any window', () => {
  let visit: Visit;
  beforeAll(async () => {
    visit = await open();
    const { page } = visit;
    await cell(page, 7, 'travelUp').fill('3x');
    await cell(page, 6, 'note').focus();
    await page.evaluate(() => document.querySelectorAll('#readings details').forEach((one) => ((one as HTMLDetailsElement).open = true)));
    await page
      .getByLabel('Table of readings')
      .setInputFiles({ name: 'table.csv', mimeType: 'text/csv', buffer: Buffer.from('Note,Travel up (mm),Remark\nC4,x,easy\nE4,1.5,\n') });
    await page.locator('.incoming').waitFor();
  });
  afterAll(() => visit.close());

  test.each(['Paper', 'Projector'].flatMap((theme) => ['for a lesson', 'all'].map((columns) => ({ theme, columns }))))(
    'axe finds nothing in the readings ($theme, columns $columns)',
    async ({ theme, columns }) => {
      const { page } = visit;
      await page.getByRole('radio', { name: theme }).check({ force: true });
      await page.locator('#readings').getByRole('radio', { name: columns, exact: true }).check({ force: true });
      expect(await axeFaults(page, WITH_GOOD_PRACTICE, '#readings')).toEqual([]);
    },
  );

  // 1440 × 900 at 200 % is 720 × 450.
  test.each([['for a lesson', 390, 844], ['all', 390, 844], ['for a lesson', 720, 450], ['all', 720, 450], ['all', 1440, 900]] as const)(
    'with columns %s at %d × %d only the table’s own box moves sideways',
    async (columns, width, height) => {
      const { page } = visit;
      await page.setViewportSize({ width, height });
      await page.locator('#readings').getByRole('radio', { name: columns, exact: true }).check({ force: true });
      expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(0);
      expect(await page.evaluate(() => document.querySelector('#readings')!.scrollWidth - document.querySelector('#readings')!.clientWidth)).toBeLessThanOrEqual(0);
      // The note is still seen when the last column is.
      await page.locator('#readings .readings-box').evaluate((box) => (box.scrollLeft = box.scrollWidth));
      const [note, box] = [await cell(page, 0, 'note').boundingBox(), await page.locator('#readings .readings-box').boundingBox()];
      expect(Math.abs(note!.x - box!.x)).toBeLessThan(4);
    },
  );

  test('but for all of them at once, the columns fit their box at 1440 × 900', async () => {
    const { page } = visit;
    await page.setViewportSize({ width: 1440, height: 900 });
    await page.getByRole('radio', { name: 'Paper' }).check({ force: true });
    for (const columns of ['for a lesson', 'travel', 'horn', 'air and ease', 'jaw and force']) {
      await page.locator('#readings').getByRole('radio', { name: columns, exact: true }).check({ force: true });
      expect(await page.locator('#readings .readings-box').evaluate((box) => box.scrollWidth - box.clientWidth), columns).toBeLessThanOrEqual(0);
    }
  });
});
