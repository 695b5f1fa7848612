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

export type ArchSpec =
  | { readonly single: JawArchSpec }
  | { readonly upper: JawArchSpec; readonly lower: JawArchSpec; readonly jaw: JawSpec };

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
  readonly sdMm?: number | undefined;
}

export interface HornSpec {
  readonly elevationDeg: number;
  readonly lateralDeg: number;
  readonly sdDeg?: number | undefined;
}

export type MeasuringMethod = 'eye' | 'ruler' | 'video';
export type PlayingDirection = 'up' | 'down';

export interface ReadingSpec {
  /** Sounding pitch in scientific notation, C4 = middle C. */
  readonly note: string;
  readonly travel: TravelSpec;
  readonly horn?: HornSpec | undefined;
  readonly method?: MeasuringMethod | undefined;
  readonly direction?: PlayingDirection | undefined;
  /** Where the jaw stands at this note, if it was seen; what is absent is as in the arch. */
  readonly jaw?: Partial<Omit<JawSpec, 'hingeArmMm'>> | undefined;
  readonly force?: { readonly newtons: number } | undefined;
}

export interface HomeSpec {
  readonly note?: string | undefined;
  /** The rim centre's place when travel is (0, 0), from the origin of docs/model.md. Absent: see `homePlace`. */
  readonly upMm?: number | undefined;
  readonly rightMm?: number | undefined;
}

export interface PlayerRecord {
  readonly format: 'rimpath-record';
  readonly version: 1;
  readonly player: { readonly label: string; readonly instrument: string };
  readonly arch: ArchSpec;
  readonly rim: RimSpec;
  readonly lips: LipsSpec;
  readonly force: { readonly newtons: number };
  readonly home?: HomeSpec | undefined;
  readonly upperLipShare: { readonly value: number; readonly by: 'diameter' | 'arc' | 'area' };
  readonly readings: readonly ReadingSpec[];
}
