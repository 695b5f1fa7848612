/** What a picture says, in words: numbers with one standard deviation each, what is still missing, and what no deviation tells. */
import type { ViewFrom } from '../../measure/marks';
import type { PictureProblem, PictureResult } from '../../measure/pictureResult';
import type { ShareMeaning } from '../../core/lipLine';
import { type SidewaysEntry, sidewaysSign } from '../entry';
import { sayMarking } from '../../words/marking';
import { fixed } from '../../words/numbers';
import { formatBand, formatFixed } from '../numberText';
import { tidyDeg } from '../recordEdits';
import { RIM_POINTS_ASKED } from './marksEdits';

export interface ResultLine {
  readonly name: string;
  readonly value: string;
  /** "± 0.3 mm". */
  readonly margin: string;
}

/** Lines in the order in which they matter; empty where nothing is known yet. */
export function resultLines(result: PictureResult, isHome: boolean, by: ShareMeaning, sideways: SidewaysEntry): readonly ResultLine[] {
  const { elevation, lateral, share } = result;
  const travel = isHome ? null : result.travel;
  const lines: ResultLine[] = [];
  if (travel !== null) {
    const right = travel.rightMm * sidewaysSign(sideways);
    const rightName = sayMarking(sideways === 'facing' ? 'travelRightFacing' : 'travelRight');
    lines.push({ name: sayMarking('travelUp'), value: `${formatFixed(travel.upMm, 1)} mm`, margin: `± ${formatBand(travel.sdMm, 1)} mm` });
    lines.push({ name: rightName, value: `${formatFixed(right, 1)} mm`, margin: `± ${formatBand(travel.rightSdMm, 1)} mm` });
  }
  if (elevation !== null) lines.push({ name: sayMarking('hornUp'), value: `${formatFixed(tidyDeg(elevation.deg), 1)}°`, margin: `± ${formatBand(elevation.sdDeg, 1)}°` });
  if (lateral !== null) lines.push({ name: sayMarking('hornRight'), value: `${formatFixed(tidyDeg(lateral.deg), 1)}°`, margin: `± ${formatBand(lateral.sdDeg, 1)}°` });
  if (share !== null) {
    const { value, sd } = share[by];
    lines.push({ name: sayMarking('shareBy', { by }), value: `${fixed(100 * value, 0)} %`, margin: `± ${formatBand(100 * sd, 0)} %` });
  }
  return lines;
}

/** One sentence a screen reader can say. */
export const linesSaid = (lines: readonly ResultLine[]): string =>
  lines.map(({ name, value, margin }) => sayMarking('lineSaid', { name, value, margin: margin.replace('± ', '') })).join('. ');

export function problemSaid(problem: PictureProblem): string {
  switch (problem.kind) {
    case 'rim-points':
      return sayMarking('rimPoints', { count: problem.have, least: problem.need, surer: RIM_POINTS_ASKED });
    case 'head-points':
      return sayMarking('headPoints', { count: problem.have, least: problem.need });
    case 'line-missing':
      return sayMarking(problem.line === 'horn' ? 'hornLineMissing' : 'levelLineMissing');
    case 'rim':
      return sayMarking(RIM[problem.reason]);
    case 'head':
      return sayMarking(HEAD[problem.reason]);
    case 'angle':
      return sayMarking(ANGLE[problem.reason]);
    case 'share':
      return sayMarking(SHARE[problem.reason]);
    case 'home-apart':
      return sayMarking('homeApart');
  }
}

type ReasonsOf<K extends PictureProblem['kind']> = Readonly<Record<Extract<PictureProblem, { readonly kind: K; readonly reason: string }>['reason'], string>>;

const RIM = { few: 'rimFew', line: 'rimLine', 'no-ellipse': 'rimNoEllipse', 'short-arc': 'rimShortArc' } as const satisfies ReasonsOf<'rim'>;
const HEAD = { 'sides-exchanged': 'headExchanged', 'not-settled': 'headNotSettled' } as const satisfies ReasonsOf<'head'>;
const ANGLE = {
  short: 'angleShort',
  backward: 'angleBackward',
  'other-side': 'angleOtherSide',
  'upside-down': 'angleUpsideDown',
  'two-fold': 'angleTwoFold',
} as const satisfies ReasonsOf<'angle'>;
const SHARE = { few: 'shareFew', upright: 'shareUpright', 'outside-cup': 'shareOutside' } as const satisfies ReasonsOf<'share'>;

/** What the deviations do not hold, for each view. */
export function notSure(view: ViewFrom): string {
  switch (view) {
    case 'front':
      return sayMarking('unsureFront');
    case 'right':
    case 'left':
      return sayMarking('unsureSide');
    case 'above':
      return sayMarking('unsureAbove');
  }
}
