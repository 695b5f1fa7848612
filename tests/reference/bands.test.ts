/**
 * The bands against what they stand for: first-order propagation against seeded Monte Carlo over the same unknowns, and the share of
 * drawn mouths whose change from home lies inside the 95 % band. No outside truth: both come from this model (docs/numerics.md §9).
 */
import { describe, expect, it } from 'vitest';
import type { Analysis } from '../../src/core/analysis';
import { analyse } from '../../src/core/analyse';
import { type BandPart, NINETY_FIVE_PERCENT, computeBands } from '../../src/core/bands';
import { bandOf, drawChanges } from '../../src/core/monteCarlo';
import { createRandom } from '../../src/core/random';
import type { PlayerRecord } from '../../src/core/specs';
import { demoPlayers } from '../support/demos';
import { expectWithin } from '../support/expectWithin';

const DRAWS = 1000;
const SEED = 20;
/** A deviation from 1,000 draws is itself known to 2.2 %; what bends within a deviation adds the rest. */
const DEVIATION_REL = 0.12;
/** Bands of a few hundredths of a degree are told apart no further than the coarse net allows, degrees. */
const DEVIATION_ABS_DEG = 0.05;
/** Three binomial deviations of 95 % in 1,000 draws are 2.1 points; the page promises 93 to 97 %. */
const COVERED: readonly [number, number] = [0.93, 0.97];

const unseenJaw = (record: PlayerRecord): PlayerRecord => ({
  ...record,
  readings: record.readings.map(({ jaw: _seen, ...reading }) => reading),
});

describe.each(
  demoPlayers.flatMap(({ name, record }) => [
    { title: `${name}, jaw seen`, record },
    { title: `${name}, jaw not seen`, record: unseenJaw(record) },
  ]),
)('$title', ({ record }) => {
  const analysis: Analysis = analyse(record);
  const bands = computeBands(analysis);
  const drawn = drawChanges(analysis, DRAWS, createRandom(SEED));

  it(`first-order deviations agree with those of ${DRAWS} draws (seed ${SEED})`, () => {
    analysis.readings.forEach((reading, index) => {
      for (const which of ['elevation', 'lateral'] as const) {
        const draws = bandOf(drawn, `${which}Deg`, index);
        const sd = bands[index]!.change[`${which}SdDeg`];
        expectWithin(sd, draws.sd, { rel: DEVIATION_REL, abs: DEVIATION_ABS_DEG }, `${reading.note} ${which}`);
      }
    });
  });

  it('the 95 % bands hold 93 to 97 % of the drawn mouths, over all notes but home', () => {
    for (const which of ['elevation', 'lateral'] as const) {
      let inside = 0;
      let all = 0;
      analysis.readings.forEach((reading, index) => {
        if (reading.midi === analysis.home.midi) return;
        const half = NINETY_FIVE_PERCENT * bands[index]!.change[`${which}SdDeg`];
        for (let draw = 0; draw < DRAWS; draw++) {
          const change = drawn[`${which}Deg`][draw * drawn.readings + index]!;
          if (Number.isNaN(change)) continue;
          all++;
          if (Math.abs(change - reading.changeFromHome[`${which}Deg`]) <= half) inside++;
        }
      });
      expect(all).toBeGreaterThan(0.99 * DRAWS * (analysis.readings.length - 1));
      expect(inside / all, `${which}: ${inside} of ${all}`).toBeGreaterThanOrEqual(COVERED[0]);
      expect(inside / all, `${which}: ${inside} of ${all}`).toBeLessThanOrEqual(COVERED[1]);
    }
  });
});

describe('what a band is made of', () => {
  const [player] = demoPlayers;
  if (!player) throw new Error('no demo player');

  it('a jaw that was not seen is the largest part of the elevation', () => {
    const analysis = analyse(unseenJaw(player.record));
    const top = analysis.readings.findIndex((reading) => reading.note === player.record.readings.at(-1)!.note);
    const byElevation = (a: BandPart, b: BandPart): number => b.elevationSdDeg - a.elevationSdDeg;
    const largest = [...computeBands(analysis)[top]!.parts].sort(byElevation)[0]!;
    expect(largest.name).toMatch(/jaw/);
  });

  it('home has no band, and the measured home angle widens every prediction', () => {
    const analysis = analyse(player.record);
    const bands = computeBands(analysis);
    const atHome = analysis.readings.findIndex((reading) => reading.midi === analysis.home.midi);
    expectWithin(bands[atHome]!.change.elevationSdDeg, 0, { abs: 1e-6 }, 'elevation at home');
    bands.forEach((band) => {
      expect(band.predicted!.elevationSdDeg).toBeGreaterThanOrEqual(analysis.home.measured!.sdDeg);
    });
  });

  it('the same seed draws the same mouths, another seed others', () => {
    const analysis = analyse(player.record);
    const first = drawChanges(analysis, 4, createRandom(3)).elevationDeg;
    expect(drawChanges(analysis, 4, createRandom(3)).elevationDeg).toEqual(first);
    expect(drawChanges(analysis, 4, createRandom(4)).elevationDeg).not.toEqual(first);
  });
});
