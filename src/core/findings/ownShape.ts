/**
 * The arch's front and vertical radius updated from measured swings: Gauss–Newton through the seat, the chosen arch as prior. What else is
 * not known of the mouth, and the jaw where it was not seen, is in the data's covariance. docs/numerics.md §14.
 */
import type { Analysis } from '../analysis';
import { analyse } from '../analyse';
import { DEFAULT_DEVIATIONS, type Deviations } from '../deviations';
import type { DrawnBand } from '../monteCarlo';
import { type MouthMoves, moveSteps } from '../mouthMoves';
import { recordWithNotes } from '../predictAt';
import type { PlayingDirection } from '../specs';
import { type Pair, crownMm, frontMm, shaped } from './archRadii';
import { NORMAL_95 } from './distributions';
import type { Finding, FitFailed, OwnShape, RadiusBeforeAfter } from './findings';
import { hornsIn } from './followRatio';
import { modelOf } from './ownShapeModel';
import { sayCore } from '../../words/core';

/** Both logarithms of the radii are at rest below this, in prior deviations. */
const REST = 1e-4;
const MOST_ITERATIONS = 12;
const FEWEST_NOTES = 3;

/**
 * Both jaws' forms are scaled by one factor, both crowns with their gums by another; logarithms have the prior deviations `formPart` and
 * `crownRadiusPart`. Assumes a horn that follows the arch: `fitP` says how likely that is. `midis` are notes between to predict at.
 */
export function ownShape(analysis: Analysis, midis: readonly number[] = [], by: Deviations = DEFAULT_DEVIATIONS): Finding<OwnShape> | FitFailed {
  const steps = ownShapeSteps(analysis, midis, by);
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}

/** The same in steps; yields the part done, 0 to 1. `known`: the moves of the analysis with the notes between, where they are known already. */
export function* ownShapeSteps(
  analysis: Analysis, midis: readonly number[] = [], by: Deviations = DEFAULT_DEVIATIONS, known?: MouthMoves,
): Generator<number, Finding<OwnShape> | FitFailed> {
  const { home } = analysis;
  const seen = analysis.readings.filter(({ measured }) => measured);
  if (seen.length === 0) return { kind: 'cannot-tell', reason: 'no-horn-angles', needs: [{ notes: [], takes: 1, moreNotes: FEWEST_NOTES, of: 'horn' }] };
  if (!home.measured) return { kind: 'cannot-tell', reason: 'no-home-angle', needs: [{ notes: home.note === null ? [] : [home.note], takes: 1, of: 'horn' }] };
  const notes = new Set(seen.map(({ midi }) => midi)).size;
  if (notes < FEWEST_NOTES) return { kind: 'cannot-tell', reason: 'too-few-notes', needs: [{ notes: [], takes: 1, moreNotes: FEWEST_NOTES - notes, of: 'horn' }] };
  const whole = withNotes(analysis, midis);
  const model = modelOf(whole, known ?? (yield* halfOf(moveSteps(whole, by))), by);
  let theta: Pair = [0, 0];
  for (let iterations = 1; iterations <= MOST_ITERATIONS; iterations++) {
    yield 0.5 + iterations / (2 * MOST_ITERATIONS + 2);
    const at = model.step(theta);
    if (!at) return failed(iterations, NaN, sayCore('noSeatForRadii'));
    const moved = Math.hypot(at.next[0] - theta[0], at.next[1] - theta[1]);
    theta = at.next;
    if (moved > REST) continue;
    return {
      kind: 'told',
      evidence: { notes, readings: seen.reduce((sum, reading) => sum + hornsIn(analysis, reading), 0) },
      frontRadius: model.sds[0] > 0 ? radius(frontMm(analysis.record), model.sds[0], theta[0], at.sds[0]) : null,
      verticalRadius: model.sds[1] > 0 ? radius(crownMm(analysis.record), model.sds[1], theta[1], at.sds[1]) : null,
      iterations,
      residualDeg: at.residualDeg,
      fitP: model.fitP,
      arch: shaped(analysis.record, model.sds, theta).arch,
      predictions: at.predictions(),
    };
  }
  return failed(MOST_ITERATIONS, model.step(theta)?.residualDeg ?? NaN, sayCore('radiiWithoutRest'));
}

/** The analysis with notes between its own, of its first way of playing. */
export function withNotes(analysis: Analysis, midis: readonly number[]): Analysis {
  const extended = recordWithNotes(analysis, midis, analysis.branches[0]?.direction);
  return extended === analysis.record ? analysis : analyse(extended, analysis);
}

/** What drawing gave for a reading. */
export interface DrawnAt {
  readonly midi: number;
  readonly direction: PlayingDirection | null;
  readonly elevation: DrawnBand;
  readonly lateral: DrawnBand;
}

/** With the bands of the chosen arch alone as they were drawn, in place of those to first order. */
export function withDrawnBands(own: OwnShape, drawn: readonly DrawnAt[]): OwnShape {
  return {
    ...own,
    predictions: own.predictions.map((one) => {
      const at = drawn.find(({ midi, direction }) => midi === one.midi && direction === one.direction);
      return at === undefined ? one : { ...one, before: { ...one.before, drawn: { elevation: at.elevation, lateral: at.lateral } } };
    }),
  };
}

/** The moves are about half of the work. */
function* halfOf(steps: Generator<number, MouthMoves>): Generator<number, MouthMoves> {
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
    yield step.value / 2;
  }
}

const failed = (iterations: number, residualDeg: number, words: string): FitFailed => ({ kind: 'failed', iterations, residualDeg, words });

function radius(mm: number, prior: number, theta: number, after: number): RadiusBeforeAfter {
  const of = (middle: number, sd: number) => {
    const value = mm * Math.exp(middle);
    return { value, sd: value * sd, low: mm * Math.exp(middle - NORMAL_95 * sd), high: mm * Math.exp(middle + NORMAL_95 * sd) };
  };
  return { beforeMm: of(0, prior), afterMm: of(theta * prior, after * prior) };
}
