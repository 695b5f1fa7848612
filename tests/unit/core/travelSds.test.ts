/** Travel seen otherwise up than to the right: what each deviation widens. */
import { describe, expect, it } from 'vitest';
import { analyse } from '../../../src/core/analyse';
import { computeBands } from '../../../src/core/bands';
import { DEFAULT_DEVIATIONS, type Deviations } from '../../../src/core/deviations';
import { bandOf, drawChanges } from '../../../src/core/monteCarlo';
import { type OwnMove, computeMoves } from '../../../src/core/mouthMoves';
import { createRandom } from '../../../src/core/random';
import { expectWithin } from '../../support/expectWithin';
import { recordOnPath } from '../../support/simulatedPlayers';

const AT = 4;
const made = recordOnPath({ notes: 5, travelMm: 6, travelSdMm: 0.4, hornSdDeg: 1 });
const seenWith = (sdMm: number, rightSdMm?: number) =>
  analyse({ ...made, readings: made.readings.map((reading, index) => (index === AT ? { ...reading, travel: { ...reading.travel!, sdMm, rightSdMm } } : reading)) });
const NOTHING_UNKNOWN = Object.fromEntries(Object.keys(DEFAULT_DEVIATIONS).map((name) => [name, 0])) as unknown as Deviations;

describe('the deviation of travel to the right', () => {
  const own = (sdMm: number, rightSdMm?: number): readonly OwnMove[] => computeMoves(seenWith(sdMm, rightSdMm)).own[AT]!;
  const [alike, wide] = [own(0.4), own(0.4, 0.8)];

  it('moves the swing sideways only; that of up, absent or not, moves it as before', () => {
    expect(wide.map(({ name }) => name)).toEqual(['travel up', 'travel to the side']);
    expect(wide[0]).toEqual(alike[0]);
    expectWithin(wide[1]!.change!.lateralDeg, 2 * alike[1]!.change!.lateralDeg, { rel: 0.02 });
  });

  it('of nothing is no part of the band', () => {
    expect(own(0.4, 0).map(({ name }) => name)).toEqual(['travel up']);
    expect(own(0, 0.4).map(({ name }) => name)).toEqual(['travel to the side']);
  });

  it('widens the band, and that of no other note', () => {
    const [narrow, wider] = [computeBands(seenWith(0.4)), computeBands(seenWith(0.4, 1.2))];
    expect(wider[AT]!.change.lateralSdDeg).toBeGreaterThan(narrow[AT]!.change.lateralSdDeg + 0.1);
    expect(wider.toSpliced(AT, 1)).toEqual(narrow.toSpliced(AT, 1));
  });

  it('is drawn as it is moved, and that of up as well (seed 5)', () => {
    for (const [sdMm, rightSdMm] of [[0.4, 0], [0, 0.4], [0.2, 0.6]] as const) {
      const analysis = seenWith(sdMm, rightSdMm);
      const drawn = drawChanges(analysis, 400, createRandom(5), NOTHING_UNKNOWN);
      const moves = computeMoves(analysis, NOTHING_UNKNOWN).own[AT]!;
      for (const angle of ['elevationDeg', 'lateralDeg'] as const) {
        // 400 draws know a deviation to 3.5 %; the mouth's bend adds little.
        expectWithin(bandOf(drawn, angle, AT).sd, Math.hypot(...moves.map(({ change }) => change![angle])), { rel: 0.15 }, `${angle}, ${sdMm} and ${rightSdMm} mm`);
      }
    }
  });
});
