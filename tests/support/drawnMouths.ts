/** Mouths drawn about a record's own and seated one by one, without the drawing that bands are made by: what their coverage is held against. */
import type { Analysis } from '../../src/core/analysis';
import { DEFAULT_DEVIATIONS, type Deviations, mouthUnknowns, movedJaw } from '../../src/core/deviations';
import { shaped } from '../../src/core/findings/archRadii';
import { type Seats, isHome, seats } from '../../src/core/mouthMoves';
import type { Random } from '../../src/core/random';

export interface RadiiDrawn {
  /** In prior deviations of the logarithms, both jaws alike. */
  readonly front: number;
  readonly vertical: number;
}

/**
 * True swings of one mouth at the places where its rim truly was: travel and, where it was not seen, the jaw err at every note but home.
 * `radii`: both jaws get the same; absent, every unknown of each jaw is drawn by itself. Null where it has no seat at home.
 */
export function drawnMouth(analysis: Analysis, random: Random, radii?: RadiiDrawn, by: Deviations = DEFAULT_DEVIATIONS): Seats | null {
  let mouth = radii ? shaped(analysis.record, [by.formPart, by.crownRadiusPart], [radii.front, radii.vertical]) : analysis.record;
  for (const { name, moved } of mouthUnknowns(analysis.record, by)) {
    if (!radii || !/arch form|crown's roundness/.test(name)) mouth = moved(mouth, random.normal());
  }
  const own = 'single' in analysis.record.arch ? null : analysis.record.arch.jaw;
  const readings = analysis.readings.map((reading) => {
    if (isHome(analysis, reading)) return reading;
    const { upMm, rightMm, sdMm, rightSdMm } = reading.travel;
    const jaw = reading.jaw ?? own;
    return {
      ...reading,
      travel: { upMm: upMm + sdMm * random.normal(), rightMm: rightMm + rightSdMm * random.normal(), sdMm, rightSdMm },
      jaw: jaw && !reading.jawKnown ? movedJaw(jaw, random.normal(), random.normal(), by) : reading.jaw,
    };
  });
  return seats({ ...analysis, readings }, mouth, by.homeUpMm * random.normal(), Math.exp(by.forcePart * random.normal()));
}
