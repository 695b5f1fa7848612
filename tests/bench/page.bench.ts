/** What the page costs: script per frame of a drag, traced in a real Chromium, and the size of what is loaded. */
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { preview } from 'vite';
import { closeBrowsers, visit } from '../browser/support/visit';
import { builtApp, root } from './builtApp';
import type { BenchGroup, MeasuredCase } from './harness';

/** Steps of the hand that are measured, after some that are not. */
const STEPS = 90;
const WARM_UP_STEPS = 30;

interface TraceEvent {
  readonly name: string;
  readonly ph: string;
  readonly ts: number;
  /** Wall time and time on the processor, µs. */
  readonly dur?: number;
  readonly tdur?: number;
  readonly tid: number;
  readonly args?: { readonly data?: { readonly type?: string; readonly timedOut?: boolean } };
}

/**
 * Whatever calls into script on the main thread: listeners of events, animation frames (the drag's own and the picture's drawing each
 * ask for one), timers, promises, observers and messages. Style and layout that script asks for, and rubbish collected while it
 * runs, lie within these and count; style, layout and painting that the browser does of its own do not.
 */
const SCRIPT = new Set(['FunctionCall', 'FireAnimationFrame', 'EventDispatch', 'TimerFire', 'RunMicrotasks', 'FireIdleCallback']);

/** Milliseconds of one step of a drag. */
interface Step {
  /** Time on the processor: what the step costs, whoever else uses the machine. */
  cpu: number;
  /** Time that passed meanwhile: on two cores that also draw the picture in software, much of it is waiting for a turn. */
  wall: number;
  /** Time on the processor in what the browser had to spare, which no frame waits for. It is shown apart and not in the two above. */
  spareCpu: number;
}

interface Hand {
  readonly webgl: boolean;
  /** An invented player beside the one on the page. */
  readonly two: boolean;
  /** What the hand does: drags the rim, or goes along the staff, which with two players moves both. */
  readonly does: 'drag' | 'staff';
}

/** What a hand does to the page, step by step. */
async function handSteps({ webgl, two, does }: Hand): Promise<Step[]> {
  const server = await preview({ root, build: { outDir: builtApp() }, preview: { host: '127.0.0.1', port: 0 }, logLevel: 'silent' });
  const address = server.resolvedUrls?.local[0];
  if (!address) throw new Error('the built app is not served');
  try {
    const { page } = await visit(address, { width: 1440, height: 900, reducedMotion: 'reduce', webgl });
    await page.locator(webgl ? '.stage canvas' : '.stage-handle').first().waitFor();
    if (two) {
      await page.getByLabel('beside').selectOption({ label: 'Invented player who pulls down to ascend' });
      await page.locator('.stage-caption').nth(1).waitFor();
      if (webgl) await page.locator('.stage-set canvas').waitFor();
    }
    await page.waitForTimeout(4000);
    const box = await page.locator(does === 'drag' ? '.stage-handle' : '.staff-sheet').first().boundingBox();
    if (!box) throw new Error('the page has nothing for the hand');
    // Along the staff over the notes that both players have.
    const [x, y] = does === 'drag' ? [box.x + box.width / 2, box.y + box.height / 2] : [box.x + box.width * 0.34, box.y + box.height / 3];
    const place = (step: number): readonly [number, number] =>
      does === 'drag' ? [x + 12 * Math.sin(step / 9), y - 8 + 8 * Math.cos(step / 9)] : [x + box.width * 0.18 * Math.sin(step / 9), y];
    await page.mouse.move(x, y);
    await page.mouse.down();
    const turn = async (steps: number): Promise<void> => {
      for (let i = 0; i < steps; i++) {
        await page.mouse.move(...place(i));
        await page.waitForTimeout(20);
      }
    };
    await turn(WARM_UP_STEPS);
    const trace = await page.context().newCDPSession(page);
    const events: TraceEvent[] = [];
    trace.on('Tracing.dataCollected', ({ value }) => events.push(...(value as unknown as TraceEvent[])));
    const complete = new Promise<void>((done) => trace.once('Tracing.tracingComplete', () => done()));
    await trace.send('Tracing.start', { transferMode: 'ReportEvents', traceConfig: { includedCategories: ['devtools.timeline'] } });
    await turn(STEPS);
    await trace.send('Tracing.end');
    await complete;
    await page.mouse.up();
    return scriptPerStep(events);
  } finally {
    await closeBrowsers();
    await new Promise<void>((done) => server.httpServer.close(() => done()));
  }
}

/**
 * All script from one move of the pointer to the next. A display that keeps up shows one frame a move, so this is the script of a
 * frame; where frames are slow to draw, as here, the work of one move is spread over several, and to count by frames would halve it.
 */
function scriptPerStep(events: readonly TraceEvent[]): Step[] {
  const pieces = events.filter((event) => event.ph === 'X' && SCRIPT.has(event.name)).sort((a, b) => a.ts - b.ts);
  const isMove = (event: TraceEvent): boolean => event.name === 'EventDispatch' && event.args?.data?.type === 'pointermove';
  const main = pieces.find(isMove)?.tid;
  const steps: Step[] = [];
  let end = 0;
  for (const piece of pieces) {
    if (piece.tid !== main) continue;
    if (isMove(piece)) steps.push({ cpu: 0, wall: 0, spareCpu: 0 });
    const step = steps[steps.length - 1];
    // A piece inside another is already counted.
    if (step === undefined || piece.ts < end) continue;
    if (piece.dur === undefined || piece.tdur === undefined) throw new Error(`the trace gives no times for ${piece.name}`);
    end = piece.ts + piece.dur;
    // An idle callback whose time ran out is called whether there is time to spare or not.
    if (piece.name === 'FireIdleCallback' && piece.args?.data?.timedOut !== true) step.spareCpu += piece.tdur / 1000;
    else {
      step.cpu += piece.tdur / 1000;
      step.wall += piece.dur / 1000;
    }
  }
  if (steps.length < STEPS * 0.9) throw new Error(`only ${steps.length} of ${STEPS} steps of the drag were seen`);
  return steps;
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

const stages = [
  { name: '3D stage', webgl: true },
  { name: 'flat stage, no WebGL', webgl: false },
] as const;
const figures = [
  { name: 'CPU', of: (step: Step) => step.cpu },
  { name: 'wall', of: (step: Step) => step.wall },
  { name: 'CPU in spare time', of: (step: Step) => step.spareCpu },
] as const;
const shares = [
  { name: 'median', share: 0.5 },
  { name: 'p95', share: 0.95 },
] as const;

const hands = new Map<string, Promise<Step[]>>();
function handOnce(hand: Hand): Promise<Step[]> {
  const key = JSON.stringify(hand);
  const steps = hands.get(key) ?? handSteps(hand);
  hands.set(key, steps);
  return steps;
}

const handCases = (name: string, hand: Hand): MeasuredCase[] =>
  figures.flatMap((figure) =>
    shares.map((one) => ({
      name: `${name}: ${figure.name}, ${one.name}`,
      unit: 'ms',
      measure: async () => [part((await handOnce(hand)).map(figure.of), one.share)],
    })));

export const groups: readonly BenchGroup[] = [
  {
    title: 'Script per frame while the rim is dragged, one step of the hand a frame (Chromium, software GL, traced)',
    seed: 1,
    cases: stages.flatMap(({ name, webgl }) => handCases(name, { webgl, two: false, does: 'drag' })),
  },
  {
    title: 'Script per frame with two players side by side, one step of the hand a frame: the rim dragged, or along the staff, which moves both (Chromium, software GL, traced)',
    seed: 1,
    cases: stages.flatMap(({ name, webgl }) => [
      ...handCases(`${name}, rim dragged`, { webgl, two: true, does: 'drag' }),
      ...handCases(`${name}, along the staff`, { webgl, two: true, does: 'staff' }),
    ]),
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
