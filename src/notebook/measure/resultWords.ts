/** What a picture says, in words: numbers with one standard deviation each, what is still missing, and what no deviation tells. */
import { NINETY_FIVE_PERCENT } from '../../core/bands';
import type { ViewFrom } from '../../measure/marks';
import type { PictureProblem, PictureResult } from '../../measure/pictureResult';
import type { ShareMeaning } from '../../core/lipLine';
import { type SidewaysEntry, sidewaysSign } from '../entry';
import { formatFixed } from '../numberText';
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
    lines.push({ name: 'Travel up', value: `${formatFixed(travel.upMm, 1)} mm`, margin: `± ${band(travel.sdMm, 1)} mm` });
    lines.push({ name: `Travel ${rightWords(sideways)}`, value: `${formatFixed(right, 1)} mm`, margin: `± ${band(travel.sdMm, 1)} mm` });
  }
  if (elevation !== null) lines.push({ name: 'Horn up', value: `${formatFixed(tidyDeg(elevation.deg), 1)}°`, margin: `± ${band(elevation.sdDeg, 1)}°` });
  if (lateral !== null) lines.push({ name: 'Horn to the player’s right', value: `${formatFixed(tidyDeg(lateral.deg), 1)}°`, margin: `± ${band(lateral.sdDeg, 1)}°` });
  if (share !== null) {
    const { value, sd } = share[by];
    lines.push({ name: `Upper lip, by ${by}`, value: `${(100 * value).toFixed(0)} %`, margin: `± ${band(100 * sd, 0)} %` });
  }
  return lines;
}

/** One sentence a screen reader can say. */
export const linesSaid = (lines: readonly ResultLine[]): string =>
  lines.map(({ name, value, margin }) => `${name} ${value} ${margin.replace('±', 'give or take')}`).join('. ');

export function problemSaid(problem: PictureProblem): string {
  switch (problem.kind) {
    case 'rim-points':
      return `The rim has ${counted(problem.have, 'point')}: ${problem.need} are the least for its ellipse, ${RIM_POINTS_ASKED} make it surer.`;
    case 'head-points':
      return `The head has ${counted(problem.have, 'mark')}: with ${problem.need} or more its turning is taken out, and travel can be told.`;
    case 'line-missing':
      return problem.line === 'horn' ? 'The line along the horn needs both its ends.' : 'The head’s level line needs both its ends.';
    case 'rim':
      return RIM_WORDS[problem.reason];
    case 'head':
      return HEAD_WORDS[problem.reason];
    case 'angle':
      return ANGLE_WORDS[problem.reason];
    case 'share':
      return SHARE_WORDS[problem.reason];
    case 'home-apart':
      return 'Travel cannot be told between this picture and the home picture: both need rim and head marked, the same size and the same lens.';
  }
}

type ReasonOf<K extends PictureProblem['kind']> = Extract<PictureProblem, { readonly kind: K; readonly reason: string }>['reason'];

const RIM_WORDS: Readonly<Record<ReasonOf<'rim'>, string>> = {
  few: 'Some of the rim’s points lie on one spot: spread them round its edge.',
  line: 'The rim’s points lie on a line: spread them round its edge.',
  'no-ellipse': 'No ellipse goes through the rim’s points: one of them lies on something else.',
  'short-arc': 'Too little of the rim is marked to tell its size: put points round more than half of it.',
};
const HEAD_WORDS: Readonly<Record<ReasonOf<'head'>, string>> = {
  'sides-exchanged': 
    'Right and left of the head are exchanged. If the picture is a mirror image, as selfie cameras often make, flip it in a picture program first: marks exchanged in it would turn the sign of every sideways number. Otherwise exchange the marks: right is the player’s own right, on the left of a picture from the front.',
  'not-settled': 'The head’s marks do not fit a head seen through this lens: look at the marks, and at the lens below. A picture that was zoomed or cut counts as one by a longer lens.',
};
const ANGLE_WORDS: Readonly<Record<ReasonOf<'angle'>, string>> = {
  short: 'A line is too short to tell a direction: draw both as long as the picture allows.',
  backward: 'The horn’s line and the level line run opposite ways: exchange the ends of one.',
  'other-side': 'The face looks the other way than the view says: choose the player’s other side.',
  'upside-down': 'The level line stands upright: the picture may lie on its side, or the line goes from the wrong spot.',
  'two-fold': 'The horn’s two marks do not tell which way it points: put the far one further out.',
};
const SHARE_WORDS: Readonly<Record<ReasonOf<'share'>, string>> = {
  few: 'The lip line needs two marks apart from each other.',
  upright: 'The lip line stands upright: its marks go from one side of the rim to the other.',
  'outside-cup': 'The lip line does not cross the inside of the rim.',
};

/** What the deviations do not hold, for each view. */
export function notSure(view: ViewFrom): string {
  switch (view) {
    case 'front':
      return 'From the front a face that turns a little looks like a horn that swings: a picture from above tells sideways better, one from the side tells up and down better.';
    case 'right':
    case 'left':
      return 'A level line drawn otherwise shifts all angles alike; the changes from home stay.';
    case 'above':
      return 'A middle line of the head drawn otherwise shifts all angles alike; the changes from home stay. A mirror image, as selfie cameras often make, turns the sign of every sideways number, and nothing in a picture from above shows that: flip it first.';
  }
}

const rightWords = (sideways: SidewaysEntry): string => (sideways === 'facing' ? 'right as you face the player' : 'to the player’s right');
const counted = (count: number, one: string): string => `${count === 0 ? 'no' : count} ${one}${count === 1 ? '' : 's'}`;

/** Half of the 95 % band, as every ± on the page. */
const band = (sd: number, places: number): string => (NINETY_FIVE_PERCENT * sd).toFixed(places);
