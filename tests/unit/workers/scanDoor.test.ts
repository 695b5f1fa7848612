import { expose } from 'comlink';
import { expect, test } from 'vitest';
import { buildArch } from '../../../src/core/arch';
import type { JawArchSpec } from '../../../src/core/specs';
import { placeAt } from '../../../src/scans/drawScan';
import { fieldOf } from '../../../src/scans/jawParts';
import { createScanDesk } from '../../../src/scans/scanDesk';
import type { JawMarked } from '../../../src/scans/settleJaw';
import { openScanDoor } from '../../../src/workers/scanDoor';
import { expectWithin } from '../../support/expectWithin';
import { scanFile } from '../../support/scanFiles';
import { cutBall, cutFace } from '../../support/scannedShapes';

/** A port in a worker's place: what is asked is answered by `desk`, and its end is counted. */
function workerWith(desk: object): { readonly worker: Worker; readonly ends: () => number; readonly fail: () => void } {
  const { port1, port2 } = new MessageChannel();
  let ends = 0;
  const terminate = (): void => {
    ends += 1;
    port1.close();
    port2.close();
  };
  expose(desk, port2);
  port1.start();
  return {
    worker: Object.assign(port1, { terminate }) as unknown as Worker,
    ends: () => ends,
    fail: () => port1.dispatchEvent(new Event('error', { cancelable: true })),
  };
}

const ball = (): Blob => new Blob([scanFile(cutBall(30, 20), 'stl').slice()]);
const never = { open: () => new Promise(() => {}) };
const SIZE = { width: 80, height: 60 };
const none = (): Worker => {
  throw new Error('no workers');
};
const REMOTE = createScanDesk();
const remoteDesk = { ...REMOTE, open: (file: Blob, jaw: 'upper', size: typeof SIZE, _: string, tell: (part: number) => void) => REMOTE.open(file, jaw, size, tell) };

test('a scan comes put right, with its unit guessed, told how far it is, and is seen', async () => {
  const { worker, ends } = workerWith(remoteDesk);
  const told: number[] = [];
  const door = openScanDoor(() => worker);
  const opened = await door.open(ball(), 'upper', SIZE, (part) => told.push(part));
  expect(opened).toMatchObject({ kind: 'opened', format: 'stl', unit: { unit: 'mm' }, report: { holes: [], branchedEdges: 0 } });
  expect(told.length).toBeGreaterThan(0);
  expect(told).toEqual([...told].sort((one, two) => one - two));
  if (opened.kind !== 'opened') return;
  const picture = (await door.picture(opened.view, SIZE, false))!;
  const front = placeAt(picture, { x: 40, y: 30 })!;
  expectWithin(Math.hypot(...front), 30, { abs: 0.2 }, 'the ball’s radius, in the middle of the picture');
  expect(placeAt(picture, { x: 1, y: 1 }, 4)).toBeNull();
  door.end();
  expect(ends()).toBe(1);
});

test('an end is answered at once and stops the worker', async () => {
  const { worker, ends } = workerWith(never);
  const door = openScanDoor(() => worker);
  const asked = door.open(ball(), 'upper', SIZE, () => {});
  door.end();
  expect(await asked).toEqual({ kind: 'stopped' });
  expect(ends()).toBe(1);
  expect(await door.open(ball(), 'upper', SIZE, () => {})).toEqual({ kind: 'stopped' });
  expect(await door.frontView(SIZE)).toBeNull();
});

test('a worker that dies is told in words', async () => {
  const { worker, fail } = workerWith(never);
  const asked = openScanDoor(() => worker).open(ball(), 'upper', SIZE, () => {});
  fail();
  expect(await asked).toMatchObject({ kind: 'refused', reason: 'unreadable' });
});

test('without workers the scan is worked on in the page; a file that is gone is refused', async () => {
  const door = openScanDoor(none);
  expect(await door.open(ball(), 'upper', SIZE, () => {})).toMatchObject({ kind: 'opened' });
  const gone = Object.assign(new Blob(['x']), { arrayBuffer: () => Promise.reject(new Error('moved')) });
  expect(await door.open(gone, 'upper', SIZE, () => {})).toMatchObject({ kind: 'refused', reason: 'unreadable' });
});

test('from the file to a jaw made ready, and once more from what was kept of it', async () => {
  const spec: JawArchSpec = {
    form: { kind: 'power', widthMm: 61, depthMm: 47, exponent: 0.8 },
    profile: { kind: 'arcs', inclinationDeg: 5, crownHeightMm: 10, crownRadiusMm: 15, gumRadiusMm: 13, gumInclinationDeg: -4 },
  };
  const surface = buildArch({ upper: spec, lower: spec, jaw: { openingMm: 0, forwardMm: 0, hingeDeg: 0 } }).lower!;
  const mesh = cutFace(surface, { arcMm: 40, heights: [0, 20], columns: 120, rows: 40, thickMm: 6, behind: true });
  const door = openScanDoor(none);
  await door.open(new Blob([scanFile(mesh, 'stl').slice()]), 'lower', SIZE, () => {});
  expect(await door.ready({ x: 0, y: 0, aroundMm: 4, gapsMm: [4, 8] }, () => {})).toBeNull();
  const teeth = { right: surface.pointAt(-18, 0), left: surface.pointAt(18, 0), front: surface.pointAt(0, 0) };
  const usual: JawMarked['usual'] = { kind: 'arcs', inclinationDeg: 4, crownHeightMm: 9, crownRadiusMm: 17, gumRadiusMm: 14, gumInclinationDeg: 0 };
  const settled = await door.settle({ jaw: 'lower', mmPerUnit: 1, teeth, usual, only: 'beta' }, () => {});
  expect(settled).toMatchObject({ kind: 'settled', family: 'beta' });
  if (settled.kind !== 'settled') return;
  // Nearly all of it lies on the arch; where the gum goes on straight, above what the fit looks at, a little off it.
  expect(settled.differences.rmsMm).toBeLessThan(0.1);
  expect(settled.differences.compared).toBeGreaterThan(3000);
  const front = (await door.frontView(SIZE))!;
  const seen = (await door.picture(front, SIZE, true))!;
  expect(placeAt(seen, { x: 40, y: 30 }, 3)![2]).toBeGreaterThan(-2);
  const reach = { x: 0, y: 0, aroundMm: 6, gapsMm: [4, 8] } as const;
  const { parts, packed } = (await door.ready(reach, () => {}))!;
  const [now, again] = [fieldOf(parts), fieldOf((await door.reopen(packed, reach))!)];
  for (const [x, y, z] of [[0, -3, 6], [4, 2, 5]] as const) {
    expectWithin(now.gapAt(x, y, z), surface.gapAt([x, y, z]), { abs: 0.02 }, 'gap');
    expectWithin(again.gapAt(x, y, z), now.gapAt(x, y, z), { abs: 1e-4 }, 'gap once kept');
  }
  // Measured beforehand.
  expect(now.measured()).toBe(0);
  expect(await door.reopen(packed.subarray(1), reach)).toBeNull();
  expect(await door.reopen(packed.subarray(0, packed.length - 4), reach)).toBeNull();
});
