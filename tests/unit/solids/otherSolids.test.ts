/** The rim and the pegs as bodies; letters that a printer can raise; files read back by readers of others. */
import { beforeAll, describe, expect, test } from 'vitest';
import { axisFromAngles } from '../../../src/core/frame';
import { contourHeight } from '../../../src/core/rim';
import type { RimSpec } from '../../../src/core/specs';
import { checkSolid, isPrintable } from '../../../src/solids/checkSolid';
import { raisedText } from '../../../src/solids/glyphs';
import { heldThing } from '../../../src/solids/heldThings';
import { CLEARANCE_MM, FOOT_MM, MOST_PEGS, type PegNote, RAISED_MM, ROD_MM, pegSolids } from '../../../src/solids/pegSolids';
import { RIM_CHORD_MM, RIM_WALL_MM, rimSolid } from '../../../src/solids/rimSolid';
import { refusalWords } from '../../../src/solids/refusalWords';
import { type Solid, boxOf } from '../../../src/solids/solid';
import { METRES_A_MM, glbFile, stlFile } from '../../../src/solids/solidFiles';
import { arches, rims } from '../../../src/records/library';
import { expectWithin } from '../../support/expectWithin';
import { provideFileReader } from '../../support/fileReader';
import { readGlb, readStl, validateGlb } from '../../support/readSolids';
import { measureSoup } from '../../support/soup';
import { integrate } from '../../support/surfaces';

const rimOf = (inner: number, outer: number, high: number, contour: number | null): RimSpec => ({
  innerDiameterMm: inner, outerDiameterMm: outer, highPointDiameterMm: high, contourRadiusMm: contour,
});

describe('the rim', () => {
  test.each([
    ...rims.map(({ name, rim }) => [name, rim] as const),
    ['flat', rimOf(16, 27, 20, null)],
    ['high at its inner edge, a quarter circle', rimOf(16, 27, 16, 5.5)],
    ['high at its outer edge', rimOf(16, 27, 27, 9)],
    ['nearly flat', rimOf(3, 199, 100, 10_000)],
  ] as const)('%s: volume and box of its contour turned about its axis', (_name, rim) => {
    const answer = rimSolid(rim);
    if (answer.kind === 'refused') throw new Error(refusalWords(answer.why));
    const found = checkSolid(answer.solid);
    expect(isPrintable(found)).toBe(true);
    const [inner, outer] = [rim.innerDiameterMm / 2, rim.outerDiameterMm / 2];
    const deep = Math.max(contourHeight(rim, inner), contourHeight(rim, outer)) + RIM_WALL_MM;
    const { low, high } = boxOf([answer.solid]);
    expectWithin(high[0], outer, { abs: 1e-9 });
    expectWithin(low[1], -outer, { abs: 1e-9 });
    expectWithin(high[2], 0, { abs: 1e-9 }, 'high point');
    expectWithin(low[2], -deep, { abs: 1e-9 }, 'back');
    const truth = 2 * Math.PI * integrate((radius) => radius * (deep - contourHeight(rim, radius)), inner, outer);
    // Chords may miss RIM_CHORD_MM on the face and on both walls.
    const surface = Math.PI * (outer ** 2 - inner ** 2) * 1.6 + 2 * Math.PI * (inner + outer) * deep;
    expectWithin(found.volumeMm3, truth, { abs: RIM_CHORD_MM * surface }, 'volume');
    expect(Math.max(answer.chordMm.contour, answer.chordMm.round)).toBeLessThanOrEqual(RIM_CHORD_MM);
  });

  test.each([
    ['too thin', rimOf(16, 16.2, 16.1, 1), /thin/],
    ['no opening', rimOf(0.001, 20, 10, 20), /opening/],
    ['too large', rimOf(250, 300, 260, null), /large/],
  ])('%s: a sentence', (_name, rim, words) => {
    const answer = rimSolid(rim);
    expect(answer.kind === 'refused' ? refusalWords(answer.why) : '').toMatch(words);
  });
});

const note = (name: string, upMm: number, rightMm: number, elevationDeg: number, lateralDeg: number): PegNote => ({
  name, travel: { upMm, rightMm }, axis: axisFromAngles({ elevationDeg, lateralDeg }),
});
const NOTES = [note('C4', 0, 0, -6, 0), note('F♯4', 1.2, 0.5, -2, 2), note('B♭4', 2.1, 1, 4, 4.5), note('D5', -3.1, -2.2, 17, -12)];

describe('path pegs', () => {
  const made = (notes: readonly PegNote[]) => {
    const answer = pegSolids(notes);
    if (answer.kind === 'refused') throw new Error(refusalWords(answer.why));
    return answer;
  };

  test('a tray and one closed body a note, none touching another', () => {
    const { solids, raised } = made(NOTES);
    expect(raised).toEqual(['C4', 'F♯4', 'B♭4', 'D5']);
    expect(solids.map(({ name }) => name)).toEqual(['tray', 'peg C4', 'peg F♯4', 'peg B♭4', 'peg D5']);
    for (const { name, solid } of solids) expect([name, isPrintable(checkSolid(solid))]).toEqual([name, true]);
    const boxes = solids.map(({ solid }) => boxOf([solid]));
    boxes.forEach((one, at) => boxes.slice(at + 1).forEach((other) => {
      expect([0, 1].some((axis) => one.high[axis]! < other.low[axis]! || other.high[axis]! < one.low[axis]!)).toBe(true);
    }));
  });

  test('a rod stands where the rim stands and points where the horn points', () => {
    const { solids } = made(NOTES);
    const homeAt = centresOf(solids[1]!.solid).foot;
    NOTES.forEach(({ travel, axis }, place) => {
      const { solid } = solids[place + 1]!;
      const { foot, tip } = centresOf(solid);
      // All pegs are cut from one foot: the first, at home, says where home is on it.
      const corner = cornerOf(solid);
      const home = cornerOf(solids[1]!.solid);
      expectWithin(foot[0] - corner[0] - (homeAt[0] - home[0]), -travel.rightMm, { abs: 1e-9 }, 'to the player’s left');
      expectWithin(foot[1] - corner[1] - (homeAt[1] - home[1]), travel.upMm, { abs: 1e-9 }, 'up');
      const reach = [tip[0] - foot[0], tip[1] - foot[1], tip[2] - foot[2]];
      expectWithin(Math.hypot(...reach), ROD_MM, { abs: 1e-9 }, 'length');
      axis.forEach((part, at) => expectWithin(reach[at]! / ROD_MM, part, { abs: 1e-9 }, 'axis'));
    });
  });

  test('volume of a peg: foot, letters and a slanting cone', () => {
    const { solids, footMm } = made(NOTES);
    NOTES.forEach(({ axis }, place) => {
      const [big, small] = [2.6, 1.6].map((radius) => (24 / 2) * radius ** 2 * Math.sin((2 * Math.PI) / 24)) as [number, number];
      const rod = ((ROD_MM * axis[2]) / 3) * (big + small + Math.sqrt(big * small));
      const letters = raisedText(['C4', 'F♯4', 'B♭4', 'D5'][place]!)!.flat().filter((cell) => cell).length * 0.8 ** 2 * RAISED_MM;
      const foot = (footMm.across * footMm.high - (4 * 0.8) ** 2) * FOOT_MM;
      expectWithin(checkSolid(solids[place + 1]!.solid).volumeMm3, foot + letters + rod, { rel: 1e-5 }, 'volume');
    });
  });

  test('a foot goes into the tray with its room to spare', () => {
    const { solids, footMm } = made(NOTES);
    const tray = solids[0]!.solid;
    const { low, high } = boxOf([tray]);
    expectWithin(high[0] - low[0], footMm.across + 2 * (CLEARANCE_MM + 4), { abs: 1e-9 });
    const outside = (high[0] - low[0]) * (high[1] - low[1]);
    const hole = (footMm.across + 2 * CLEARANCE_MM) * (footMm.high + 2 * CLEARANCE_MM) - (4 * 0.8) ** 2;
    expectWithin(checkSolid(tray).volumeMm3, (outside - hole) * 6, { rel: 1e-6 });
  });

  test('names that have no letters here, or stand twice, become numbers', () => {
    expect(made([note('fa♯4', 0, 0, 0, 0), note('sol4', 1, 0, 0, 0)]).raised).toEqual(['1', '2']);
    expect(made([note('C4', 0, 0, 0, 0), note('C4', 1, 0, 0, 0)]).raised).toEqual(['1', '2']);
    expect(made([note("b'", 0, 0, 0, 0), note("c''", 1, 0, 0, 0)]).raised).toEqual(["b'", "c''"]);
  });

  test.each([
    ['none', [], /no measured notes/],
    ['too many', Array.from({ length: MOST_PEGS + 1 }, (_, at) => note(`C${at}`, 0, 0, 0, 0)), /at most/],
    ['far', [note('C4', 40, 0, 0, 0)], /mm from home/],
    ['steep', [note('C4', 0, 0, 70, 0)], /55°/],
  ])('%s: a sentence', (_name, notes, words) => {
    const answer = pegSolids(notes);
    expect(answer.kind === 'refused' ? refusalWords(answer.why) : '').toMatch(words);
  });

  test('the farthest that is allowed is still closed', () => {
    const { solids } = made([note('C4', 25, 25, 54, 0), note('D4', -25, -25, -38, 38)]);
    for (const { solid } of solids) expect(isPrintable(checkSolid(solid))).toBe(true);
  });
});

test('every letter is one shape whose cells never meet at a corner alone', () => {
  const letters = [..."ABCDEFGHabcdefghis♭♯0123456789,'-"];
  const seen = new Set<string>();
  for (const letter of letters) {
    const cells = raisedText(letter)!;
    seen.add(JSON.stringify(cells));
    const at = (row: number, column: number): boolean => cells[row]?.[column] ?? false;
    for (let row = -1; row < cells.length; row++) {
      for (let column = -1; column < cells[0]!.length; column++) {
        const corner = [at(row, column), at(row, column + 1), at(row + 1, column), at(row + 1, column + 1)];
        expect([letter, row, column, corner[0] === corner[3] && corner[1] === corner[2] && corner[0] !== corner[1]]).toEqual([letter, row, column, false]);
      }
    }
  }
  expect(seen.size).toBe(letters.length);
  expect(raisedText('?')).toBeNull();
});

describe('files, read back by readers of others', () => {
  beforeAll(provideFileReader);
  const rim = rims[0]!.rim;
  const wishes = {
    arch: { thing: 'arch', part: 'both', arch: arches[0]!.arch, rim, farthest: { upMm: 3, rightMm: 2 } },
    rim: { thing: 'rim', rim },
    pegs: { thing: 'pegs', notes: NOTES },
  } as const;

  test.each(['arch', 'rim', 'pegs'] as const)('%s', async (name) => {
    const made = heldThing(wishes[name]);
    if (made.kind === 'refused') throw new Error(refusalWords(made.why));
    const { figures, solids } = made;
    const stl = measureSoup(readStl(stlFile(solids, figures.backMm)));
    expect([stl.openEdges, stl.emptyTriangles]).toEqual([0, 0]);
    expectWithin(stl.volume, figures.volumeMm3, { rel: 1e-5 }, 'volume of the STL');
    expectWithin(stl.low[2], 0, { abs: 1e-5 }, 'lies on the bed');
    figures.sizeMm.forEach((size, axis) => expectWithin(stl.high[axis]! - stl.low[axis]!, size, { abs: 1e-4 }, 'size in the STL'));

    const bytes = await glbFile(solids);
    expect(await validateGlb(bytes)).toEqual({ errors: [], warnings: [] });
    const { bodies, scale } = await readGlb(bytes);
    expect(bodies.map((body) => body.triangles.length).reduce((sum, one) => sum + one, 0)).toBe(figures.triangles);
    expect(scale).toEqual([METRES_A_MM, METRES_A_MM, METRES_A_MM]);
    const own = bodies.map(({ triangles }) => measureSoup(triangles));
    for (const body of own) expect([body.openEdges, body.emptyTriangles]).toEqual([0, 0]);
    expectWithin(own.reduce((sum, { volume }) => sum + volume, 0), figures.volumeMm3, { rel: 1e-5 }, 'volume of the GLB, mm³');
    const world = measureSoup(bodies.flatMap(({ worldMetres }) => worldMetres));
    figures.sizeMm.forEach((size, axis) => expectWithin(world.high[axis]! - world.low[axis]!, size / 1000, { abs: 1e-6 }, 'size of the scene, m'));
  });
});

/** Middle of the rod's ring on the foot, and of its tip: the rod is laid last, ring, ring, end. */
function centresOf({ positions }: Solid) {
  const corners = positions.length / 3;
  const mean = (from: number, to: number) =>
    [0, 1, 2].map((axis) => Array.from({ length: to - from }, (_, at) => positions[(from + at) * 3 + axis]!).reduce((sum, one) => sum + one, 0) / (to - from)) as [number, number, number];
  return { foot: mean(corners - 49, corners - 25), tip: mean(corners - 25, corners - 1) };
}

/** Lower corner of the foot on the player's right. */
function cornerOf({ positions }: Solid): [number, number] {
  let [x, y] = [Infinity, Infinity];
  for (let at = 0; at < positions.length; at += 3) {
    if (positions[at + 2] !== 0) continue;
    x = Math.min(x, positions[at]!);
    y = Math.min(y, positions[at + 1]!);
  }
  return [x, y];
}
