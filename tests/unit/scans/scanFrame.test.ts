import { describe, expect, it } from 'vitest';
import { buildArch } from '../../../src/core/arch';
import { createRandom } from '../../../src/core/random';
import type { JawArchSpec } from '../../../src/core/specs';
import { type Vec3, dot } from '../../../src/core/vector';
import { mendScan } from '../../../src/scans/mendScan';
import { CLICK_SD_MM, type ScanFrame, type ThreeTeeth, frameFromTeeth, gumShare, meshInFrame, turnFrame } from '../../../src/scans/scanFrame';
import { guessUnit } from '../../../src/scans/scanUnits';
import { scaleMesh } from '../../../src/scans/mesh';
import { createSignedDistance } from '../../../src/scans/signedDistance';
import { findSymmetry, knownBefore } from '../../../src/scans/symmetry';
import { expectWithin } from '../../support/expectWithin';
import { cutBall, cutFace } from '../../support/scannedShapes';

const DEGREES = 180 / Math.PI;
const TEETH: ThreeTeeth = { right: [-17, 0, -7], left: [17, 0, -7], front: [0, 0, 0] };
const ARCH: JawArchSpec = {
  form: { kind: 'sextic', a: 6e-8, b: 0.022 },
  profile: { kind: 'arcs', inclinationDeg: 6, crownHeightMm: 10, crownRadiusMm: 14, gumRadiusMm: 14, gumInclinationDeg: 0 },
};
const upper = cutFace(buildArch({ single: ARCH }).upper, { arcMm: 46, heights: [0, 16], columns: 150, rows: 26, thickMm: 6 });

function framed(teeth: ThreeTeeth): ScanFrame {
  const frame = frameFromTeeth(teeth);
  if (frame.kind === 'refused') throw new Error(frame.words);
  return frame;
}

/** A turn about a slanted axis and a shift: how a scan may lie in its file. */
function moved(place: Vec3): Vec3 {
  const turn = 2.1;
  const axis: Vec3 = [0.48, -0.6, 0.64];
  const along = dot(axis, place);
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  const side: Vec3 = [axis[1] * place[2] - axis[2] * place[1], axis[2] * place[0] - axis[0] * place[2], axis[0] * place[1] - axis[1] * place[0]];
  return [0, 1, 2].map((k) => place[k]! * c + side[k]! * s + axis[k]! * along * (1 - c) + [40, -25, 70][k]!) as unknown as Vec3;
}

const everyPlace = (points: Float64Array, change: (place: Vec3) => Vec3): Float64Array => {
  const changed = new Float64Array(points.length);
  for (let at = 0; at < points.length; at += 3) changed.set(change([points[at]!, points[at + 1]!, points[at + 2]!]), at);
  return changed;
};

describe('The frame of three clicked teeth', () => {
  it('brings a scan back from wherever it lies in its file', () => {
    const frame = framed({ right: moved(TEETH.right), left: moved(TEETH.left), front: moved(TEETH.front) });
    const back = meshInFrame({ points: everyPlace(upper.points, moved), triangles: upper.triangles }, frame);
    for (let at = 0; at < back.points.length; at++) expectWithin(back.points[at]!, upper.points[at]!, { abs: 1e-9 });
    expect(gumShare(back, 'upper')).toBeGreaterThan(0.6);
  });

  it('right and left taken for each other: the gum lies on the wrong side', () => {
    const back = meshInFrame(upper, framed({ right: TEETH.left, left: TEETH.right, front: TEETH.front }));
    expect(gumShare(back, 'upper')).toBeLessThan(0.4);
  });

  it('says how sure it is: as sure as 2,000 trembling hands are', () => {
    const random = createRandom(31);
    const tremble = (place: Vec3): Vec3 => place.map((value) => value + CLICK_SD_MM * random.normal()) as unknown as Vec3;
    const squares = { sidewaysMm: 0, yawDeg: 0, rollDeg: 0, pitchDeg: 0 };
    const times = 2000;
    for (let time = 0; time < times; time++) {
      const { origin, left, forward } = framed({ right: tremble(TEETH.right), left: tremble(TEETH.left), front: tremble(TEETH.front) });
      squares.sidewaysMm += origin[0] ** 2;
      squares.yawDeg += (Math.atan2(left[2], left[0]) * DEGREES) ** 2;
      squares.rollDeg += (Math.atan2(left[1], left[0]) * DEGREES) ** 2;
      squares.pitchDeg += (Math.atan2(forward[1], forward[2]) * DEGREES) ** 2;
    }
    const { deviation } = framed(TEETH);
    // Four standard deviations of a standard deviation from 2,000; pitch is a little further from linear.
    for (const name of ['sidewaysMm', 'yawDeg', 'rollDeg', 'pitchDeg'] as const) {
      expectWithin(Math.sqrt(squares[name] / times), deviation[name], { rel: 0.08 }, name);
    }
  });

  it('refuses teeth too near and three places in a line', () => {
    expect(frameFromTeeth({ ...TEETH, left: [-10, 0, -7] })).toMatchObject({ kind: 'refused', reason: 'teeth-too-near' });
    expect(frameFromTeeth({ ...TEETH, front: [3, 0, -7] })).toMatchObject({ kind: 'refused', reason: 'teeth-in-line' });
  });
});

describe('The frame refined by the jaw’s own symmetry', () => {
  const random = createRandom(32);
  const places = (points: Float64Array): Float64Array => {
    const chosen: number[] = [];
    for (let at = 0; at < points.length; at += 3) {
      if (points[at + 1]! > 0.5 && points[at + 1]! < 14 && (at / 3) % 9 === 0) chosen.push(points[at]!, points[at + 1]!, points[at + 2]!);
    }
    return Float64Array.from(chosen);
  };

  it('undoes hands that tremble, on a scan with 0.03 mm of noise, to 0.1 mm and 0.3°', () => {
    const rough = { points: upper.points.map((place) => place + 0.03 * random.normal()), triangles: upper.triangles };
    const tremble = (place: Vec3): Vec3 => place.map((value) => value + CLICK_SD_MM * random.normal()) as unknown as Vec3;
    for (let time = 0; time < 3; time++) {
      const frame = framed({ right: tremble(TEETH.right), left: tremble(TEETH.left), front: tremble(TEETH.front) });
      const scan = mendScan(meshInFrame(rough, frame))!;
      const distance = createSignedDistance(scan);
      const found = findSymmetry(places(scan.mesh.points), (x, y, z) => distance.at(x, y, z), knownBefore(frame.deviation));
      if (found.kind !== 'found') throw new Error(found.reason);
      const better = turnFrame(frame, found.yaw, found.roll, found.sidewaysMm, frame.deviation);
      // The true plane of symmetry is x = 0 of the mesh as cut.
      expectWithin(better.left[1] * DEGREES, 0, { abs: 0.3 }, 'roll');
      expectWithin(better.left[2] * DEGREES, 0, { abs: 0.3 }, 'yaw');
      expectWithin(better.origin[0], 0, { abs: 0.1 }, 'sideways');
      expectWithin(found.residualMm, 0.03, { abs: 0.03 }, 'what is left');
    }
  }, 60_000);

  it('leaves what a round front does not tell as the clicks had it, and says how unsure that is', () => {
    // A ball about the middle of the arch is its own mirror picture in every plane through its middle.
    const ball = cutBall(22, 30, [0, 0, -22]);
    const front = ball.points.filter((_, at) => ball.points[3 * Math.floor(at / 3) + 2]! > -16 && Math.floor(at / 3) % 3 === 0);
    const before = { yawSd: 0.02, rollSd: 0.02, sidewaysSdMm: 0.5 };
    const found = findSymmetry(front, (x, y, z) => Math.hypot(x, y, z + 22) - 22, before);
    if (found.kind !== 'found') throw new Error(found.reason);
    expectWithin(found.rollSd, 0.02, { rel: 0.05 }, 'roll');
    // Sideways and yaw are one once the plane runs through the middle: 22 mm behind.
    expectWithin(found.yawSd, 1 / Math.hypot(1 / 0.02, 22 / 0.5), { rel: 0.05 }, 'yaw');
  });

  it('with too few places says so', () => {
    expect(findSymmetry(new Float64Array(30), () => 0, knownBefore(framed(TEETH).deviation))).toMatchObject({ kind: 'missed', reason: 'too-few-places' });
  });
});

describe('The unit of a scan', () => {
  // The arch is symmetric and wider than deep.
  const widthMm = 2 * upper.points.reduce((most, place, at) => (at % 3 === 0 ? Math.max(most, place) : most), 0);

  it.each([['mm', 1], ['cm', 0.1], ['m', 0.001], ['inch', 1 / 25.4]] as const)('%s', (unit, factor) => {
    const guess = guessUnit(scaleMesh(upper, factor));
    expect(guess?.unit).toBe(unit);
    expectWithin(guess!.longestMm, widthMm, { abs: 1e-6 }, 'longest side');
    expect(guess!.possible[0]).toBe(unit);
  });

  it('is not guessed where no unit fits, and not sure where two do', () => {
    expect(guessUnit(scaleMesh(upper, 0.0002))).toBeNull();
    expect(guessUnit(scaleMesh(upper, 1))?.sure).toBe(true);
    expect(guessUnit(scaleMesh(upper, 0.06))).toMatchObject({ sure: false });
  });
});
