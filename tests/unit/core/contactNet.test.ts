import { describe, expect, it } from 'vitest';
import { homePlace } from '../../../src/core/analyse';
import { buildArch } from '../../../src/core/arch';
import { type ContactNet, createContactNet } from '../../../src/core/contactNet';
import { lipLineOffset } from '../../../src/core/lipLine';
import { createRandom } from '../../../src/core/random';
import { createSeatSolver } from '../../../src/core/seat';
import type { LipsSpec, PlayerRecord } from '../../../src/core/specs';
import { arches } from '../../../src/records/library';
import { demoPlayers } from '../../support/demos';
import { expectWithin } from '../../support/expectWithin';
import { found } from '../../support/seating';

const [demo] = demoPlayers;
if (!demo) throw new Error('no demo player');
/** A light touch, N: then the rim lifts off here and there. */
const LIGHT_N = 4;
/** A net of rays has no more nodes; one more is the even net. */
const RAY_NODES = 500;
const alike: LipsSpec = { ...demo.record.lips, lower: demo.record.lips.upper };

describe.each(arches.map(({ name, arch }) => [name, arch] as const))('the net on the %s arch', (_, archSpec) => {
  it.each([['unlike lips', demo.record.lips], ['lips alike', alike]] as const)('with %s is the same whatever it was laid for before', (_, lips) => {
    const record: PlayerRecord = { ...demo.record, arch: archSpec, lips };
    const { make, x, y, z, elevation } = netsAtHome(record);
    const wandering = make();
    const random = createRandom(7);
    const at = { x, y, z, elevation, lateral: 0 };
    let partly = 0;
    for (let turn = 0; turn < 60; turn++) {
      // Steps of very different lengths: short ones let the net trust what it knew, long ones must not.
      const step = 10 ** (-4 + 4 * random.uniform());
      // Now pressed well in, now just touching.
      if (turn % 15 === 0) at.z = turn % 30 === 0 ? z - 5 : z + 1.5;
      at.x += step * (random.uniform() - 0.5 - 0.1 * (at.x - x));
      at.y += step * (random.uniform() - 0.5 - 0.1 * (at.y - y));
      at.z += step * (random.uniform() - 0.5);
      at.elevation += 0.1 * step * (random.uniform() - 0.5 - 2 * (at.elevation - elevation));
      at.lateral += 0.1 * step * (random.uniform() - 0.5 - 2 * at.lateral);
      wandering.lay(at.x, at.y, at.z, at.elevation, at.lateral);
      const fresh = make();
      fresh.lay(at.x, at.y, at.z, at.elevation, at.lateral);
      expect(wandering.nodes.count).toBe(fresh.nodes.count);
      for (const part of ['across', 'up', 'recede', 'area', 'underUpperLip'] as const) {
        let apart = 0;
        for (let i = 0; i < fresh.nodes.count; i++) {
          if (fresh.nodes.area[i]! > 0 || part === 'area') apart = Math.max(apart, Math.abs(wandering.nodes[part][i]! - fresh.nodes[part][i]!));
        }
        expectWithin(apart, 0, { abs: 1e-8 }, `turn ${turn}, ${part}`);
      }
      if (pressedPart(fresh) < 0.999 || fresh.nodes.count > RAY_NODES) partly++;
    }
    // The walk must have met lift-off (or a handover along the rim, where no rays are laid), else nothing was at stake.
    expect(partly).toBeGreaterThan(5);
    expect(partly).toBeLessThan(60);
  });
});

function pressedPart(net: ContactNet): number {
  let sum = 0;
  for (let i = 0; i < net.nodes.count; i++) sum += net.nodes.area[i]!;
  return sum / net.nodes.totalArea;
}

function netsAtHome(record: PlayerRecord) {
  const arch = buildArch(record.arch);
  const lipLineMm = lipLineOffset(record.rim, record.upperLipShare);
  const { upMm } = homePlace(record);
  const { z, elevation } = found(createSeatSolver({ arch, rim: record.rim, lips: record.lips, lipLineMm }).follow(0, upMm, LIGHT_N));
  const make = (): ContactNet => createContactNet(arch.upper.placed, arch.lower!.placed, record.rim, record.lips, lipLineMm);
  return { make, x: 0, y: upMm, z, elevation };
}
