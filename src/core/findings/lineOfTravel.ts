/** The line that the rim keeps to: its direction by total least squares, its sense and extent per octave by regression on pitch. */
import { NORMAL_95, FOUR_TIMES_IN_FIVE, chiSquareTail } from './distributions';
import type { CannotTell, CannotTellReason, Estimate, Finding, LineOfTravel } from './findings';
import { type OrthogonalLine, alongLineMm, orthogonalLine } from './orthogonalLine';
import { type PlacedNote, type WayReadings, evidenceOf, sdAlong } from './readingsOfWay';

/** Two notes always lie on a line; a third can contradict it. */
const FEWEST_NOTES = 3;
/** Lowest to highest note, semitones: over less than a fourth, what travels per octave is a guess. */
const SMALLEST_RANGE_SEMITONES = 5;
/** A direction told with half an interval wider than this would say neither up nor sideways, degrees. */
const WIDEST_HALF_DEG = 45;
/** A slope of so many deviations has its direction within that: sin 45° = 1.96/2.77 (first order; the sense asks for less). */
const TOLD_DEVIATIONS = NORMAL_95 / Math.sin(WIDEST_HALF_DEG * (Math.PI / 180));
/** Travel from lowest to highest note below which a line is not asked for, mm: less than a ruler's deviation twice over. */
export const TRAVEL_WORTH_TELLING_MM = 2;

const DEGREES = 180 / Math.PI;
const SEMITONES_PER_OCTAVE = 12;

/** How up and right change with pitch, mm per octave, each with its own deviation. */
export interface PitchSlope {
  readonly up: number;
  readonly right: number;
  readonly upSd: number;
  readonly rightSd: number;
}

/**
 * Told where the direction is known within 45° and the sense (which end is the high one) at 95 %. Intervals come from the readings' own
 * deviations: for a straight travel the direction's is exact (orthogonalLine.ts, unequalLine.ts); where `straightP` is small they are too narrow.
 * `upMmPerOctave` is the regression of up on pitch itself, exact whatever the direction. Interval ends of the angle may pass ±180.
 */
export function lineOfTravel(way: WayReadings): Finding<LineOfTravel> {
  const { notes } = way;
  const short = tooShort(notes);
  if (short) return short;
  const line = orthogonalLine(notes);
  const slope = pitchSlope(notes);
  if (line.kind !== 'fitted') return cannot('too-little-travel', notes);
  const alongSlope = slope.up * Math.cos(line.angle) + slope.right * Math.sin(line.angle);
  const alongSd = slope.upSd === slope.rightSd ? slope.upSd : Math.hypot(slope.upSd * Math.cos(line.angle), slope.rightSd * Math.sin(line.angle));
  if (line.reach95 === null || Math.max(...line.reach95) * DEGREES > WIDEST_HALF_DEG || Math.abs(alongSlope) < NORMAL_95 * alongSd) {
    return cannot(isOnePlace(line) ? 'too-little-travel' : 'too-unsure', notes);
  }
  const [below, above] = line.reach95;
  const angle = alongSlope >= 0 ? line.angle : line.angle + (line.angle > 0 ? -Math.PI : Math.PI);
  const low = notes[0]!;
  const high = notes[notes.length - 1]!;
  return {
    kind: 'told',
    evidence: evidenceOf(way),
    fromUpDeg: {
      value: angle * DEGREES,
      sd: ((below + above) * DEGREES) / (2 * NORMAL_95),
      low: (angle - below) * DEGREES,
      high: (angle + above) * DEGREES,
    },
    mmPerOctave: estimate(Math.abs(alongSlope), alongSd),
    upMmPerOctave: estimate(slope.up, slope.upSd),
    middleMm: line.middleMm,
    extentMm: estimate(
      alongLineMm(high, line.middleMm, angle) - alongLineMm(low, line.middleMm, angle),
      Math.hypot(sdAlong(low, angle), sdAlong(high, angle)),
    ),
    // Means by the readings' weights, so that a careful reading counts for more.
    offLineMm: Math.sqrt(line.across / line.weight),
    expectedOffLineMm: Math.sqrt(line.freedom / line.weight),
    straightP: chiSquareTail(line.across, line.freedom),
  };
}

/** Slopes of up and right on pitch by weighted least squares; at least two pitches. */
export function pitchSlope(notes: readonly PlacedNote[]): PitchSlope {
  const of = (value: 'upMm' | 'rightMm', sdOf: SdOf): { slope: number; sd: number } => {
    const { mean, spread } = pitchSpread(notes, sdOf);
    const sum = notes.reduce((total, note) => total + ((note.midi / SEMITONES_PER_OCTAVE - mean) / sdOf(note) ** 2) * note[value], 0);
    return { slope: sum / spread, sd: Math.sqrt(1 / spread) };
  };
  const [up, right] = [of('upMm', ({ sdMm }) => sdMm), of('rightMm', ({ rightSdMm }) => rightSdMm)];
  return { up: up.slope, right: right.slope, upSd: up.sd, rightSd: right.sd };
}

/** Which deviation of a note counts, mm. */
type SdOf = (note: PlacedNote) => number;

/** Where no direction is known yet, or what matters lies across it as well as along: the less sure of both. */
export const largerSd: SdOf = ({ sdMm, rightSdMm }) => Math.max(sdMm, rightSdMm);

/** The answer where notes are too few or too near to each other in pitch for a line, else null. */
export function tooShort(notes: readonly PlacedNote[]): CannotTell | null {
  const names = notes.map((note) => note.note);
  if (notes.length < FEWEST_NOTES) {
    return { kind: 'cannot-tell', reason: 'too-few-notes', needs: [{ notes: [], takes: 1, moreNotes: FEWEST_NOTES - notes.length, of: 'travel' }] };
  }
  if (notes[notes.length - 1]!.midi - notes[0]!.midi < SMALLEST_RANGE_SEMITONES) {
    return { kind: 'cannot-tell', reason: 'too-little-range', needs: [{ notes: names.slice(-1), takes: 1, moreNotes: 1, of: 'travel' }] };
  }
  return null;
}

/** True where the readings do not contradict one place for all notes (at 95 %). */
export function isOnePlace(line: OrthogonalLine): boolean {
  return chiSquareTail(line.along + line.across, 2 * (line.freedom + 1)) > 0.05;
}

/**
 * How many more takes of the lowest and of the highest note bring a slope of `mmPerOctave` to `deviations` of its own deviation; each new
 * take errs like the note's readings so far. Both ends, because there a reading says most about a slope.
 */
export function takesAtEnds(notes: readonly PlacedNote[], mmPerOctave: number, deviations: number, sdOf: SdOf): number {
  const wanted = (deviations / mmPerOctave) ** 2;
  let takes = 0;
  let high = 1;
  const spreadOf = (more: number): number => pitchSpread(withTakes(notes, more), sdOf).spread;
  while (spreadOf(high) < wanted) {
    takes = high;
    high *= 2;
  }
  while (high - takes > 1) {
    const middle = (takes + high) >> 1;
    if (spreadOf(middle) < wanted) takes = middle;
    else high = middle;
  }
  return high;
}

export const estimate = (value: number, sd: number): Estimate => ({ value, sd, low: value - NORMAL_95 * sd, high: value + NORMAL_95 * sd });

/**
 * Asks for so many takes that the travel seen so far, or travel worth telling where less is seen, would be told about four times
 * in five.
 */
function cannot(reason: CannotTellReason, notes: readonly PlacedNote[]): CannotTell {
  const slope = pitchSlope(notes);
  // The square of what is seen is too large by the square of its own deviation, once for up and once for right.
  const seen = Math.sqrt(Math.max(0, slope.up ** 2 + slope.right ** 2 - slope.upSd ** 2 - slope.rightSd ** 2));
  const octaves = (notes[notes.length - 1]!.midi - notes[0]!.midi) / SEMITONES_PER_OCTAVE;
  const takes = takesAtEnds(notes, Math.max(seen, TRAVEL_WORTH_TELLING_MM / octaves), TOLD_DEVIATIONS + FOUR_TIMES_IN_FIVE, largerSd);
  return { kind: 'cannot-tell', reason, needs: [{ notes: [notes[0]!.note, notes[notes.length - 1]!.note], takes, of: 'travel' }] };
}

function withTakes(notes: readonly PlacedNote[], takes: number): PlacedNote[] {
  return notes.map((note, i) => {
    if (i !== 0 && i !== notes.length - 1) return note;
    const times = Math.sqrt(note.readings / (note.readings + takes));
    return { ...note, sdMm: note.sdMm * times, rightSdMm: note.rightSdMm * times };
  });
}

/** Weighted mean of pitch and sum of squares about it, octaves, by 1/sd². */
function pitchSpread(notes: readonly PlacedNote[], sdOf: SdOf): { mean: number; spread: number } {
  let weight = 0;
  let sum = 0;
  for (const note of notes) {
    const square = sdOf(note) ** 2;
    weight += 1 / square;
    sum += note.midi / SEMITONES_PER_OCTAVE / square;
  }
  const mean = sum / weight;
  return { mean, spread: notes.reduce((total, note) => total + ((note.midi / SEMITONES_PER_OCTAVE - mean) / sdOf(note)) ** 2, 0) };
}
