/** What is kept in the browser: when the tab is killed, in two tabs, where nothing can be kept, as files; and that nothing leaves. */
import { readFile } from 'node:fs/promises';
import type { BrowserContext, Page } from 'playwright-core';
import { describe, expect, inject, test } from 'vitest';
import { createRandom } from '../../src/core/random';
import { type OpenOptions, type Visit, openPage } from './support/chromium';

const visits: Visit[] = [];

async function open(options: OpenOptions = {}): Promise<Visit> {
  const visit = await openPage({ reducedMotion: 'reduce', webgl: false, ...options });
  visits.push(visit);
  await ready(visit.page);
  return visit;
}

const ready = (page: Page): Promise<void> => page.locator('.sentence').waitFor();
const label = (page: Page) => page.locator('#player-label');
const travel = (page: Page) => page.locator('#readings tr[data-reading="0"] [data-cell="travelUp"]');
/** Without the deviations, which come a moment after the numbers. */
const sentence = async (page: Page): Promise<string> => (await page.locator('.sentence').innerText()).replaceAll(/ ± [\d.]+°/g, '');
const notice = (page: Page) => page.locator('.notebook > .keeping--warns');
const kept = (page: Page) => page.getByText('The last change is kept in this browser.').first().waitFor();

/** Another tab of the same browser. */
async function openBeside(context: BrowserContext, address = inject('appAddress')): Promise<Page> {
  const beside = await context.newPage();
  await beside.goto(address);
  await ready(beside);
  return beside;
}

/** The renderer dies on the spot: no event of leaving, nothing finished. */
async function kill(page: Page): Promise<void> {
  const crashed = new Promise((done) => page.once('crash', done));
  const session = await page.context().newCDPSession(page);
  session.send('Page.crash').catch(() => undefined);
  await crashed;
  await page.close();
}

function expectQuiet({ consoleErrors, foreignRequests }: Visit): void {
  expect(consoleErrors).toEqual([]);
  expect(foreignRequests).toEqual([]);
}

describe('a tab that is killed while editing', () => {
  const ROUNDS = 24;
  /** What may be missing: the latest edits of so long a time. */
  const MAY_BE_LOST_MS = 500;

  test(`at ${ROUNDS} random moments: the store opens, and at most the last half second is missing`, async () => {
    const { uniform: random } = createRandom(20260301);
    const visit = await open();
    let { page } = visit;
    const context = page.context();
    let count = 0;
    for (let round = 0; round < ROUNDS; round++) {
      const start = { label: await label(page).inputValue(), travel: await travel(page).inputValue() };
      const edits = [{ ...start, at: 0 }];
      const end = Date.now() + 100 + random() * 1800;
      while (Date.now() < end) {
        count += 1;
        const next = { ...edits.at(-1)!, ...(random() < 0.5 ? { label: `edit ${count}` } : { travel: (1 + (count % 500) / 100).toFixed(2) }) };
        if (next.label === edits.at(-1)!.label) await travel(page).fill(next.travel);
        else await label(page).fill(next.label);
        edits.push({ ...next, at: Date.now() });
        await page.waitForTimeout(random() * 120);
      }
      const killedAt = Date.now();
      await kill(page);
      page = await openBeside(context);
      const found = { label: await label(page).inputValue(), travel: Number(await travel(page).inputValue()) };
      const safe = edits.findLastIndex(({ at }) => at <= killedAt - MAY_BE_LOST_MS);
      const allowed = edits.slice(safe).map((one) => ({ label: one.label, travel: Number(one.travel) }));
      expect(allowed, `round ${round}, edit ${count}`).toContainEqual(found);
      expect(await notice(page).count(), `round ${round}`).toBe(0);
    }
    expect(count).toBeGreaterThan(ROUNDS);
    expectQuiet(visit);
    await visit.close();
  }, 240_000);
});

describe('one player in two tabs', () => {
  const OPEN_ELSEWHERE = 'This player is open in another tab, so it is only shown here.';

  test('the second only shows it, until it goes on there with the newest; then the first only shows it', async () => {
    const visit = await open();
    const first = visit.page;
    await label(first).fill('From the first');
    await kept(first);
    const second = await openBeside(first.context());
    await notice(second).getByText(OPEN_ELSEWHERE).waitFor();
    const said = await sentence(second);
    for (const field of [label(second), travel(second), second.getByRole('button', { name: 'Order by pitch' })]) expect(await field.isDisabled()).toBe(true);
    // What is no field is refused by the page itself.
    await second.locator('.stage-handle').first().focus();
    await second.keyboard.press('ArrowUp');
    expect(await label(second).inputValue()).toBe('From the first');
    expect(await sentence(second)).toBe(said);
    expect(await second.getByRole('button', { name: 'Undo' }).isDisabled()).toBe(true);
    // Not waited for: the first is asked to save before it lets go.
    await label(first).fill('The newest');
    await notice(second).getByRole('button', { name: 'Go on here' }).click();
    await notice(second).waitFor({ state: 'detached' });
    expect(await label(second).inputValue()).toBe('The newest');
    await notice(first).getByText(OPEN_ELSEWHERE).waitFor();
    await label(second).fill('Gone on');
    expect(await label(first).isDisabled()).toBe(true);
    expect(await label(first).inputValue()).toBe('The newest');
    await kept(second);
    await notice(first).getByRole('button', { name: 'Go on here' }).click();
    await first.waitForFunction(() => document.querySelector<HTMLInputElement>('#player-label')!.value === 'Gone on');
    await notice(second).getByText(OPEN_ELSEWHERE).waitFor();
    // One player, changed by turns: no copy of it.
    expect(await first.locator('#lessons .kept-list__name').filter({ hasText: 'Gone on' }).count()).toBe(1);
    expect(await first.getByText('copy from this tab').count()).toBe(0);
    // A tab that is killed lets go.
    await kill(first);
    await notice(second).getByRole('button', { name: 'Go on here' }).click();
    await notice(second).waitFor({ state: 'detached' });
    await label(second).fill('After all');
    await kept(second);
    expectQuiet(visit);
    await visit.close();
  });
});

describe('where nothing can be kept', () => {
  const MISSING = 'This browser has no place where a page can keep things, so nothing is kept: save a file before you close.';
  const CANNOT = 'This browser does not let the page keep anything (a private window, or a setting), so nothing is kept: save a file before you close.';
  const SILENT = 'The browser’s store does not answer. Close other tabs of this page and reload it; until then nothing is kept: save a file before you close.';
  const cases: readonly (readonly [name: string, script: string, words: string])[] = [
    ['no IndexedDB', `Object.defineProperty(window, 'indexedDB', { value: undefined })`, MISSING],
    ['a browser that throws when asked for it', `Object.defineProperty(window, 'indexedDB', { get() { throw new DOMException('no', 'SecurityError'); } })`, MISSING],
    ['opening it throws', `IDBFactory.prototype.open = () => { throw new DOMException('no', 'SecurityError'); }`, CANNOT],
    ['opening it fails', `{ const open = IDBFactory.prototype.open; IDBFactory.prototype.open = function (name) { const request = open.call(this, name, 1); queueMicrotask(() => request.addEventListener('upgradeneeded', () => request.transaction.abort())); return request; }; }`, CANNOT],
    ['a store that never answers', `IDBFactory.prototype.open = () => ({ transaction: null })`, SILENT],
    ['neither it nor the small storage', `for (const name of ['indexedDB', 'localStorage']) Object.defineProperty(window, name, { get() { throw new DOMException('no', 'SecurityError'); } })`, MISSING],
  ];

  test.each(cases)('%s: the page says what to do and works', async (_name, script, words) => {
    const visit = await open({ before: async (page) => void (await page.addInitScript(script)) });
    const { page } = visit;
    await notice(page).getByText(words).waitFor();
    await page.locator('.number-field--large input').first().fill('1.5');
    expect(await page.locator('.sentence').innerText()).toContain('1.5\u00a0mm up');
    await page.getByRole('button', { name: 'Start your own player' }).click();
    await label(page).fill('In memory');
    await page.getByRole('button', { name: 'New lesson' }).click();
    // As long as the page is open all is as ever, the list of players too.
    await page.locator('#lessons .kept-list__row').filter({ hasText: 'In memory' }).filter({ hasText: '2 lessons' }).waitFor();
    const saved = await downloaded(page, /^Save In memory as a file/);
    expect(saved.players[0]).toMatchObject({ label: 'In memory', lessons: [{}, {}] });
    expect(await notice(page).innerText()).toContain(words);
    expectQuiet(visit);
    await visit.close();
  });

  test('a full store says so, keeps working, and keeps all once there is room', async () => {
    const visit = await open();
    const { page } = visit;
    await label(page).fill('Before');
    await kept(page);
    await page.evaluate(`{
      const put = IDBObjectStore.prototype.put;
      window.makeRoom = () => { IDBObjectStore.prototype.put = put; };
      IDBObjectStore.prototype.put = () => { throw new DOMException('full', 'QuotaExceededError'); };
    }`);
    await label(page).fill('While full');
    await notice(page).getByText('The browser’s store is full, so the last changes are not kept: save a file, then make room in the browser’s settings.').waitFor();
    await page.locator('.number-field--large input').first().fill('1.5');
    expect(await page.locator('.sentence').innerText()).toContain('1.5\u00a0mm up');
    expect((await downloaded(page, /^Save While full as a file/)).players[0]).toMatchObject({ label: 'While full' });
    await page.evaluate('window.makeRoom()');
    // Tried again without anybody doing anything.
    await notice(page).waitFor({ state: 'detached' });
    await kept(page);
    await page.reload();
    await ready(page);
    expect(await label(page).inputValue()).toBe('While full');
    expectQuiet(visit);
    await visit.close();
  });
});

interface PlayersFile {
  readonly format: string;
  readonly version: number;
  readonly players: readonly { readonly id: string; readonly label: string; readonly lessons: readonly { readonly readings: readonly object[] }[] }[];
}

async function downloaded(page: Page, button: string | RegExp): Promise<PlayersFile> {
  const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: button }).click()]);
  return JSON.parse(await readFile(await download.path(), 'utf8')) as PlayersFile;
}

/** What stands in the browser's store, row by row. */
const rows = (page: Page): Promise<unknown> =>
  page.evaluate(
    () =>
      new Promise((done, failed) => {
        const opening = indexedDB.open('rimpath');
        opening.onerror = () => failed(opening.error ?? new Error('not opened'));
        opening.onsuccess = () => {
          const asked = opening.result.transaction('players').objectStore('players').getAll();
          asked.onsuccess = () => {
            opening.result.close();
            done(asked.result);
          };
        };
      }),
  );

const chooseFile = (page: Page, name: string, content: string | Buffer): Promise<void> =>
  page.getByLabel('Player file').setInputFiles({ name, mimeType: 'application/json', buffer: Buffer.from(content) });
const all = (page: Page): Promise<PlayersFile> => downloaded(page, 'Save all players as one file');
const row = (page: Page, name: string) =>
  page.locator('#lessons .kept-list__row').filter({ has: page.locator('.kept-list__name', { hasText: name }) }).filter({ hasText: /lessons?,|lessons?$/m });

/** Two players of one's own, "Anna" and "Ben", the second on the page. */
async function openWithTwo(): Promise<Visit> {
  const visit = await open();
  for (const name of ['Anna', 'Ben']) {
    await visit.page.getByRole('button', { name: 'Start your own player' }).click();
    await label(visit.page).fill(name);
    await kept(visit.page);
  }
  return visit;
}

describe('players as files', () => {
  test('one and all are saved; deleting asks once and can be put back', async () => {
    const visit = await openWithTwo();
    const { page } = visit;
    expect((await downloaded(page, 'Save Ben as a file')).players.map((one) => one.label)).toEqual(['Ben']);
    const before = await all(page);
    expect(before).toMatchObject({ format: 'rimpath-record', version: 2 });
    expect(before.players.map((one) => one.label).sort()).toEqual(['Anna', 'Ben']);
    await page.getByRole('button', { name: 'Delete Anna' }).click();
    const question = page.getByRole('group', { name: 'Delete Anna?' });
    expect(await question.innerText()).toContain('Until this page is closed it can be put back, but films and scans that were kept with it are forgotten at once.');
    // The answer that changes nothing is at hand, and Escape gives it.
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('Keep it');
    await page.keyboard.press('Escape');
    expect(await all(page)).toEqual(before);
    await page.getByRole('button', { name: 'Delete Anna' }).click();
    await question.getByRole('button', { name: 'Delete', exact: true }).click();
    await page.getByText('Deleted: Anna.').waitFor();
    expect((await all(page)).players.map((one) => one.label)).toEqual(['Ben']);
    await page.getByRole('button', { name: 'Put Anna back' }).click();
    await page.getByText('Deleted: Anna.').waitFor({ state: 'detached' });
    expect(await all(page)).toEqual(before);
    // The one on the page as well: another is opened in its place.
    await page.getByRole('button', { name: 'Delete Ben' }).click();
    await page.getByRole('group', { name: 'Delete Ben?' }).getByRole('button', { name: 'Delete', exact: true }).click();
    await page.waitForFunction(() => document.querySelector<HTMLInputElement>('#player-label')!.value === 'Anna');
    await page.getByRole('button', { name: 'Put Ben back' }).click();
    await row(page, 'Ben').waitFor();
    expect(await all(page)).toEqual(before);
    expectQuiet(visit);
    await visit.close();
  });

  test('what a file would change is shown before it does', async () => {
    const visit = await openWithTwo();
    const { page } = visit;
    const before = await all(page);
    const ben = before.players.find((one) => one.label === 'Ben')!;
    const [lesson] = ben.lessons;
    const changed = { ...ben, label: 'Ben B.', lessons: [{ ...lesson!, remark: 'From the file', readings: lesson!.readings.slice(1) }] };
    const file = JSON.stringify({ ...before, players: [...before.players.filter((one) => one !== ben), changed, { ...ben, id: 'cleo', label: 'Cleo' }] });
    const preview = page.getByRole('group', { name: 'What lessons.json would change' });
    const open = async (): Promise<void> => {
      await chooseFile(page, 'lessons.json', file);
      await preview.waitFor();
    };
    await open();
    const words = await preview.innerText();
    expect(words).toContain('lessons.json has 3 players. Nothing has been changed yet.');
    expect(words).toMatch(/Anna\s+kept here already, just the same/);
    expect(words).toMatch(/Cleo\s+not kept here yet/);
    expect(words).toMatch(/Ben B\.\s+kept here already, with differences/);
    expect(words).toContain('label: “Ben” becomes “Ben B.”');
    expect(words).toMatch(/1 reading fewer/);
    expect(words).toContain('the remark changed');
    expect(await all(page)).toEqual(before);
    await page.getByRole('button', { name: 'Leave everything as it is' }).click();
    await page.getByText('Nothing was changed.').waitFor();
    expect(await all(page)).toEqual(before);

    // As suggested nothing that is kept is lost: the new one is added and the changed one stands beside the kept one.
    await open();
    await page.getByRole('button', { name: 'Take in 2 players' }).click();
    await page.getByText('Taken in: 2 players.').waitFor();
    expect((await all(page)).players.map((one) => one.label).sort()).toEqual(['Anna', 'Ben', 'Ben B. (2)', 'Cleo']);
    expect((await all(page)).players.filter(({ id }) => before.players.some((one) => one.id === id))).toEqual(expect.arrayContaining([...before.players]));

    // Replaced only by choice; the page shows it at once.
    await open();
    await preview.getByLabel('What to do with Ben B.').selectOption('Replace the one kept here');
    await page.getByRole('button', { name: 'Take in one player' }).click();
    await page.getByText('Taken in: 1 player.').waitFor();
    expect(await label(page).inputValue()).toBe('Ben B.');
    expect(await page.getByLabel('Remark on this lesson').inputValue()).toBe('From the file');
    expectQuiet(visit);
    await visit.close();
  });

  test('a damaged, newer, huge or other file is refused with its reason, and nothing is changed', async () => {
    const visit = await openWithTwo();
    const { page } = visit;
    const text = JSON.stringify(await all(page));
    const before = await rows(page);
    const refusals: readonly (readonly [name: string, content: string | Buffer, reason: string])[] = [
      ['cut.json', text.slice(0, text.length / 2), 'not JSON'],
      ['newer.json', text.replace('"version":2', '"version":7'), 'version: 7 is newer than this program reads; allowed: 1 to 5'],
      ['spoilt.json', text.replace('"newtons":20', '"newtons":-3'), ': -3; allowed:'],
      ['other.json', '{"format":"another","version":1}', 'format: "another"; allowed: "rimpath-record"'],
      ['letter.txt', 'Dear Anna, the lesson is on Monday.', 'not JSON'],
      ['empty.json', '', 'empty; allowed'],
      ['picture.json', Buffer.from([0xff, 0xd8, 0xff, 0xe0, 0, 0x10]), 'not UTF-8 text'],
      ['deep.json', '['.repeat(100_000), 'not JSON'],
      ['proto.json', text.replace('"players":[{', '"players":[{"__proto__":{"broken":true},"constructor":1,'), 'unknown field'],
      ['huge.json', Buffer.alloc(100_000_001, 0x20), '100000001 bytes; allowed: up to 100000000'],
    ];
    for (const [name, content, reason] of refusals) {
      await (content.length > 40_000_000 ? chooseHugeFile(page, name, content.length) : chooseFile(page, name, content));
      const answer = page.locator('#lessons .keeping--warns', { hasText: name });
      await answer.waitFor();
      expect(await answer.innerText()).toMatch(/^Not opened\.\s/);
      expect(await answer.innerText()).toContain(reason);
      expect(await page.getByRole('group', { name: /would change$/ }).count()).toBe(0);
      expect(await rows(page), name).toEqual(before);
    }
    expectQuiet(visit);
    await visit.close();
  });
});

test('a kept player that cannot be read is named, left as it is, and can be saved as a file', async () => {
  const visit = await open();
  const { page } = visit;
  await label(page).fill('Anna');
  await kept(page);
  await page.evaluate(() => new Promise<void>((resolve, reject) => {
    const opening = indexedDB.open('rimpath');
    opening.onsuccess = () => {
      const transaction = opening.result.transaction('players', 'readwrite');
      transaction.objectStore('players').put({ file: { format: 'rimpath-record', version: 2, players: '<b>gone</b>' }, revision: 3, changedAt: 5 }, 'spoilt');
      transaction.oncomplete = () => resolve();
      transaction.onerror = () => reject(new Error('not put'));
    };
  }));
  await page.reload();
  await ready(page);
  const line = page.locator('.kept-list__damaged');
  await line.waitFor();
  expect(await line.innerText()).toContain('What is kept as spoilt cannot be read, and is left as it is: players: "<b>gone</b>"');
  const [file] = await Promise.all([page.waitForEvent('download'), line.getByRole('button').click()]);
  expect(file.suggestedFilename()).toMatch(/^rimpath-unreadable-\d{4}-\d{2}-\d{2}\.json$/);
  expect(JSON.parse(await readFile(await file.path(), 'utf8'))).toMatchObject({ revision: 3, file: { players: '<b>gone</b>' } });
  expectQuiet(visit);
  await visit.close();
});

/** Made in the page: so large a file is not to travel there first. */
const chooseHugeFile = (page: Page, name: string, bytes: number): Promise<void> =>
  page.getByLabel('Player file').evaluate((input: HTMLInputElement, [fileName, size]) => {
    const transfer = new DataTransfer();
    transfer.items.add(new File([new Uint8Array(size).fill(0x20)], fileName));
    input.files = transfer.files;
    input.dispatchEvent(new Event('change', { bubbles: true }));
  }, [name, bytes] as const);

test('script in labels, remarks and names of files is text', async () => {
  const hostile = '<img src=x onerror="window.broken = 1"><script>window.broken = 2</script><b class="hostile">x</b>';
  const visit = await open();
  const { page } = visit;
  const dialogs: string[] = [];
  page.on('dialog', (dialog) => {
    dialogs.push(dialog.message());
    void dialog.dismiss();
  });
  await label(page).fill(hostile);
  await page.getByLabel('Remark on this lesson').fill(hostile);
  await page.locator('#readings summary', { hasText: /^More about/ }).click();
  await page.locator('#readings').getByLabel('Remark', { exact: true }).fill(hostile);
  await page.locator('#hand-out').getByLabel('What to try').fill(hostile);
  await kept(page);
  const file = await all(page);
  const name = '<img src=x onerror="window.broken = 3">.json';
  // As a file of another's, with more of it; then the same name on a file that is refused.
  const [player] = file.players;
  await chooseFile(page, name, JSON.stringify({ ...file, players: [{ ...player!, label: `${hostile}!` }, { ...player!, id: 'other', label: hostile }] }));
  await page.getByRole('group', { name: `What ${name} would change` }).waitFor();
  expect(await page.locator('.incoming').innerText()).toContain(hostile);
  await page.getByRole('button', { name: /^Take in/ }).click();
  await page.getByText(/^Taken in/).waitFor();
  await chooseFile(page, name, '{}');
  expect(await page.locator('#lessons .keeping--warns').innerText()).toContain(name);
  await page.reload();
  await ready(page);
  expect(await page.locator('#lessons').innerText()).toContain(hostile);
  await page.locator('.hand-out-frame').getByText('<img src=x', { exact: false }).first().waitFor();
  expect(await page.locator('img, .hostile, script:not([src])').count()).toBe(0);
  expect(await page.evaluate('window.broken')).toBeUndefined();
  expect(dialogs).toEqual([]);
  expectQuiet(visit);
  await visit.close();
});

describe('nothing leaves the page’s own server', () => {
  test('the page’s policy allows nothing else, and is obeyed', async () => {
    const visit = await open();
    const { page } = visit;
    const policy = await page.locator('meta[http-equiv="Content-Security-Policy"]').getAttribute('content');
    expect(policy).toMatch(/^default-src 'self';/);
    for (const source of ['connect-src', 'script-src']) expect(policy).not.toContain(source);
    expect(policy).not.toMatch(/https?:|\*/);
    const refused = await page.evaluate(async () => {
      const violations: string[] = [];
      document.addEventListener('securitypolicyviolation', ({ effectiveDirective }) => violations.push(effectiveDirective));
      await fetch('https://elsewhere.invalid/').catch(() => undefined);
      const beacon = new Image();
      await new Promise((done) => {
        beacon.onerror = done;
        beacon.src = 'https://elsewhere.invalid/picture.png';
      });
      return violations;
    });
    expect(refused).toEqual(['connect-src', 'img-src']);
    expect(visit.foreignRequests).toEqual([]);
    await visit.close();
  });

  test('of all that the pages of this file asked for', () => {
    const requests = visits.flatMap((one) => one.requests);
    const own = inject('appAddress');
    expect(requests.length).toBeGreaterThan(0);
    expect(requests.filter((url) => !url.startsWith(own) && !/^(data|blob):/.test(url))).toEqual([]);
  });
});
