/** What a scan costs: made ready, and one seat on it against one on the arch it was cut from. */
import { homePlace } from '../../src/core/analyse';
import { buildArch } from '../../src/core/arch';
import type { Faces } from '../../src/core/gapFace';
import { lipLineOffset } from '../../src/core/lipLine';
import { createSeatSolver } from '../../src/core/seat';
import type { SeatState } from '../../src/core/seatAnswer';
import type { JawSurface } from '../../src/core/surface';
import { createGapField } from '../../src/scans/gapField';
import { mendScan } from '../../src/scans/mendScan';
import { boxOf } from '../../src/scans/mesh';
import { placeScan } from '../../src/scans/scannedFace';
import { scanSeen } from '../../src/scans/scanSeen';
import { rimReach } from '../../src/scans/rimReach';
import { createScanDesk } from '../../src/scans/scanDesk';
import { createSignedDistance } from '../../src/scans/signedDistance';
import { demoPlayers } from '../support/demos';
import { scanFile } from '../support/scanFiles';
import { type Cut, cutFace } from '../support/scannedShapes';
import type { BenchGroup, Work } from './harness';

const { record } = demoPlayers[0]!;
const arch = buildArch(record.arch);
const home = homePlace(record);
const FRAMES = 80;
const STEP_MM = 0.1;
/** 202,240 triangles, and a coarser cut for the seats. */
const FINE: Cut = { arcMm: 45, heights: [0, 28], columns: 640, rows: 130, thickMm: 6 };
const COARSE: Cut = { arcMm: 45, heights: [0, 28], columns: 300, rows: 80, thickMm: 6 };
/** Where the drag's rim gets to, and the gaps that it meets there, mm. */
const AROUND_MM = 20;
const GAPS_MM = [4, 13] as const;

/** A drag to one side and back, 0.1 mm a frame, warm-started. */
function drag(on: Faces, detail: 'full' | 'glance'): Work {
  const solver = createSeatSolver({ arch: on, rim: record.rim, lips: record.lips, lipLineMm: lipLineOffset(record.rim, record.upperLipShare) });
  let near: SeatState | undefined;
  return () => {
    let sum = 0;
    for (let frame = 0; frame < FRAMES; frame++) {
      const along = STEP_MM * (frame < FRAMES / 2 ? frame : FRAMES - frame);
      const seat = solver.follow(0.34 * along, home.upMm + 0.94 * along, record.force.newtons, near, near ? detail : 'full');
      if (!seat.found) throw new Error(`bench: no seat: ${seat.reason}`);
      near = seat;
      sum += seat.z;
    }
    return sum;
  };
}

function scanned(surface: JawSurface): Faces['upper'] {
  const scan = mendScan(cutFace(surface, COARSE))!;
  const field = createGapField(createSignedDistance(scan), boxOf(scan.mesh.points));
  field.prepare(0, home.upMm, AROUND_MM, GAPS_MM);
  return { placed: placeScan(field) };
}

const bothScanned = (): Faces => ({ upper: scanned(arch.upper), lower: scanned(arch.lower!) });

function readAgain(kind: 'stl' | 'stl-text' | 'ply-little' | 'obj'): Work {
  const bytes = scanFile(cutFace(arch.upper, FINE), kind);
  return () => {
    const seen = scanSeen(bytes);
    if (seen.kind === 'refused') throw new Error(seen.words);
    return createSignedDistance(seen).at(0, 0, 20);
  };
}

/** As the page's worker does it, stage by stage, seconds of processor: other work on the machine counts for little. */
async function stages(): Promise<Readonly<Record<'opened' | 'settled' | 'ready', number>>> {
  const bytes = scanFile(cutFace(arch.upper, FINE), 'stl').slice();
  const teeth = { right: arch.upper.pointAt(-19, 0), left: arch.upper.pointAt(19, 0), front: arch.upper.pointAt(0, 0) };
  const usual = 'single' in record.arch ? undefined : record.arch.upper.profile;
  if (usual?.kind !== 'arcs') throw new Error('bench: a player with crowns');
  const desk = createScanDesk();
  const clock = stageClock();
  const seen = await desk.open(new Blob([bytes]), 'upper', { width: 480, height: 360 });
  if (seen.kind === 'refused') throw new Error(seen.words);
  const opened = clock();
  const answer = desk.settle({ jaw: 'upper', mmPerUnit: 1, teeth, usual, only: null });
  if (answer.kind === 'refused') throw new Error(answer.words);
  const settled = clock();
  if (desk.ready(rimReach(record, 'upper')) === null) throw new Error('bench: not ready');
  return { opened, settled, ready: clock() };
}

/** Seconds of processor since it was asked last. */
function stageClock(): () => number {
  let last = process.cpuUsage();
  return () => {
    const { user, system } = process.cpuUsage(last);
    last = process.cpuUsage();
    return (user + system) / 1e6;
  };
}

const stage = (which: 'opened' | 'settled' | 'ready'): (() => Promise<number[]>) => async () => {
  const runs: number[] = [];
  for (let run = 0; run < 3; run++) runs.push((await stages())[which]);
  return runs;
};

export const groups: readonly BenchGroup[] = [
  {
    title: 'One warm-started seat on scans of both jaws, dragged 0.1 mm a frame',
    seed: 50,
    rounds: 10,
    cases: [
      { name: 'on the arch they were cut from', piecesPerCall: FRAMES, prepare: () => drag(arch, 'full') },
      { name: 'on the scans', piecesPerCall: FRAMES, prepare: () => drag(bothScanned(), 'full') },
      { name: 'on the scans, at a glance', piecesPerCall: FRAMES, prepare: () => drag(bothScanned(), 'glance') },
    ],
  },
  {
    title: 'A scan of 202,240 triangles read, put right and its tree built',
    seed: 51,
    rounds: 3,
    cases: [
      { name: 'binary STL', prepare: () => readAgain('stl') },
      { name: 'STL as text', prepare: () => readAgain('stl-text') },
      { name: 'binary PLY', prepare: () => readAgain('ply-little') },
      { name: 'OBJ', prepare: () => readAgain('obj') },
    ],
  },
  {
    title: 'A scan of 202,240 triangles from its file to a jaw for the rim',
    seed: 52,
    cases: [
      { name: 'read, put right and looked at', unit: 's of processor', measure: stage('opened') },
      { name: 'frame, symmetry, six forms fitted, differences', unit: 's of processor', measure: stage('settled') },
      { name: 'tree, and what the rim reaches measured', unit: 's of processor', measure: stage('ready') },
    ],
  },
];
