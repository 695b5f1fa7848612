/**
 * What the readings say: the shapes that the page shows. Types only. Every finding either tells, with its evidence and how sure it
 * is, or says what is missing. Geometry and statistics of what was seen; nothing here judges a player.
 */
import type { HornAngles } from '../analysis';
import type { DrawnBand } from '../monteCarlo';
import type { ArchSpec, MeasuringMethod, PlayingDirection } from '../specs';

/** An estimate, its standard deviation and its 95 % interval, all in one unit. */
export interface Estimate {
  readonly value: number;
  readonly sd: number;
  readonly low: number;
  readonly high: number;
}

/** What would have to be seen before anything can be told. */
export interface Need {
  /** Sounding notes, low to high; empty: any. */
  readonly notes: readonly string[];
  /** How many more takes of each (or, with `moreNotes`, how many more notes). */
  readonly takes: number;
  readonly moreNotes?: number | undefined;
  readonly of: 'travel' | 'horn' | 'airstream' | 'share' | 'jaw' | 'ease';
}

export type CannotTellReason =
  | 'too-few-notes'
  | 'too-little-range'
  | 'too-little-travel'
  | 'too-unsure'
  | 'no-horn-angles'
  | 'no-home-angle'
  | 'jaw-not-known'
  | 'not-seen';

export interface CannotTell {
  readonly kind: 'cannot-tell';
  readonly reason: CannotTellReason;
  readonly needs: readonly Need[];
}

export interface Evidence {
  /** Different notes, and single readings, that the finding rests on. */
  readonly notes: number;
  readonly readings: number;
}

export type Finding<T> = ({ readonly kind: 'told'; readonly evidence: Evidence } & T) | CannotTell;

/** The line that the rim's centre keeps to. Angles from straight up, + toward the player's right, −180 to 180, pointing the way of rising pitch. */
export interface LineOfTravel {
  readonly fromUpDeg: Estimate;
  /** Along the line, ≥ 0. */
  readonly mmPerOctave: Estimate;
  /** Upward part of that, + up; its sign is "pushes up" or "pulls down". */
  readonly upMmPerOctave: Estimate;
  /** The point of the line in the middle of the readings. */
  readonly middleMm: { readonly upMm: number; readonly rightMm: number };
  /** Whole travel along the line between the lowest and the highest note. */
  readonly extentMm: Estimate;
  /** Root mean square distance from the line, and what the deviations alone would give. */
  readonly offLineMm: number;
  readonly expectedOffLineMm: number;
  /** How likely readings of a straight travel stray as far as these; small: it bends. */
  readonly straightP: number;
}

/** The way of travel when ascending, from the sign of upMmPerOctave. */
export interface WhichWay {
  readonly way: 'pushes-up' | 'pulls-down' | 'to-the-side';
}

/** Ways of measuring that somebody may plan takes for: nobody photographs every note of many takes. */
export type PlannedMethod = Exclude<MeasuringMethod, 'picture'>;

export interface TurnBack {
  readonly found: boolean;
  /** How likely a player who never turns back gives readings like these, or more so. */
  readonly p: number;
  /** The note at which travel turns, and how far it comes back (or starts back) from there, mm; null where no place stands out. */
  readonly at: { readonly note: string; readonly midi: number; readonly sizeMm: number; readonly side: 'above' | 'below' } | null;
  /** Takes of every note with which a turn-back of `sizeMm` over the last three notes would be found 95 times in 100. */
  readonly takesFor: Readonly<Record<PlannedMethod, { readonly sizeMm: number; readonly takes: number | null }>>;
}

export interface AirstreamSeenAt {
  readonly note: string;
  readonly midi: number;
  readonly direction: PlayingDirection | null;
  readonly down: number;
  readonly up: number;
  readonly unsure: number;
}

export interface AirstreamFinding {
  readonly seen: readonly AirstreamSeenAt[];
  /** Where the side changes between two notes with nothing clear between them, low to high, each direction of playing by itself. */
  readonly changes: readonly {
    readonly lowNote: string;
    readonly highNote: string;
    readonly from: 'down' | 'up';
    readonly to: 'down' | 'up';
    readonly direction: PlayingDirection | null;
  }[];
  /** Notes at which both sides were seen in different takes. */
  readonly both: readonly string[];
  /** Notes whose upper-lip share, where it was seen, lies near one half of the diameter. */
  readonly nearHalf: readonly { readonly note: string; readonly shareByDiameter: number }[];
  /** The share that the lesson was set up with, by diameter, where it lies near one half; else null. */
  readonly usualNearHalf: number | null;
}

/** 1: the horn follows the arch; 0: held still; below 0: against it. */
export interface FollowRatio {
  readonly ratio: Estimate;
  /** The fitted line's measured swing at home, degrees: how far off the measured home angle seems. */
  readonly offsetDeg: number;
  /** Swings from home. The measured one's deviation is that of the note's own horn angle: home's is in the offset. */
  readonly points: readonly {
    readonly note: string;
    readonly predictedDeg: number;
    readonly predictedSdDeg: number;
    readonly measuredDeg: number;
    readonly measuredSdDeg: number;
  }[];
  /** How likely points on one line stray as far as these. */
  readonly fitP: number;
}

/** Rows: elevation, lateral; columns: up, right; degrees per mm. */
export type Matrix2 = readonly [readonly [number, number], readonly [number, number]];

/** How the horn answers to travel along one direction. */
export interface ResponseAlong {
  /** Of the direction, from straight up, + toward the player's right. */
  readonly fromUpDeg: number;
  /** Degrees per mm of travel that way. */
  readonly elevation: Estimate;
  readonly lateral: Estimate;
  readonly modelElevation: number;
  readonly modelLateral: number;
}

export interface LocalShape {
  /** Null where the readings keep to one line: then only `along` is known, and nothing across it. */
  readonly degPerMm: Matrix2 | null;
  /** Of the four numbers in the order of the rows; null with them. */
  readonly covariance: readonly (readonly number[])[] | null;
  /** Along the main direction of the readings' travel. */
  readonly along: ResponseAlong;
  /** The model's own at home. */
  readonly modelDegPerMm: Matrix2;
  readonly fitP: number;
}

export interface RadiusBeforeAfter {
  readonly beforeMm: Estimate;
  readonly afterMm: Estimate;
}

export interface OwnShape {
  /** Of the upper jaw's form at its foremost point, or the single surface's; null for a straight form, which has none. */
  readonly frontRadius: RadiusBeforeAfter | null;
  /** Of the upper jaw's crown, or the single surface's arc; null for a straight profile. */
  readonly verticalRadius: RadiusBeforeAfter | null;
  readonly iterations: number;
  /** Root mean square of what the updated shape leaves of the measured swings, degrees. */
  readonly residualDeg: number;
  /** How likely a horn that follows the arch gives readings as far off as these, before the update; small: it may not follow. */
  readonly fitP: number;
  /** The arch with the updated radii. */
  readonly arch: ArchSpec;
  /** Predicted change from home at every note of the record and at those asked for between, before and after. */
  readonly predictions: readonly SwingPrediction[];
}

export interface SwingPrediction {
  readonly note: string;
  readonly midi: number;
  readonly direction: PlayingDirection | null;
  /** Whether the horn's angle was measured there. */
  readonly measured: boolean;
  readonly before: PredictedSwing;
  readonly after: PredictedSwing;
}

/** A change from home and its deviations to first order; where mouths were drawn, what they gave as well. */
export interface PredictedSwing extends HornAngles {
  readonly elevationSdDeg: number;
  readonly lateralSdDeg: number;
  readonly drawn?: { readonly elevation: DrawnBand; readonly lateral: DrawnBand };
}

/** A fit that did not come to rest; a sentence for people. */
export interface FitFailed {
  readonly kind: 'failed';
  readonly iterations: number;
  readonly residualDeg: number;
  readonly words: string;
}

/** One way of playing: ascending and descending are looked at by themselves; null where readings say neither. */
export interface TravelFindings {
  readonly direction: PlayingDirection | null;
  readonly line: Finding<LineOfTravel>;
  readonly way: Finding<WhichWay>;
  readonly turnBack: Finding<TurnBack>;
}

export interface Findings {
  readonly travel: readonly TravelFindings[];
  readonly airstream: Finding<AirstreamFinding>;
  readonly follow: { readonly elevation: Finding<FollowRatio>; readonly lateral: Finding<FollowRatio> };
}
