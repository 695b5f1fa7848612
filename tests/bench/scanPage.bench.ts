/** A scan on the built page in a real Chromium: by the clock from being dropped to a jaw for the rim, and the page's longest tasks meanwhile. */
import type { Page } from 'playwright-core';
import { preview } from 'vite';
import { closeBrowsers, visit } from '../browser/support/visit';
import { type MadeScan, madeScan, toothPx } from '../support/madeScan';
import { builtApp, root } from './builtApp';
import type { BenchGroup, MeasuredCase } from './harness';

/** 201,828 triangles. */
const COLUMNS = 363;
const RUNS = 3;
const SETTLING_MS = 2500;

/** What is done with it, in order; each ends when what it names is seen on the page. */
const STEPS = [
  { name: 'dropped, read and drawn', seen: '.scan-found' },
  { name: 'an arch fitted', seen: '.scan-differences' },
  { name: 'ready for the rim', seen: '.scan-accept' },
  { name: 'notes compared', seen: '.scan-notes table' },
  { name: 'taken as the player’s arch', seen: '.scan-own' },
  { name: 'the rim on the fitted arch instead', seen: '.scan-own' },
] as const;
type StepName = (typeof STEPS)[number]['name'];
const READY: readonly StepName[] = ['dropped, read and drawn', 'an arch fitted', 'ready for the rim'];

interface TraceEvent {
  readonly name: string;
  readonly ph: string;
  readonly ts: number;
  /** Wall time and time on the processor, µs. */
  readonly dur?: number;
  readonly tdur?: number;
  readonly pid: number;
  readonly tid: number;
  readonly args?: { readonly data?: { readonly message?: string } };
}

interface Told {
  readonly seconds: Readonly<Record<StepName, number>>;
  /** The page's longest task within each step and until the next one, ms. */
  readonly longest: Readonly<Record<StepName, { readonly cpu: number; readonly wall: number }>>;
}

async function walkThrough(webgl: boolean): Promise<Told> {
  const scan = madeScan('upper', 1, COLUMNS);
  const server = await preview({ root, build: { outDir: builtApp() }, preview: { host: '127.0.0.1', port: 0 }, logLevel: 'silent' });
  const address = server.resolvedUrls?.local[0];
  if (!address) throw new Error('the built app is not served');
  try {
    const { page, consoleErrors, close } = await visit(address, { width: 1440, height: 900, reducedMotion: 'reduce', webgl });
    await page.getByText('Own arch: from a scan').click();
    await page.locator('.scan-jaw').first().waitFor();
    await putIntoPage(page, scan);
    await page.waitForTimeout(SETTLING_MS);
    const trace = await page.context().newCDPSession(page);
    const events: TraceEvent[] = [];
    trace.on('Tracing.dataCollected', ({ value }) => events.push(...(value as unknown as TraceEvent[])));
    const complete = new Promise<void>((done) => trace.once('Tracing.tracingComplete', () => done()));
    await trace.send('Tracing.start', { transferMode: 'ReportEvents', traceConfig: { includedCategories: ['devtools.timeline', 'disabled-by-default-devtools.timeline'] } });
    const seconds: Partial<Record<StepName, number>> = {};
    seconds['dropped, read and drawn'] = await stepOf(page, STEPS[0], 'drop');
    await mark(page, scan);
    seconds['an arch fitted'] = await stepOf(page, STEPS[1], '.scan-jaw .primary');
    seconds['ready for the rim'] = await stepOf(page, STEPS[2], null);
    seconds['notes compared'] = await stepOf(page, STEPS[3], null);
    await page.waitForTimeout(SETTLING_MS);
    seconds['taken as the player’s arch'] = await stepOf(page, STEPS[4], '.scan-accept .primary');
    await page.waitForTimeout(SETTLING_MS);
    seconds['the rim on the fitted arch instead'] = await stepOf(page, STEPS[5], '.scan-own input[type=radio]:not(:checked)');
    await page.waitForTimeout(SETTLING_MS);
    await trace.send('Tracing.end');
    await complete;
    if (consoleErrors.length > 0) throw new Error(consoleErrors.join('\n'));
    await close();
    return { seconds: seconds as Told['seconds'], longest: longestTasks(events) };
  } finally {
    await closeBrowsers();
    await new Promise<void>((done) => server.httpServer.close(() => done()));
  }
}

/** The file, and a way to wait for something that asks the page for nothing meanwhile. */
async function putIntoPage(page: Page, scan: MadeScan): Promise<void> {
  await page.evaluate((text) => {
    const file = new File([Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0))], 'upper.stl', { type: 'model/stl' });
    Object.assign(window, {
      benchStep(name: string, seen: string, does: string | null) {
        // What the trace is divided by.
        console.timeStamp(name);
        const from = performance.now();
        if (does === 'drop') {
          const dataTransfer = new DataTransfer();
          dataTransfer.items.add(file);
          document.querySelector('.scan-jaw .files-door')!.dispatchEvent(new DragEvent('drop', { dataTransfer, bubbles: true, cancelable: true }));
        } else if (does !== null) setTimeout(() => document.querySelector<HTMLElement>(does)!.click(), 0);
        return new Promise<number>((resolve) => {
          if (document.querySelector(seen) !== null) resolve(0);
          const observer = new MutationObserver(() => {
            if (document.querySelector(seen) === null) return;
            observer.disconnect();
            resolve((performance.now() - from) / 1000);
          });
          observer.observe(document.body, { childList: true, subtree: true });
        });
      },
    });
  }, Buffer.from(scan.bytes).toString('base64'));
}

/** Seconds by the page's own clock. */
const stepOf = (page: Page, { name, seen }: (typeof STEPS)[number], does: string | null): Promise<number> =>
  page.evaluate(([one, selector, what]) => (window as unknown as { benchStep(...asked: readonly unknown[]): Promise<number> }).benchStep(one, selector, what), [name, seen, does] as const);

async function mark(page: Page, scan: MadeScan): Promise<void> {
  const surface = page.locator('.scan-marking .scan-view__surface[data-drawn=true]');
  await surface.scrollIntoViewIfNeeded();
  const box = (await surface.boundingBox())!;
  for (const tooth of ['right', 'front', 'left'] as const) {
    const at = toothPx(scan, tooth, { width: box.width - 2, height: box.height - 2 });
    await page.mouse.click(box.x + 1 + at.x, box.y + 1 + at.y);
    await page.locator(`[data-tooth=${tooth}]`).waitFor();
  }
}

function longestTasks(events: readonly TraceEvent[]): Told['longest'] {
  const stamps = events.filter(({ name }) => name === 'TimeStamp').sort((a, b) => a.ts - b.ts);
  const [first] = stamps;
  if (stamps.length !== STEPS.length || first === undefined) throw new Error(`${stamps.length} of ${STEPS.length} steps are in the trace`);
  const longest: Partial<Record<StepName, { cpu: number; wall: number }>> = {};
  for (const { name, ph, ts, dur, tdur, pid, tid } of events) {
    if (name !== 'RunTask' || ph !== 'X' || pid !== first.pid || tid !== first.tid) continue;
    const within = stamps.findLast((stamp) => stamp.ts <= ts)?.args?.data?.message as StepName | undefined;
    if (within === undefined) continue;
    const so = (longest[within] ??= { cpu: 0, wall: 0 });
    so.cpu = Math.max(so.cpu, (tdur ?? 0) / 1000);
    so.wall = Math.max(so.wall, (dur ?? 0) / 1000);
  }
  return longest as Told['longest'];
}

const walks = new Map<boolean, Promise<readonly Told[]>>();
function walksOnce(webgl: boolean): Promise<readonly Told[]> {
  const walked = walks.get(webgl) ?? walkAll(webgl);
  walks.set(webgl, walked);
  return walked;
}

async function walkAll(webgl: boolean): Promise<readonly Told[]> {
  const told: Told[] = [];
  for (let run = 0; run < RUNS; run++) told.push(await walkThrough(webgl));
  return told;
}

const clockCases = (webgl: boolean): MeasuredCase[] => [
  ...READY.map((name) => ({ name, unit: 's', measure: async () => (await walksOnce(webgl)).map(({ seconds }) => seconds[name]) })),
  { name: 'all three', unit: 's', measure: async () => (await walksOnce(webgl)).map(({ seconds }) => READY.reduce((sum, name) => sum + seconds[name], 0)) },
];

const taskCases = (webgl: boolean): MeasuredCase[] =>
  (['cpu', 'wall'] as const).flatMap((clock) =>
    STEPS.map(({ name }) => ({
      name: `${name}: ${clock === 'cpu' ? 'CPU' : 'wall'}`,
      unit: 'ms',
      measure: async () => (await walksOnce(webgl)).map(({ longest }) => longest[name][clock]),
    })));

export const groups: readonly BenchGroup[] = [true, false].flatMap((webgl) => {
  const on = webgl ? '3D stage, software GL' : 'flat stage, no WebGL';
  return [
    { title: `A scan of 201,828 triangles on the page, by the clock (Chromium, ${on})`, seed: 53, cases: clockCases(webgl) },
    { title: `The page's longest task with a scan of 201,828 triangles (Chromium, ${on}, traced)`, seed: 53, cases: taskCases(webgl) },
  ];
});
