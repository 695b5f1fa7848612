/**
 * What `analyse` answers: the shapes that the views draw. Types only; plain numbers and typed arrays,
 * millimetres and degrees in the names, vectors in the player's frame (x to the player's left, y up, z forward).
 */
import type { Vec3 } from './vector';
import type { JawSpec, PlayerRecord, PlayingDirection } from './specs';

/** People's angles: up positive, toward the player's right positive. */
export interface HornAngles {
  readonly elevationDeg: number;
  readonly lateralDeg: number;
}

export interface HalfShares {
  readonly upper: number;
  readonly lower: number;
  readonly right: number;
  readonly left: number;
}

/** Where the rim stands. `axis` is the unit vector from mouth to bell. */
export interface RimPose extends HornAngles {
  readonly rimCentreMm: Vec3;
  readonly axis: Vec3;
}

/** Why a seat could not be found; each has a sentence in `problemWords`. */
export type SeatReason =
  | 'off-the-arch'
  | 'never-touches'
  | 'form-too-tight'
  | 'no-rest'
  | 'rim-inside-tooth'
  | 'touch-too-small'
  | 'force-out-of-range'
  | 'not-converged';

export interface SolverTrace {
  readonly iterations: number;
  /** |Σ p·n_z·area − F| / F. */
  readonly forceResidual: number;
  /** Largest moment left over F × the outer radius (follow only; 0 for held). */
  readonly momentResidual: number;
}

/** The load round the rim in one pose. */
export interface RimLoad {
  readonly share: HalfShares;
  readonly lipShare: { readonly upper: number; readonly lower: number };
  /** Part of the annulus (by area) in contact. */
  readonly contactFraction: number;
  readonly peakOverMeanPressure: number;
  /** F over the whole annulus, kPa. */
  readonly meanPressureKPa: number;
  /** What the hands must supply, N·mm: + pushes the bell up / to the player's right. Zero in follow. */
  readonly momentNmm: { readonly elevation: number; readonly lateral: number };
  /**
   * Pressure round the rim, kPa, radial mean at RING_AZIMUTHS azimuths: index i is at angle 2πi/RING_AZIMUTHS in the rim's own
   * plane, from the player's left (index 0) over the top (a quarter) to the right (half) and the bottom.
   */
  readonly ringPressureKPa: Float64Array;
}

export interface Seated {
  readonly kind: 'seated';
  readonly pose: RimPose;
  readonly load: RimLoad;
  readonly trace: SolverTrace;
}

export interface Unseated {
  readonly kind: 'unseated';
  readonly reason: SeatReason;
  /** A sentence for people. */
  readonly words: string;
}

export type SeatAnswer = Seated | Unseated;

export type ViewName = 'plate' | 'sphere' | 'normal' | 'seated';

export interface ViewAngles extends HornAngles {
  readonly changeFromHome: HornAngles;
}

/** One standard deviation in each angle, degrees, and what it is made of. */
export interface AngleBand {
  readonly elevationSdDeg: number;
  readonly lateralSdDeg: number;
}

/** A travel and a horn angle with the deviation they are taken to have. */
export interface KnownTravel {
  readonly upMm: number;
  readonly rightMm: number;
  /** Of `upMm`. */
  readonly sdMm: number;
  readonly rightSdMm: number;
}

export interface KnownHorn extends HornAngles {
  /** Of the elevation. */
  readonly sdDeg: number;
  readonly lateralSdDeg: number;
}

/** Angles of a horn; null for one that nobody saw, or that hangs on one nobody saw. */
export interface SeenAngles {
  readonly elevationDeg: number | null;
  readonly lateralDeg: number | null;
}

/** `full` for what is read off and written down; `glance` for the moving picture: angles to 0.01°, shares to about 0.01, a peak to some per cent. */
export type LoadDetail = 'full' | 'glance';

export interface ReadingAnalysis {
  /** How closely the loads were looked at. */
  readonly detail: LoadDetail;
  readonly note: string;
  readonly midi: number;
  readonly direction: PlayingDirection | null;
  /** Indices into record.readings that were pooled into this one. */
  readonly sources: readonly number[];
  readonly travel: KnownTravel;
  readonly jaw: JawSpec | null;
  readonly jawKnown: boolean;
  readonly forceN: number;
  readonly measured: KnownHorn | null;
  readonly follow: Seated;
  readonly held: Seated;
  readonly changeFromHome: HornAngles;
  /** The measured home angle + changeFromHome, for each angle that was seen at home; null where none was. */
  readonly predictedHorn: SeenAngles | null;
  readonly views: { readonly plate: ViewAngles; readonly sphere: ViewAngles; readonly normal: ViewAngles };
}

/** Something that could not be computed, in words, with the readings it concerns. */
export interface Problem {
  readonly readingIndex: number | null;
  readonly reason: SeatReason | 'bad-reading';
  readonly words: string;
}

export interface HomeAnalysis {
  readonly note: string | null;
  readonly midi: number | null;
  readonly upMm: number;
  readonly rightMm: number;
  /** Height of the lip line above (+) the rim's centre, in the rim's plane. */
  readonly lipLineMm: number;
  readonly follow: Seated;
  readonly measured: KnownHorn | null;
}

/** One direction's readings in order of pitch. */
export interface PathBranch {
  readonly direction: PlayingDirection | null;
  /** Indices into Analysis.readings, rising in pitch. */
  readonly order: readonly number[];
}

export interface Analysis {
  readonly record: PlayerRecord;
  readonly home: HomeAnalysis;
  readonly readings: readonly ReadingAnalysis[];
  readonly branches: readonly PathBranch[];
  readonly problems: readonly Problem[];
}

/** One moment of the playing path or of a drag: what the stage shows between and at the readings. */
export interface LiveFrame {
  /** Fractional MIDI number on the path; null while the rim is dragged away from it. */
  readonly midi: number | null;
  /** Which way along the path; null where the readings have no direction, or off the path. */
  readonly direction: PlayingDirection | null;
  readonly travel: { readonly upMm: number; readonly rightMm: number };
  /** Where the lower jaw stands; null for the record's own jaw and for a single surface. */
  readonly jaw: JawSpec | null;
  /** The pose drawn: follow, held, or one of the simpler views. */
  readonly shown: RimPose;
  readonly follow: Seated;
  readonly held: Seated;
  /** True outside the measured notes. */
  readonly extrapolated: boolean;
}

/** A value that changes every frame without React: read it, or be told that it changed. */
export interface LiveSource {
  current(): LiveFrame | null;
  subscribe(listener: () => void): () => void;
}
