/** What one file costs whoever opens it: from the double click to a path that moves, and its size as a message carries it. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { gzipSync } from 'node:zlib';
import { ONE_FILE_NAME, pageWithPicture } from '../../src/app/oneFilePage';
import { demoPlayers } from '../../src/records/library';
import { pictureOf, pictureText } from '../../src/records/sharedPicture';
import { closeBrowsers, visit } from '../browser/support/visit';
import { builtApp } from './builtApp';
import type { BenchGroup } from './harness';

const OPENINGS = 7;

interface Opening {
  /** On the clock, from the beginning of the navigation. */
  readonly clockMs: number;
  /** Time on the processor of the page's main thread until then. */
  readonly processorMs: number;
  /** On the clock, until the picture in three dimensions stands; null where there is none. */
  readonly threeMs: number | null;
}

/** Waits in the page for the drawing itself to have changed twice, which is what anybody opening it sees move first; and then for the one in three dimensions. */
const WATCH = `{
  const seen = new Set();
  const look = () => {
    const drawing = document.querySelector('.stage-flat-front')?.innerHTML;
    if (drawing) seen.add(drawing);
    if (seen.size > 2) window.movingMs ??= performance.now();
    const three = document.querySelector('.stage canvas');
    if (three && three.checkVisibility({ visibilityProperty: true })) window.threeMs = performance.now();
    else requestAnimationFrame(look);
  };
  requestAnimationFrame(look);
}`;

function onePage(): string {
  const picture = pictureOf(demoPlayers[0]!.player, '', { camera: 'three-quarter', angles: 'seated', horn: 'follow', selected: 0, cutOpen: false, toothNumbers: false }, {
    extent: 'lesson',
    ticks: { label: false, remarks: false, measurings: false },
  });
  const page = pageWithPicture(readFileSync(join(builtApp(), ONE_FILE_NAME), 'utf8'), pictureText(picture));
  if (page === null) throw new Error(`${ONE_FILE_NAME} holds no place for a picture`);
  return page;
}

async function openings(webgl: boolean): Promise<Opening[]> {
  const folder = mkdtempSync(join(tmpdir(), 'rimpath-one-file-'));
  const path = join(folder, 'one.html');
  writeFileSync(path, onePage());
  try {
    const found: Opening[] = [];
    for (let count = 0; count < OPENINGS; count++) {
      const { page, close } = await visit('about:blank', { webgl, before: async (blank) => void (await blank.addInitScript(WATCH)) });
      const session = await page.context().newCDPSession(page);
      await session.send('Performance.enable', { timeDomain: 'threadTicks' });
      await page.goto(pathToFileURL(path).href);
      await page.waitForFunction(() => 'movingMs' in window);
      const { metrics } = await session.send('Performance.getMetrics');
      const processor = metrics.find(({ name }) => name === 'TaskDuration');
      if (processor === undefined) throw new Error('the browser gives no TaskDuration');
      const clockMs = await page.evaluate<number>('window.movingMs');
      if (webgl) await page.waitForFunction(() => 'threeMs' in window);
      found.push({ clockMs, processorMs: processor.value * 1000, threeMs: webgl ? await page.evaluate<number>('window.threeMs') : null });
      await close();
    }
    return found;
  } finally {
    await closeBrowsers();
    rmSync(folder, { recursive: true, force: true });
  }
}

const measured = new Map<boolean, Promise<Opening[]>>();
function openedOnce(webgl: boolean): Promise<Opening[]> {
  const known = measured.get(webgl) ?? openings(webgl);
  measured.set(webgl, known);
  return known;
}

const stages = [
  { name: 'flat stage, no WebGL', webgl: false },
  { name: 'with WebGL, drawn by the processor', webgl: true },
] as const;

export const groups: readonly BenchGroup[] = [
  {
    title: 'One file from a disk to a moving path (Chromium)',
    seed: 1,
    cases: [
      ...stages.flatMap(({ name, webgl }) => [
        { name: `${name}: on the clock`, unit: 'ms', measure: async () => (await openedOnce(webgl)).map(({ clockMs }) => clockMs) },
        { name: `${name}: main thread, processor`, unit: 'ms', measure: async () => (await openedOnce(webgl)).map(({ processorMs }) => processorMs) },
      ]),
      { name: 'until it stands in three dimensions, on the clock', unit: 'ms', measure: async () => (await openedOnce(true)).flatMap(({ threeMs }) => threeMs ?? []) },
    ],
  },
  {
    title: 'One file, gzipped',
    seed: 1,
    cases: [{ name: 'size', unit: 'kB', measure: () => [gzipSync(onePage(), { level: 9 }).length / 1000] }],
  },
];
