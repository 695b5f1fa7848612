/** What the page costs: script per frame of a drag, traced in a real Chromium, and the size of what is loaded. */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { gzipSync } from 'node:zlib';
import { preview } from 'vite';
import { closeBrowsers, visit } from '../browser/support/visit';
import type { BenchGroup } from './harness';

const root = resolve(import.meta.dirname, '../..');
const FRAMES = 90;

interface TraceEvent {
  readonly name: string;
  readonly ph: string;
  readonly ts: number;
  readonly dur?: number;
  readonly tid: number;
}
/** Outermost pieces of script on the main thread, one of them the animation frame itself. */
const SCRIPT = new Set(['FunctionCall', 'FireAnimationFrame', 'EventDispatch', 'TimerFire', 'RunMicrotasks']);
/** Work the page does only in time the browser has to spare; it is cut short when a frame is due and counts to none. */
const SPARE = 'FireIdleCallback';

let built: string | null = null;
function builtApp(): string {
  if (built === null) {
    built = mkdtempSync(join(tmpdir(), 'rimpath-bench-'));
    const vite = join(root, 'node_modules/vite/bin/vite.js');
    execFileSync(process.execPath, [vite, 'build', '--outDir', built, '--emptyOutDir', '--logLevel', 'error'], { cwd: root });
    const folder = built;
    process.on('exit', () => rmSync(folder, { recursive: true, force: true }));
  }
  return built;
}

/** Milliseconds of script between one animation frame's start and the next, for every frame of a drag of the rim. */
async function dragFrames(webgl: boolean): Promise<number[]> {
  const server = await preview({ root, build: { outDir: builtApp() }, preview: { host: '127.0.0.1', port: 0 }, logLevel: 'silent' });
  const address = server.resolvedUrls?.local[0];
  if (!address) throw new Error('the built app is not served');
  try {
    const { page } = await visit(address, { width: 1440, height: 900, reducedMotion: 'reduce', webgl });
    const handle = page.locator('.stage-handle').first();
    await handle.waitFor();
    await page.waitForTimeout(4000);
    const box = await handle.boundingBox();
    if (!box) throw new Error('the rim has no handle to drag');
    const x = box.x + box.width / 2;
    const y = box.y + box.height / 2;
    await page.mouse.move(x, y);
    await page.mouse.down();
    const turn = async (frames: number): Promise<void> => {
      for (let i = 0; i < frames; i++) {
        await page.mouse.move(x + 12 * Math.sin(i / 9), y - 8 + 8 * Math.cos(i / 9));
        await page.waitForTimeout(20);
      }
    };
    await turn(30);
    const trace = await page.context().newCDPSession(page);
    const events: TraceEvent[] = [];
    trace.on('Tracing.dataCollected', ({ value }) => events.push(...(value as unknown as TraceEvent[])));
    const complete = new Promise<void>((done) => trace.once('Tracing.tracingComplete', () => done()));
    await trace.send('Tracing.start', { transferMode: 'ReportEvents', traceConfig: { includedCategories: ['devtools.timeline'] } });
    await turn(FRAMES);
    await trace.send('Tracing.end');
    await complete;
    await page.mouse.up();
    return scriptPerFrame(events);
  } finally {
    await closeBrowsers();
    await new Promise<void>((done) => server.httpServer.close(() => done()));
  }
}

function scriptPerFrame(events: readonly TraceEvent[]): number[] {
  const pieces = events.filter((event) => event.ph === 'X' && (SCRIPT.has(event.name) || event.name === SPARE)).sort((a, b) => a.ts - b.ts);
  const main = pieces.find((event) => event.name === 'FireAnimationFrame')?.tid;
  const frames: number[] = [];
  let end = 0;
  for (const piece of pieces) {
    // A piece inside another is already counted.
    if (piece.tid !== main || piece.ts < end) continue;
    end = piece.ts + (piece.dur ?? 0);
    if (piece.name === SPARE) continue;
    if (piece.name === 'FireAnimationFrame' || frames.length === 0) frames.push(0);
    frames[frames.length - 1]! += (piece.dur ?? 0) / 1000;
  }
  return frames.filter((spent) => spent > 0);
}

const part = (values: readonly number[], share: number): number =>
  [...values].sort((a, b) => a - b)[Math.min(values.length - 1, Math.floor(share * values.length))]!;

function gzippedKilobytes(wanted: (name: string) => boolean): number {
  const assets = join(builtApp(), 'assets');
  const bytes = readdirSync(assets)
    .filter((name) => name.endsWith('.js') && wanted(name))
    .reduce((sum, name) => sum + gzipSync(readFileSync(join(assets, name)), { level: 9 }).length, 0);
  return bytes / 1000;
}

/** Scripts that the page names itself, before anything lazy. */
function firstScripts(): Set<string> {
  const html = readFileSync(join(builtApp(), 'index.html'), 'utf8');
  return new Set([...html.matchAll(/assets\/([^"']+\.js)/g)].map((match) => match[1]!));
}

export const groups: readonly BenchGroup[] = [
  {
    title: 'Script per frame while the rim is dragged (Chromium, software GL, traced)',
    seed: 1,
    cases: [
      { name: '3D stage: median', unit: 'ms', measure: async () => [part((threeD ??= await dragFrames(true)), 0.5)] },
      { name: '3D stage: p95', unit: 'ms', measure: async () => [part((threeD ??= await dragFrames(true)), 0.95)] },
      { name: 'flat stage, no WebGL: median', unit: 'ms', measure: async () => [part((flat ??= await dragFrames(false)), 0.5)] },
      { name: 'flat stage, no WebGL: p95', unit: 'ms', measure: async () => [part((flat ??= await dragFrames(false)), 0.95)] },
    ],
  },
  {
    title: 'Gzipped script',
    seed: 1,
    cases: [
      { name: 'first load', unit: 'kB', measure: () => [gzippedKilobytes((name) => firstScripts().has(name))] },
      { name: 'all', unit: 'kB', measure: () => [gzippedKilobytes(() => true)] },
    ],
  },
];

let threeD: number[] | null = null;
let flat: number[] | null = null;
