/**
 * How far the horn goes with the arch: measured swing against the model's predicted swing, a straight line with errors in both, for each
 * of the two angles. 1 follows the arch, 0 is held still, below 0 goes against it. docs/numerics.md §12.
 */
import type { Analysis, HornAngles, KnownHorn, ReadingAnalysis } from '../analysis';
import { type MouthMoves, computeMoves } from '../mouthMoves';
import { isAngleSeen } from '../readings';
import { chiSquareTail, NORMAL_95 } from './distributions';
import type { CannotTell, Finding, FollowRatio, Need } from './findings';
import { type SharedErrorsPoint, lineWithSharedErrors } from './lineWithSharedErrors';

export interface FollowRatios {
  readonly elevation: Finding<FollowRatio>;
  readonly lateral: Finding<FollowRatio>;
}

/** Notes with travel and a horn angle, home among them, below which a line has nothing left over to be judged by. */
export const FEWEST_NOTES = 3;
/** Of a horn held still (0), an interval expected to be wider than this would reach to one that follows (1). */
const MOST_WIDTH_HELD_STILL = 2;
/**
 * No horn swings further than this many times what the arch turns: an interval's end beyond it, which a poorly known mouth leaves open
 * (a lower tooth inclined by 6° more or less halves the elevation's swing or doubles it), is given as this.
 */
export const MOST_RATIO = 5;
/** A horn angle given as exact counts as this, degrees: nobody reads one more closely, and 0 would weigh without end. */
export const SMALLEST_HORN_SD_DEG = 0.05;
/** More takes, or more notes, than this are not asked for in one lesson. */
const MOST_ASKED = 20;

/**
 * Both ratios from every reading with travel and a horn angle, ascending and descending together. The line has an intercept, so that an
 * error of the measured home angle, which is in every measured swing alike, tilts nothing. `moves` are this analysis's own; left out,
 * they are worked out (some 40 ms for eight notes).
 */
export function followRatios(analysis: Analysis, moves?: MouthMoves): FollowRatios {
  const ratio = (axis: Axis): Finding<FollowRatio> => {
    const used = analysis.readings.flatMap((reading, index) => (isSeen(reading.measured, axis) ? [{ reading, index }] : []));
    const readings = used.map(({ reading }) => reading);
    const missing = tooLittleSeen(analysis, readings, axis) ?? (axis === 'elevationDeg' ? jawNotKnown(analysis, readings) : null);
    return missing ?? ratioOf(analysis, used, (moves ??= computeMoves(analysis)), axis);
  };
  return { elevation: ratio('elevationDeg'), lateral: ratio('lateralDeg') };
}

const SD_OF = { elevationDeg: 'sdDeg', lateralDeg: 'lateralSdDeg' } as const;

const isSeen = (horn: KnownHorn | null, axis: Axis): boolean => horn !== null && isAngleSeen(horn[SD_OF[axis]]);

type Axis = keyof HornAngles;

interface Used {
  readonly reading: ReadingAnalysis;
  readonly index: number;
}

function tooLittleSeen({ home, readings }: Analysis, used: readonly ReadingAnalysis[], axis: Axis): CannotTell | null {
  const withoutHorn = readings.filter((reading) => !isSeen(reading.measured, axis) && reading.midi !== home.midi);
  const more = notesOf(withoutHorn);
  const seen = notesOf(used).length;
  const lacking = FEWEST_NOTES - seen;
  const ofHorn: Need = more.length >= lacking ? { notes: more, takes: 1, of: 'horn' } : { notes: more, takes: 1, moreNotes: lacking - more.length, of: 'horn' };
  if (seen === 0) return cannot('no-horn-angles', [{ ...ofHorn, notes: notesOf(readings) }]);
  if (!isSeen(home.measured, axis)) return cannot('no-home-angle', [{ notes: home.note === null ? [] : [home.note], takes: 1, of: 'horn' }]);
  return lacking > 0 ? cannot('too-few-notes', [ofHorn]) : null;
}

/** Half a millimetre of jaw turns the horn by a degree: without it an elevation says nothing about following. */
function jawNotKnown({ record }: Analysis, used: readonly ReadingAnalysis[]): CannotTell | null {
  if ('single' in record.arch) return null;
  const unseen = used.filter((reading) => !reading.jawKnown);
  return unseen.length > 0 ? cannot('jaw-not-known', [{ notes: notesOf(unseen), takes: 1, of: 'jaw' }]) : null;
}

const cannot = (reason: CannotTell['reason'], needs: readonly Need[]): CannotTell => ({ kind: 'cannot-tell', reason, needs });

/** Each pitch once, low to high. */
function notesOf(readings: readonly ReadingAnalysis[]): string[] {
  const byPitch = new Map(readings.map((reading) => [reading.midi, reading.note]));
  return [...byPitch].sort(([a], [b]) => a - b).map(([, note]) => note);
}

function ratioOf(analysis: Analysis, used: readonly Used[], moves: MouthMoves, axis: Axis): Finding<FollowRatio> {
  const homeAngle = analysis.home.measured![axis];
  const points = used.map(({ reading, index }): SharedErrorsPoint => {
    const own = moves.own[index]!.flatMap(({ name, change }) => (change ? [{ seen: name.startsWith('travel'), by: change[axis] }] : []));
    return {
      x: reading.changeFromHome[axis],
      y: reading.measured![axis] - homeAngle,
      sdY: Math.max(reading.measured![SD_OF[axis]], SMALLEST_HORN_SD_DEG),
      seenSdX: Math.hypot(...own.filter(({ seen }) => seen).map(({ by }) => by)),
      modelSdX: Math.hypot(...own.filter(({ seen }) => !seen).map(({ by }) => by)),
      sharedX: moves.shared.map(({ readings }) => readings[index]?.[axis] ?? 0),
    };
  });
  const fit = widthHeldStill(points) > MOST_WIDTH_HELD_STILL ? null : lineWithSharedErrors(points, MOST_RATIO);
  const open = fit?.kind !== 'fitted' || Math.abs(fit.slope) >= MOST_RATIO || (fit.low === -Infinity && fit.high === Infinity);
  if (open) return whatIsMissing(used, points);
  return {
    kind: 'told',
    evidence: {
      notes: notesOf(used.map(({ reading }) => reading)).length,
      readings: used.reduce((sum, { reading }) => sum + hornsIn(analysis, reading), 0),
    },
    ratio: { value: fit.slope, sd: fit.sd, low: Math.max(fit.low, -MOST_RATIO), high: Math.min(fit.high, MOST_RATIO) },
    offsetDeg: fit.intercept,
    points: used.map(({ reading }, i) => {
      const { x, y, sdY, seenSdX, modelSdX, sharedX } = points[i]!;
      return { note: reading.note, predictedDeg: x, predictedSdDeg: Math.hypot(seenSdX, modelSdX, ...sharedX), measuredDeg: y, measuredSdDeg: sdY };
    }),
    fitP: chiSquareTail(fit.chi2, fit.freedom),
  };
}

/** How many takes of a reading had the horn measured. */
export const hornsIn = ({ record }: Analysis, reading: ReadingAnalysis): number =>
  reading.sources.filter((source) => record.readings[source]!.horn !== undefined).length;

/** More takes of the same notes where that helps; else more notes at the widest travel there is; else travel further out. */
function whatIsMissing(used: readonly Used[], points: readonly SharedErrorsPoint[]): CannotTell {
  const notes = notesOf(used.map(({ reading }) => reading));
  for (let takes = 2; takes <= MOST_ASKED; takes++) {
    if (widthHeldStill(points.map((point) => ({ ...point, sdY: point.sdY / Math.sqrt(takes) }))) <= MOST_WIDTH_HELD_STILL) {
      return cannot('too-unsure', [{ notes, takes: takes - 1, of: 'horn' }]);
    }
  }
  const widest = [...points].sort((a, b) => Math.abs(b.x) - Math.abs(a.x))[0]!;
  for (let more = 1; more <= MOST_ASKED; more++) {
    if (widthHeldStill([...points, ...Array.from({ length: more }, () => widest)]) <= MOST_WIDTH_HELD_STILL) {
      return cannot('too-little-travel', [{ notes: [], takes: 1, moreNotes: more, of: 'horn' }]);
    }
  }
  return cannot('too-little-travel', [{ notes: [], takes: 1, moreNotes: FEWEST_NOTES - 1, of: 'travel' }]);
}

/**
 * Width of the 95 % interval to be expected of a horn held still, from the predicted swings and the deviations alone: so that whether
 * anything is told does not hang on what was measured. Errors of seeing the travel spread the swings too; that much is taken off.
 */
function widthHeldStill(points: readonly SharedErrorsPoint[]): number {
  const weights = points.map((point) => 1 / point.sdY ** 2);
  const whole = weights.reduce((sum, weight) => sum + weight, 0);
  const middle = points.reduce((sum, point, i) => sum + weights[i]! * point.x, 0) / whole;
  const information = points.reduce((sum, { x, seenSdX }, i) => {
    const weight = weights[i]!;
    return sum + weight * ((x - middle) ** 2 - seenSdX ** 2 * (1 - weight / whole));
  }, 0);
  return information > 0 ? (2 * NORMAL_95) / Math.sqrt(information) : Infinity;
}
