/** What one seat costs, against what an engineer would otherwise assemble from packages: same mouth, same poses, same answer. */
import { createRequire } from 'node:module';
import { BufferAttribute, BufferGeometry, Vector3 } from 'three';
import { MeshBVH, type HitPointInfo } from 'three-mesh-bvh';
import { type Arch, buildArch } from '../../src/core/arch';
import { homePlace } from '../../src/core/analyse';
import { rimDirections, toDegrees } from '../../src/core/frame';
import { lipLineOffset } from '../../src/core/lipLine';
import type { Random } from '../../src/core/random';
import { COARSE_SAMPLING, type RimNodes, layUniformNodes } from '../../src/core/rim';
import { createSeatSolver } from '../../src/core/seat';
import type { SeatSetup, SeatSolver, SeatState } from '../../src/core/seatAnswer';
import { KPA_PER_NEWTON_PER_SQUARE_MM } from '../../src/core/seatEnergy';
import type { LipLaw } from '../../src/core/specs';
import type { JawSurface } from '../../src/core/surface';
import { demoPlayers } from '../support/demos';
import type { BenchGroup, Work } from './harness';

/** The part of numeric that is used; the package ships no types and no module. */
const numeric = createRequire(import.meta.url)('numeric') as {
  uncmin(f: (x: number[]) => number, start: number[], tolerance?: number): { solution: number[] };
};

const [demo] = demoPlayers;
if (!demo) throw new Error('no demo player to measure with');
const { record } = demo;
const arch = buildArch(record.arch);
const lipLineMm = lipLineOffset(record.rim, record.upperLipShare);
const setup: SeatSetup = { arch, rim: record.rim, lips: record.lips, lipLineMm };
const home = homePlace(record);
const FORCE_N = record.force.newtons;
/** A drag of this length in this many frames: 0.1 mm a frame. */
const FRAMES = 80;
const STEP_MM = 0.1;
/** Answers must agree to this, degrees. */
const SAME_DEG = 0.05;

/** Places of a slow drag over the arch, up and to one side; the seed turns it. */
function drag(random: Random): { x: number; y: number }[] {
  const turn = 0.3 * random.normal();
  return Array.from({ length: FRAMES }, (_, frame) => {
    const along = STEP_MM * (frame < FRAMES / 2 ? frame : FRAMES - frame);
    return { x: along * Math.sin(0.35 + turn), y: home.upMm + along * Math.cos(0.35 + turn) };
  });
}

function warmSeats(solver: SeatSolver, random: Random): Work {
  const places = drag(random);
  let near = solved(solver, places[0]!);
  return () => {
    let sum = 0;
    for (const place of places) {
      near = solved(solver, place, near);
      sum += near.z;
    }
    return sum;
  };
}

function solved(solver: SeatSolver, place: { x: number; y: number }, near?: SeatState): SeatState {
  const seat = solver.follow(place.x, place.y, FORCE_N, near);
  if (!seat.found) throw new Error(`bench: no seat at (${place.x}, ${place.y}): ${seat.reason}`);
  return seat;
}

/** Both labial faces as one mesh of about 40,000 triangles, in a bounding-volume tree. */
function meshOf(of: Arch): MeshBVH {
  const corners: number[] = [];
  const triangles: number[] = [];
  const columns = 160;
  const rows = 62;
  const face = (surface: JawSurface): void => {
    const first = corners.length / 3;
    for (let column = 0; column <= columns; column++) {
      for (let row = 0; row <= rows; row++) {
        corners.push(...surface.pointAt(-40 + (80 * column) / columns, (30 * row) / rows));
        if (column === columns || row === rows) continue;
        const at = first + column * (rows + 1) + row;
        triangles.push(at, at + rows + 1, at + 1, at + 1, at + rows + 1, at + rows + 2);
      }
    }
  };
  face(of.upper);
  if (of.lower) face(of.lower);
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(new Float32Array(corners), 3));
  geometry.setIndex(triangles);
  return new MeshBVH(geometry);
}

/** Energy per area of the two laws (docs/numerics.md §4), N/mm. */
function lipEnergy(law: LipLaw, thicknessMm: number, modulus: number, gapMm: number): number {
  if (gapMm >= thicknessMm) return 0;
  const strain = (thicknessMm - gapMm) / thicknessMm;
  if (law === 'linear') return (modulus * thicknessMm * strain * strain) / 2;
  return gapMm > 0 ? modulus * thicknessMm * (-strain - Math.log(gapMm / thicknessMm)) : Infinity;
}

/** The same question by closest points on the mesh and a general minimiser (BFGS with numerical gradients, `uncmin` of the package numeric). */
function meshSeat(tree: MeshBVH, nodes: RimNodes, place: { x: number; y: number }, start: SeatState): SeatState {
  const point = new Vector3();
  const hit: HitPointInfo = { point: new Vector3(), distance: 0, faceIndex: 0 };
  const { lips } = record;
  const energy = ([z, e, l]: number[]): number => {
    const { across, up, axis } = rimDirections(e! / 10, l! / 10);
    let sum = FORCE_N * z!;
    for (let i = 0; i < nodes.count; i++) {
      const [a, u, r] = [nodes.across[i]!, nodes.up[i]!, nodes.recede[i]!];
      point.set(
        place.x + a * across[0] + u * up[0] + r * axis[0],
        place.y + a * across[1] + u * up[1] + r * axis[1],
        z! + a * across[2] + u * up[2] + r * axis[2],
      );
      const gap = tree.closestPointToPoint(point, hit)!.distance;
      const lip = nodes.underUpperLip[i] === 1 ? lips.upper : lips.lower;
      sum += nodes.area[i]! * lipEnergy(lips.law, lip.thicknessMm, lip.effectiveModulusKPa / KPA_PER_NEWTON_PER_SQUARE_MM, gap);
    }
    return sum;
  };
  // Angles in tenths of a radian, so that one size of step suits all three unknowns.
  const { solution } = numeric.uncmin(energy, [start.z, start.elevation * 10, start.lateral * 10], 1e-9);
  return { z: solution[0]!, elevation: solution[1]! / 10, lateral: solution[2]! / 10 };
}

function assembled(random: Random): Work {
  const tree = meshOf(arch);
  const nodes = layUniformNodes(record.rim, lipLineMm, 64, 3);
  const places = drag(random);
  const exact = createSeatSolver(setup);
  let near: SeatState = solved(exact, places[0]!);
  let frame = 0;
  return () => {
    frame = (frame + 1) % FRAMES;
    const place = places[frame]!;
    near = meshSeat(tree, nodes, place, near);
    const truth = solved(exact, place, near);
    const apart = toDegrees(Math.max(Math.abs(truth.elevation - near.elevation), Math.abs(truth.lateral - near.lateral)));
    if (apart > SAME_DEG) throw new Error(`bench: the mesh's answer is ${apart}° away, allowed ${SAME_DEG}°`);
    return near.z;
  };
}

export const groups: readonly BenchGroup[] = [
  {
    title: 'One warm-started seat while a rim is dragged 0.1 mm a frame (two jaws, average arch)',
    seed: 20,
    cases: [
      { name: 'as solved: contact net', piecesPerCall: FRAMES, prepare: (random) => warmSeats(createSeatSolver(setup), random) },
      {
        name: 'even net, 256 azimuths × 8 rings',
        piecesPerCall: FRAMES,
        prepare: (random) => warmSeats(createSeatSolver({ ...setup, evenly: { azimuths: 256, rings: 8 } }), random),
      },
      {
        name: 'coarse net of the bands',
        piecesPerCall: FRAMES,
        prepare: (random) => warmSeats(createSeatSolver({ ...setup, coarse: COARSE_SAMPLING }), random),
      },
    ],
  },
  {
    title: 'The same seat assembled from packages (40,000 triangles, three-mesh-bvh, a general BFGS), same answer within 0.05°',
    seed: 20,
    rounds: 5,
    cases: [
      { name: 'as solved: contact net', piecesPerCall: FRAMES, prepare: (random) => warmSeats(createSeatSolver(setup), random) },
      { name: 'mesh, 192 samples, warm-started', prepare: assembled },
    ],
  },
];
