import { describe, expect, it } from 'vitest';
import { homePlace } from '../../../src/core/analyse';
import { buildArch, moveJaw } from '../../../src/core/arch';
import { MODEL_REACH_MM } from '../../../src/core/gapModel';
import { lipLineOffset } from '../../../src/core/lipLine';
import { layUniformNodes } from '../../../src/core/rim';
import { createSeatSolver } from '../../../src/core/seat';
import { BEYOND_REACH, BY_ELEVATION, BY_LATERAL, BY_Z, LL, SQUEEZED, SUMMED, createSeatEnergy } from '../../../src/core/seatEnergy';
import type { PlayerRecord } from '../../../src/core/specs';
import { demoPlayers } from '../../support/demos';
import { expectWithin } from '../../support/expectWithin';
import { found } from '../../support/seating';

/** The sharpest bend of a ready-made arch is the gum's, 1/8 mm; a node that leaves it for a straight part errs by half of that times δ². */
const SHARPEST_PER_MM = 1 / 8;

describe.each(demoPlayers.map(({ record }) => [record.player.label, record] as const))('the gaps of %s', (_, record) => {
  const { energy, x, y, z, exact } = atHome(record);

  it.each([1e-4, 1e-3, 0.01, 0.1])('%d mm further on are the exact ones to second order', (moved) => {
    energy.readOff(x, y, z, 0, 0);
    expect(energy.sumNear(x, y + moved, z, 0, 0, 2 * moved, false)).toBe(SUMMED);
    exact.evaluate(x, y + moved, z, 0, 0, false);
    for (let i = 0; i < exact.nodes.count; i++) {
      if (exact.gap[i]! > record.lips.lower.thicknessMm) continue;
      expectWithin(energy.gap[i]!, exact.gap[i]!, { abs: (SHARPEST_PER_MM * moved * moved) / 2 + 1e-12 }, `node ${i}`);
    }
    for (const which of [BY_Z, BY_ELEVATION, BY_LATERAL]) {
      expectWithin(energy.value[which]!, exact.value[which]!, { abs: record.force.newtons * moved * moved }, `sum ${which}`);
    }
  });

  it('where they were read off are exact, sums and all', () => {
    energy.readOff(x, y, z, 0.1, -0.05);
    expect(energy.sumNear(x, y, z, 0.1, -0.05, 1e-12, false)).toBe(SUMMED);
    exact.evaluate(x, y, z, 0.1, -0.05, false);
    for (let which = BY_Z; which <= LL; which++) expect(energy.value[which]).toBe(exact.value[which]);
  });

  it('are not given out beyond their reach, for another jaw, or for a lip squeezed to nothing', () => {
    energy.readOff(x, y, z, 0, 0);
    expect(energy.sumNear(x, y + 0.2, z, 0, 0, 0.1, false)).toBe(BEYOND_REACH);
    expect(energy.sumNear(x, y, z, 0.05, 0, 0.1, false)).toBe(BEYOND_REACH);
    energy.readOff(x, y, z - 20, 0, 0);
    expect(energy.sumNear(x, y, z - 20, 0, 0, MODEL_REACH_MM, false)).toBe(SQUEEZED);
    const arch = buildArch(record.arch);
    if (!('jaw' in record.arch) || arch.lower === null) throw new Error('a demo player without a lower jaw');
    energy.readOff(x, y, z, 0, 0);
    energy.moveLower(moveJaw(arch, { ...record.arch.jaw, openingMm: record.arch.jaw.openingMm + 1 }).lower!.placed);
    expect(energy.sumNear(x, y, z, 0, 0, MODEL_REACH_MM, false)).toBe(BEYOND_REACH);
  });

  it('do not depend on where the rim and the lower jaw have been before', () => {
    const arch = buildArch(record.arch);
    if (!('jaw' in record.arch)) throw new Error('a demo player without a lower jaw');
    const wandering = atHome(record).energy;
    const places = [[0, 0, 6], [0.3, -0.2, 6.5], [2, 3, 5], [-1, -4, 8], [0.05, -4.02, 8], [0, 0.1, 6]] as const;
    for (const [dx, dy, openingMm] of places) {
      const jaw = moveJaw(arch, { ...record.arch.jaw, openingMm }).lower!.placed;
      wandering.moveLower(jaw);
      wandering.evaluate(x + dx, y + dy, z, 0.02 * dy, 0.01, false);
      const fresh = atHome(record).energy;
      fresh.moveLower(jaw);
      fresh.evaluate(x + dx, y + dy, z, 0.02 * dy, 0.01, false);
      for (let i = 0; i < fresh.nodes.count; i++) expectWithin(wandering.gap[i]!, fresh.gap[i]!, { abs: 1e-12 }, `node ${i} at ${dx}, ${dy}`);
    }
  });
});

function atHome(record: PlayerRecord) {
  const arch = buildArch(record.arch);
  const lipLineMm = lipLineOffset(record.rim, record.upperLipShare);
  const { upMm } = homePlace(record);
  const { z } = found(createSeatSolver({ arch, rim: record.rim, lips: record.lips, lipLineMm }).held(0, upMm, record.force.newtons, 0, 0));
  const make = () => createSeatEnergy(arch.upper.placed, arch.lower!.placed, record.lips, layUniformNodes(record.rim, lipLineMm, 64, 3));
  return { energy: make(), exact: make(), x: 0, y: upMm, z };
}
