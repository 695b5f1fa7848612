import { Matrix4, Vector3 } from 'three';
import { describe, expect, it } from 'vitest';
import { buildArch, moveJaw } from '../../../src/core/arch';
import type { JawSpec } from '../../../src/core/specs';
import { arches } from '../../../src/records/library';
import { demoPlayers } from '../../support/demos';
import { NO_MOVE, jawMove, moveSize, movedPoint, writeJawMatrix } from '../../../src/stage/jawMove';
import { restAt, restLips } from '../../../src/stage/lipRest';
import { LIP_COLUMNS, LIP_ROWS, createLipSheet, moveLips } from '../../../src/stage/lipSheet';
import { createStand } from '../../../src/stage/stand';
import { expectWithin } from '../../support/expectWithin';

const arch = buildArch(arches[0]!.arch);
const own = arch.jaw!;
const stands: JawSpec[] = [
  { ...own, openingMm: own.openingMm + 2 },
  { ...own, forwardMm: own.forwardMm - 1.5 },
  { ...own, hingeDeg: own.hingeDeg + 3 },
  { openingMm: 6, forwardMm: 1, hingeDeg: 2, hingeArmMm: own.hingeArmMm },
];

describe('the lower jaw as drawn', () => {
  it.each(stands)('stands where the model has it: $openingMm mm open, $forwardMm mm forward, $hingeDeg°', (jaw) => {
    const move = jawMove(own, jaw);
    const wanted = moveJaw(arch, jaw).lower!;
    const elements: number[] = [];
    writeJawMatrix(move, elements);
    const matrix = new Matrix4().fromArray(elements);
    for (const arc of [-20, -3, 0, 8]) {
      for (const height of [0, 4, 11]) {
        const from = arch.lower!.pointAt(arc, height);
        const to = wanted.pointAt(arc, height);
        movedPoint(from, move).forEach((value, axis) => expectWithin(value, to[axis]!, { abs: 1e-9 }, `axis ${axis}`));
        new Vector3(...from).applyMatrix4(matrix).toArray().forEach((value, axis) => expectWithin(value, to[axis]!, { abs: 1e-9 }, `matrix ${axis}`));
      }
    }
  });

  it('stays where no other place is named', () => {
    expect(jawMove(own, null)).toBe(NO_MOVE);
    expect(jawMove(null, null)).toBe(NO_MOVE);
    expectWithin(moveSize(jawMove(own, { ...own })), 0, { abs: 1e-12 });
  });
});

it('the lower lip goes along with the jaw as a new table would have it, and the upper stays', () => {
  const { lips, rim } = demoPlayers[0]!.record;
  const jaw = { ...own, openingMm: own.openingMm + 1.5, forwardMm: own.forwardMm + 0.5 };
  const move = jawMove(own, jaw);
  const before = restLips(arch, lips);
  const after = restLips(moveJaw(arch, jaw), lips);
  // Well below the edges the lower lip rests on the lower jaw alone. The table's own step is 2 mm: a quarter of a millimetre is its grain.
  for (const arc of [-12, 0, 12]) {
    const forward = move.forwardMm * before.rayNz[(before.columns - 1) / 2 + arc / 2]!;
    for (const height of [-14, -18]) {
      const shifted = restAt(before, before.outerLower, arc, height - move.upMm) + forward;
      expectWithin(shifted, restAt(after, after.outerLower, arc, height), { abs: 0.25 }, `${arc}, ${height}`);
    }
  }
  const stand = createStand();
  stand.centre.set([0, -1, 60]);
  const drawn = (rest: typeof before, shift = NO_MOVE): Float32Array => {
    const sheet = createLipSheet(rest, rim, () => 0, 0);
    moveLips(sheet, stand, 0, shift);
    return sheet.positions;
  };
  const [still, shifted, tabled] = [drawn(before), drawn(before, move), drawn(after)];
  const middle = ((LIP_COLUMNS - 1) / 2) * LIP_ROWS;
  for (let row = 0; row < 8; row++) {
    const z = (middle + row) * 3 + 2;
    expectWithin(shifted[z]!, tabled[z]!, { abs: 0.25 }, `row ${row}`);
    expect(Math.abs(still[z]! - tabled[z]!)).toBeGreaterThan(0.3);
  }
  const top = (middle + LIP_ROWS - 1) * 3 + 2;
  expect(shifted[top]).toBe(still[top]);
});
