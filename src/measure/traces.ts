/** What was followed through a film (or marked in one picture): places in px with their deviations, at the film's own times. */
import type { LandmarkName, ViewFrom } from './marks';
import type { Point } from './picture';

/** Everything that is followed as a point. `level-*` and `horn-*` are the ends of those lines. */
export type TracedName = LandmarkName | 'level-back' | 'level-front' | 'horn-near' | 'horn-far';

export interface TracedPoint extends Point {
  /** One standard deviation along each direction, px; of a point that slides, only across. */
  readonly sdPx: number;
  /** Present where what was marked looks the same further along a straight edge (a plain tube): the direction, from the picture's x axis toward y, and the deviation along it. */
  readonly slides?: { readonly alongRad: number; readonly sdPx: number } | undefined;
}

/** The rim's outer edge as an ellipse. */
export interface RimEllipse {
  readonly centre: Point;
  readonly semiMajorPx: number;
  readonly semiMinorPx: number;
  /** From the picture's x axis toward its y axis, of the major axis, radians, in (−π/2, π/2]. */
  readonly angleRad: number;
}

export interface TracedRim extends RimEllipse {
  /** Deviations of the centre (each direction), and of the semi-axes, px. */
  readonly centreSdPx: number;
  readonly axesSdPx: number;
}

export interface TracedFrame {
  /** The frame's own time, seconds from the film's beginning as its container says. */
  readonly timeS: number;
  /** null: lost, or not in this view. */
  readonly rim: TracedRim | null;
  /** What is absent was not marked or was lost in this frame. */
  readonly points: Readonly<Partial<Record<TracedName, TracedPoint>>>;
}

/** When each was marked, the film's own times, rising, s; what was marked once may be absent. From each of them on it is followed from that frame's mark. */
export type MarkedTimes = Readonly<Partial<Record<TracedName | 'rim', readonly number[]>>>;

export interface FilmTrace {
  readonly view: ViewFrom;
  readonly frames: readonly TracedFrame[];
  /** Absent: everything was marked once. */
  readonly marked?: MarkedTimes | undefined;
}

/** What one frame says of rim and horn in the head's frame: mm and degrees, one standard deviation each. */
export interface HeadSample {
  readonly timeS: number;
  /** Rim's centre in the head's frame, people's signs, relative to wherever `rimPlaces` was told home is. */
  readonly travel: { readonly upMm: number; readonly rightMm: number; readonly sdMm: number; readonly rightSdMm: number } | null;
  readonly elevation: { readonly deg: number; readonly sdDeg: number } | null;
  readonly lateral: { readonly deg: number; readonly sdDeg: number } | null;
}

/** A stretch of one note. */
export interface NoteHeard {
  readonly startS: number;
  readonly endS: number;
  /** Sounding pitch, MIDI; null: nobody knows yet. */
  readonly midi: number | null;
  /** Off the take's own tuning, cents; null where it was tapped. */
  readonly cents: number | null;
}
