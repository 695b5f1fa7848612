/**
 * What the charts are given: plain data. Wherever a callback or `selected` names a note, it is by `readingIndex`, not by
 * the place in the array. Points come in the order of stepping through them: rising in pitch, then, where the way down was
 * seen apart, falling.
 */
import type { AngleBand, HornAngles, LiveSource } from '../../core/analysis';
import type { PlayingDirection } from '../../core/specs';

/** One line of a chart: the whole path, or one of its two ways. */
export interface Way<Curve> {
  readonly direction: PlayingDirection | null;
  /** Places in `points` of the notes on this way, rising in pitch; a note without a direction lies on both. */
  readonly members: readonly number[];
  /** What lies between the notes, rising in pitch; empty: they are joined by straight lines. */
  readonly curve: readonly Curve[];
}

export interface MeasuredAngles extends HornAngles {
  /** One standard deviation of the elevation and of the lateral angle, degrees; 0 draws no error bar. */
  readonly sdDeg: number;
  readonly lateralSdDeg: number;
}

/** One note of the angle chart; every angle is a change from home. */
export interface AnglePoint {
  readonly readingIndex: number;
  readonly midi: number;
  /** Note name under the axis. */
  readonly label: string;
  readonly direction?: PlayingDirection | null | undefined;
  readonly predicted: HornAngles;
  /** One standard deviation of the prediction; null or absent: no band at this note. */
  readonly band?: AngleBand | null | undefined;
  /** Measured change from home; null where the horn was not measured. */
  readonly measured: MeasuredAngles | null;
}

/** The prediction between the notes. */
export interface AngleCurvePoint extends HornAngles {
  readonly midi: number;
}

export interface AngleChartProps {
  readonly points: readonly AnglePoint[];
  /** One, or ascending and descending. */
  readonly ways: readonly Way<AngleCurvePoint>[];
  /** Where a horn that is held still points, as a change from home; by definition zero, the default. */
  readonly held?: HornAngles | undefined;
  /** What the two panels are called: "bell up", "bell to the right" or the words for a horn on the lap. */
  readonly words?: { readonly elevation: string; readonly lateral: string } | undefined;
  readonly live: LiveSource;
  /** The predicted horn at home itself, from which changes are counted: by it the chosen note's mark follows the live frame, or else stays. */
  readonly home?: HornAngles | undefined;
  readonly selected: number | null;
  readonly onSelect: (readingIndex: number) => void;
}

export interface Travel {
  readonly upMm: number;
  readonly rightMm: number;
}

/** One note of the travel charts. */
export interface TravelPoint extends Travel {
  readonly readingIndex: number;
  readonly midi: number;
  readonly label: string;
  readonly direction?: PlayingDirection | null | undefined;
  /** One standard deviation of the measurement, up and to the right; 0 or absent draws no error bar. */
  readonly sdMm?: number | undefined;
  readonly rightSdMm?: number | undefined;
}

/** The shape-preserving curve between the notes, as computed by the core. */
export interface TravelCurvePoint extends Travel {
  readonly midi: number;
}

interface TravelEditing {
  readonly points: readonly TravelPoint[];
  /** One, or ascending and descending. */
  readonly ways: readonly Way<TravelCurvePoint>[];
  readonly live: LiveSource;
  readonly selected: number | null;
  readonly onSelect: (readingIndex: number) => void;
  /** A point was moved, at every step of the gesture; rounded to 0.1 mm and within ±limitMm. */
  readonly onTravel: (readingIndex: number, travel: Travel) => void;
  /** The gesture is over: the moment for an entry in the undo history. */
  readonly onTravelEnd?: (() => void) | undefined;
  /** Largest travel a point can be dragged or moved to, mm; 15 by default. */
  readonly limitMm?: number | undefined;
}

/** Travel up and to the right against pitch, in two panels. */
export type TravelChartProps = TravelEditing;

/** The path of the rim on the plane across the face. */
export interface FacePlotProps extends TravelEditing {
  /** As in a mirror: the player's right is drawn on the right. Default false, face to face: on the left. Only the drawing flips. */
  readonly mirror?: boolean | undefined;
}
