/**
 * The plain data the whole project computes from: what a record says, in the record's own units
 * (millimetres, degrees, newtons, kilopascals). Frames and signs: docs/model.md. Types only.
 */

/** A planar arch form, apex at the origin, opening backward; `points` are [x, z] in the player's frame, right to left. */
export type FormSpec =
  | { readonly kind: 'power'; readonly widthMm: number; readonly depthMm: number; readonly exponent: number }
  | { readonly kind: 'sextic'; readonly a: number; readonly b: number }
  | { readonly kind: 'catenary'; readonly widthMm: number; readonly depthMm: number }
  | { readonly kind: 'circle'; readonly radiusMm: number }
  | { readonly kind: 'line' }
  | { readonly kind: 'points'; readonly points: readonly (readonly [number, number])[] };

/** A labial profile: how far out tooth and gum stand at each height from the edge. */
export type ProfileSpec =
  | {
      readonly kind: 'arcs';
      readonly inclinationDeg: number;
      readonly crownHeightMm: number;
      readonly crownRadiusMm: number;
      readonly gumRadiusMm: number;
      readonly gumInclinationDeg: number;
    }
  | { readonly kind: 'arc'; readonly radiusMm: number }
  | { readonly kind: 'straight'; readonly inclinationDeg?: number | undefined };

/**
 * One tooth standing out (+) or in (−) of the arch form: `fdi` is the two-digit number of ISO 3950, `centreMm` its middle by arc
 * length from the midline (+ to the player's left), `widthMm` its width.
 */
export interface ToothSpec {
  readonly fdi: number;
  readonly outMm: number;
  readonly centreMm: number;
  readonly widthMm: number;
}

export interface JawArchSpec {
  readonly form: FormSpec;
  readonly profile: ProfileSpec;
  readonly teeth?: readonly ToothSpec[] | undefined;
}

/** Where the lower jaw stands. Opening ≥ 0 between the edges; forward + to the front; hinge + opens. */
export interface JawSpec {
  readonly openingMm: number;
  readonly forwardMm: number;
  readonly hingeDeg: number;
  /** Distance from the hinge axis forward to the upper incisal edge; absent, the published triangle's side. */
  readonly hingeArmMm?: number | undefined;
}

/** What a ruler or a caliper can tell of two jaws; where each is taken: core/ownArch/measures.ts. */
export type ArchMeasureName =
  | 'upper-canine-width'
  | 'upper-canine-depth'
  | 'upper-molar-width'
  | 'upper-molar-depth'
  | 'lower-canine-width'
  | 'lower-canine-depth'
  | 'lower-molar-width'
  | 'lower-molar-depth'
  | 'overjet'
  | 'overbite'
  | 'upper-crown-height';

export interface ArchMeasureSpec {
  readonly name: ArchMeasureName;
  readonly mm: number;
  /** One standard deviation. */
  readonly sdMm: number;
  readonly by: 'ruler' | 'caliper';
}

/** The kinds of form that measures are fitted with; `ellipse`, `beta` and `parabola` are the power form with exponent ½, 0.8 and 1. */
export type ArchFamily = 'sextic' | 'ellipse' | 'beta' | 'parabola' | 'catenary' | 'circle';

/** What an arch's forms were fitted to. It holds for as long as the forms are those of the fit: core/ownArch/ownArch.ts. */
export interface MeasuredArchSpec {
  readonly family: ArchFamily;
  /** Each name once. */
  readonly measures: readonly ArchMeasureSpec[];
  /** One of each jaw at most; absent where nobody bit on card. */
  readonly prints?: readonly BitePrintSpec[] | undefined;
}

export interface PrintPointSpec {
  /** On the card, in any place and turn of it. */
  readonly xMm: number;
  readonly yMm: number;
  /** One deviation, each way. */
  readonly sdMm: number;
  /** Which place of the arch it is, where that was seen. */
  readonly tooth?: 'midline' | 'canine-right' | 'canine-left' | undefined;
}

/** By what the size of a print was told. */
export type PrintScaleSpec =
  | { readonly by: 'card'; readonly widthMm: number; readonly heightMm: number }
  | { readonly by: 'circle'; readonly diameterMm: number }
  | { readonly by: 'ruler'; readonly lengthMm: number };

/** The outer edges of one jaw's teeth as they were bitten into card, from the player's right to the left. */
export interface BitePrintSpec {
  readonly jaw: 'upper' | 'lower';
  readonly scale: PrintScaleSpec;
  /** One deviation of the size that all points share, as a part of it. */
  readonly scalePart: number;
  readonly points: readonly PrintPointSpec[];
  /** The jaw has the free form through these points, its sides each as they are; absent, a form of the arch's family. */
  readonly isFree?: true | undefined;
}

/** A number of a jaw's form or profile as a scan gave it, by its name there; `sd` is one standard deviation. */
export interface ScannedNumberSpec {
  readonly name: 'widthMm' | 'depthMm' | 'radiusMm' | 'a' | 'b' | 'inclinationDeg' | 'crownHeightMm' | 'crownRadiusMm' | 'gumRadiusMm' | 'gumInclinationDeg';
  readonly value: number;
  readonly sd: number;
}

/** What a jaw was fitted to. It holds for as long as the jaw's own numbers are these: core/ownArch/scannedArch.ts. */
export interface ScannedJawSpec {
  /** Each name once. */
  readonly numbers: readonly ScannedNumberSpec[];
  /** What the fit left between scan and arch, root mean square. */
  readonly residualMm: number;
}

/** Scans of one mouth; absent jaws were not scanned. */
export interface ScannedArchSpec {
  /** Under which the scans themselves are kept in the browser, where they are. */
  readonly id: string;
  readonly upper?: ScannedJawSpec | undefined;
  readonly lower?: ScannedJawSpec | undefined;
}

export type ArchSpec = { readonly single: JawArchSpec } | TwoJawsSpec;

export interface TwoJawsSpec {
  readonly upper: JawArchSpec;
  readonly lower: JawArchSpec;
  readonly jaw: JawSpec;
  /** Absent for a ready-made arch, or one typed by its numbers. */
  readonly measured?: MeasuredArchSpec | undefined;
  /** Absent where no jaw was fitted to a scan. */
  readonly scanned?: ScannedArchSpec | undefined;
}

export interface RimSpec {
  readonly innerDiameterMm: number;
  readonly outerDiameterMm: number;
  readonly highPointDiameterMm: number;
  /** Radius of the contour's arc through the high point; null is a flat rim. */
  readonly contourRadiusMm: number | null;
}

export interface LipSpec {
  readonly thicknessMm: number;
  readonly effectiveModulusKPa: number;
}

export type LipLaw = 'stiffening' | 'linear';

export interface LipsSpec {
  readonly upper: LipSpec;
  readonly lower: LipSpec;
  readonly law: LipLaw;
}

export interface TravelSpec {
  readonly upMm: number;
  readonly rightMm: number;
  /** One standard deviation, mm, of `upMm`, and of `rightMm` too where `rightSdMm` is absent. */
  readonly sdMm?: number | undefined;
  /** That of `rightMm`, where it is another. */
  readonly rightSdMm?: number | undefined;
}

export interface HornSpec {
  readonly elevationDeg: number;
  readonly lateralDeg: number;
  /** One standard deviation, degrees, of the elevation, and of the lateral angle too where `lateralSdDeg` is absent. */
  readonly sdDeg?: number | undefined;
  /** The lateral angle's own. An angle that nobody saw stands as at home, with `UNSEEN_HORN_SD_DEG` of core/readings.ts. */
  readonly lateralSdDeg?: number | undefined;
}

/** `picture`: from single pictures; `video`: over the frames of a film. */
export type MeasuringMethod = 'eye' | 'ruler' | 'video' | 'picture';
export type PlayingDirection = 'up' | 'down';
/** Which way the air was seen to go inside the rim. */
export type AirstreamSeen = 'down' | 'up' | 'unsure';

/**
 * Where in a kept measuring a reading was seen, so that its frame can be looked up. Only a pointer: nothing is computed from it. The
 * measuring may be gone since; the reading stays.
 */
export interface SeenSpec {
  /** The id of one of the lesson's `measurings`. */
  readonly measuring: string;
  /** Which of its films or pictures, from 0; absent, the first. */
  readonly source?: number | undefined;
  /** The stretch of a film that was averaged; seconds of the first film's own time. */
  readonly startS?: number | undefined;
  readonly endS?: number | undefined;
  /** One frame that shows it, seconds; absent for a picture, which has only one. */
  readonly atS?: number | undefined;
}

export interface ReadingSpec {
  /** Sounding pitch in scientific notation, C4 = middle C. */
  readonly note: string;
  /** Which time the exercise was played, from 1; absent, 1. */
  readonly take?: number | undefined;
  /** Absent where nobody saw it: such a note is no point of the path. */
  readonly travel?: TravelSpec | undefined;
  readonly horn?: HornSpec | undefined;
  readonly method?: MeasuringMethod | undefined;
  readonly direction?: PlayingDirection | undefined;
  /** Where the jaw stands at this note, if it was seen; what is absent is as in the arch. */
  readonly jaw?: Partial<Omit<JawSpec, 'hingeArmMm'>> | undefined;
  readonly force?: { readonly newtons: number } | undefined;
  readonly airstream?: AirstreamSeen | undefined;
  /** The upper lip's share seen at this note, a part of what the record's own share is a part of. */
  readonly upperLipShare?: number | undefined;
  /** How easily it spoke, 1 (hard) to 5 (easy), as the player says. */
  readonly ease?: number | undefined;
  readonly remark?: string | undefined;
  readonly from?: SeenSpec | undefined;
}

export interface HomeSpec {
  readonly note?: string | undefined;
  /** The rim centre's place when travel is (0, 0), from the origin of docs/model.md. Absent: see `homePlace`. */
  readonly upMm?: number | undefined;
  readonly rightMm?: number | undefined;
}

export interface ShareSpec {
  readonly value: number;
  readonly by: 'diameter' | 'arc' | 'area';
}

/** What one analysis is made from: a player's mouth and what was seen in one lesson. */
export interface PlayerRecord {
  readonly player: { readonly label: string; readonly instrument: string };
  readonly arch: ArchSpec;
  readonly rim: RimSpec;
  readonly lips: LipsSpec;
  readonly force: { readonly newtons: number };
  readonly home?: HomeSpec | undefined;
  readonly upperLipShare: ShareSpec;
  readonly readings: readonly ReadingSpec[];
}

/** One deliberate change. Millimetres up (+) or down (−); degrees to the player's right (+) or left (−). */
export type TryOutChange =
  | { readonly kind: 'hold-horn' }
  | { readonly kind: 'let-horn-follow' }
  | { readonly kind: 'place-rim'; readonly upMm: number }
  | { readonly kind: 'bring-horn-round'; readonly lateralDeg: number };

/** A try-out's readings count travel from their own home: that of the lesson, moved with the rim where the rim was placed elsewhere. */
export interface TryOutSpec {
  readonly id: string;
  readonly change: TryOutChange;
  readonly readings: readonly ReadingSpec[];
  readonly remark?: string | undefined;
}

/**
 * A measuring of films or pictures as it is kept. Core sees only its name: what else it holds is pixels and times, which
 * `records/measuringSchema.ts` checks and `measure` understands, and nothing here may come to depend on them.
 */
export interface KeptMeasuring {
  readonly id: string;
}

/** What was seen in one lesson. Rim, force, home and share are the lesson's own; teeth and lips are the player's. */
export interface LessonSpec {
  readonly id: string;
  /** The day, as in 2026-03-01; absent where nobody wrote it down. */
  readonly date?: string | undefined;
  readonly remark?: string | undefined;
  readonly rim: RimSpec;
  readonly force: { readonly newtons: number };
  readonly home?: HomeSpec | undefined;
  readonly upperLipShare: ShareSpec;
  readonly readings: readonly ReadingSpec[];
  readonly tryOuts: readonly TryOutSpec[];
  /** What the teacher sends the player home with, for the hand-out; absent, the try-outs' own words. */
  readonly toTry?: string | undefined;
  /** What readings were measured from; no part of the record that is analysed. */
  readonly measurings?: readonly KeptMeasuring[] | undefined;
}

/** A player as kept and exchanged: at least one lesson, oldest first. */
export interface PlayerSpec {
  readonly id: string;
  readonly label: string;
  readonly instrument: string;
  readonly arch: ArchSpec;
  readonly lips: LipsSpec;
  readonly lessons: readonly LessonSpec[];
}
