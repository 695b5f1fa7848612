/**
 * The own shape on simulated players: whether its intervals hold the radii that mouths were drawn with, whether known radii come back, and
 * whether it agrees with the answer to travel that is read off the swings alone. No outside truth (docs/numerics.md §14).
 */
import { describe, expect, it } from 'vitest';
import { analyse } from '../../src/core/analyse';
import { DEFAULT_DEVIATIONS, type Deviations } from '../../src/core/deviations';
import { crownMm, frontMm, shaped } from '../../src/core/findings/archRadii';
import { NORMAL_95 } from '../../src/core/findings/distributions';
import type { OwnShape } from '../../src/core/findings/findings';
import { localShape, modelAtHome } from '../../src/core/findings/localShape';
import { ownShape, ownShapeSteps } from '../../src/core/findings/ownShape';
import { computeMoves } from '../../src/core/mouthMoves';
import { createRandom } from '../../src/core/random';
import { drawnMouth } from '../support/drawnMouths';
import { expectWithin } from '../support/expectWithin';
import { readOff, recordOnPath, withHorns } from '../support/simulatedPlayers';

/** As many as some ten seconds allow. */
const PLAYERS = 300;
/** Three binomial deviations of 95 % in 300 players are 3.8 points. */
const COVERED: readonly [number, number] = [0.912, 0.988];
/** For a machine that does other things too. */
const SLOW_MS = 120_000;
const nothingElse = Object.fromEntries(Object.keys(DEFAULT_DEVIATIONS).map((key) => [key, 1e-6])) as unknown as Deviations;
const wide: Deviations = { ...nothingElse, formPart: 0.3, crownRadiusPart: 0.3 };

function told(found: ReturnType<typeof ownShape>): OwnShape {
  if (found.kind !== 'told') throw new Error(JSON.stringify(found));
  return found;
}

describe('intervals after the update', () => {
  const analysis = analyse(recordOnPath({ notes: 9, travelMm: 8, travelSdMm: 0.1, hornSdDeg: 0.2, rightPart: 0.6 }));
  const moves = computeMoves(analysis);

  it(`hold the radii and the swings of ${PLAYERS} drawn mouths at 95 %, three binomial deviations either way (seed 21)`, () => {
    const random = createRandom(21);
    const inside = { front: 0, vertical: 0, elevation: 0, lateral: 0 };
    let [fitted, swings, narrower] = [0, 0, 0];
    for (let player = 0; player < PLAYERS; player++) {
      const radii = { front: random.normal(), vertical: random.normal() };
      const truth = drawnMouth(analysis, random, radii);
      if (!truth || truth.changes.includes(null)) continue;
      const horns = truth.changes.map((swing) => readOff({ elevationDeg: swing!.elevationDeg - 7, lateralDeg: swing!.lateralDeg + 2 }, 0.2, random));
      const steps = ownShapeSteps(withHorns(analysis, horns), [], DEFAULT_DEVIATIONS, moves);
      let step = steps.next();
      while (!step.done) step = steps.next();
      if (step.value.kind !== 'told') continue;
      fitted++;
      const { frontRadius, verticalRadius, predictions } = step.value;
      narrower += frontRadius!.afterMm.sd / frontRadius!.afterMm.value / (frontRadius!.beforeMm.sd / frontRadius!.beforeMm.value);
      const front = frontMm(analysis.record) * Math.exp(DEFAULT_DEVIATIONS.formPart * radii.front);
      const vertical = crownMm(analysis.record) * Math.exp(DEFAULT_DEVIATIONS.crownRadiusPart * radii.vertical);
      if (frontRadius!.afterMm.low <= front && front <= frontRadius!.afterMm.high) inside.front++;
      if (verticalRadius!.afterMm.low <= vertical && vertical <= verticalRadius!.afterMm.high) inside.vertical++;
      predictions.forEach(({ midi, after }) => {
        if (midi === analysis.home.midi) return;
        swings++;
        const swing = truth.changes[analysis.readings.findIndex((reading) => reading.midi === midi)]!;
        for (const axis of ['elevation', 'lateral'] as const) {
          if (Math.abs(swing[`${axis}Deg`] - after[`${axis}Deg`]) <= NORMAL_95 * after[`${axis}SdDeg`]) inside[axis]++;
        }
      });
    }
    expect(fitted).toBeGreaterThan(0.97 * PLAYERS);
    // The readings say something: else the prior alone would pass.
    expect(narrower / fitted).toBeLessThan(0.7);
    for (const [what, count, all] of [['front', inside.front, fitted], ['vertical', inside.vertical, fitted], ['elevation', inside.elevation, swings], ['lateral', inside.lateral, swings]] as const) {
      expect(count / all, `${what}: ${count} of ${all}`).toBeGreaterThanOrEqual(COVERED[0]);
      expect(count / all, `${what}: ${count} of ${all}`).toBeLessThanOrEqual(COVERED[1]);
    }
  }, SLOW_MS);
});

describe('known radii', () => {
  it.each([[0.8, 1], [1.25, 1], [1, 0.9], [1, 1.2], [1.1, 1.15]])('front × %d and vertical × %d come back from exact swings under a wide prior', (front, vertical) => {
    const record = recordOnPath({ notes: 9, travelMm: 7, travelSdMm: 0.01, hornSdDeg: 0.05, bendMm: 1 });
    const other = analyse(shaped(record, [1, 1], [Math.log(front), Math.log(vertical)]));
    const found = told(ownShape(withHorns(analyse(record), other.readings.map(({ changeFromHome }) => changeFromHome)), [], wide));
    expectWithin(found.frontRadius!.afterMm.value, front * frontMm(record), { rel: 0.03 }, 'front radius');
    expectWithin(found.verticalRadius!.afterMm.value, vertical * crownMm(record), { rel: 0.05 }, 'vertical radius');
    expect(found.residualDeg).toBeLessThan(0.05);
  }, SLOW_MS);
});

describe('for small travel', () => {
  it('the fitted arch answers as the swings alone say it does', () => {
    const path = recordOnPath({ notes: 9, travelMm: 2, travelSdMm: 0.01, hornSdDeg: 0.05 });
    // Eight notes round home, so that what bends up and down does not pass for an answer to the side.
    const record = {
      ...path,
      readings: path.readings.map((reading, index) => {
        const angle = (index * Math.PI) / 4;
        return index === 4 ? reading : { ...reading, travel: { upMm: Math.cos(angle), rightMm: Math.sin(angle), sdMm: 0.01 } };
      }),
    };
    const analysis = analyse(record);
    const other = analyse(shaped(record, [1, 1], [Math.log(1.15), Math.log(1.2)]));
    const seen = withHorns(analysis, other.readings.map(({ changeFromHome }) => changeFromHome));
    const local = localShape(seen);
    if (local.kind !== 'told' || !local.degPerMm) throw new Error(JSON.stringify(local));
    const own = told(ownShape(seen, [], wide));
    const fitted = modelAtHome(analyse({ ...record, arch: own.arch }))!;
    for (const row of [0, 1] as const) {
      for (const column of [0, 1] as const) {
        expectWithin(fitted[row][column], local.degPerMm[row][column], { rel: 0.02, abs: 0.01 }, `row ${row}, column ${column}`);
      }
    }
  }, SLOW_MS);
});
