/**
 * Labial profiles: a curve in a vertical plane that says how far out tooth and gum stand (d, mm) at each height h from the
 * edge toward the gum. The slope angle β is 0 where the face is vertical and + where the gum side lies further back; the outward
 * normal is (cos β, sin β) in (d, h). Definitions: docs/model.md "Exactly", formulas: docs/numerics.md §2.
 */
import { tooTight } from './formChecks';
import { toRadians } from './frame';
import type { ProfileSpec } from './specs';
import { sayCore } from '../words/core';
import { fixed, saidNumber } from '../words/numbers';

/** Gum is modelled to this height from the edge, mm. */
export const GUM_END_MM = 30;
/** What `footOnProfile` writes: gap, normal (d, h), κ/(1 + gap·κ), height of the foot, offset d of the foot, region. */
export const PROFILE_OUT = 7;
/** Neighbouring parts of a profile overlap by this much, mm, so that rounding leaves no crack between them. */
const JOIN_SLACK_MM = 1e-9;
const REGION_EDGE = 0;
export const REGION_FACE = 1;
const REGION_END = 2;

/** Places in `LabialProfile.numbers`: typed, so that the hot loop meets doubles and one hidden class whatever the profile. */
const CROWN_D = 0;
const CROWN_H = 1;
const CROWN_RADIUS = 2;
const CROWN_FROM_COS = 3;
const CROWN_FROM_SIN = 4;
const CROWN_TO_COS = 5;
const CROWN_TO_SIN = 6;
const GUM_D = 7;
const GUM_H = 8;
const GUM_RADIUS = 9;
const GUM_TO_COS = 10;
const GUM_TO_SIN = 11;
const LINE_D = 12;
const LINE_H = 13;
const LINE_COS = 14;
const LINE_SIN = 15;
const LINE_LENGTH = 16;
const START_D = 17;
const START_H = 18;
const END_D = 19;
const END_H = 20;
const LOW_MM = 21;
const HIGH_MM = 22;

export interface LabialProfile {
  /** The numbers below in the hot loop's order. */
  readonly numbers: Float64Array;
  /** Heights that the profile covers; infinite for a straight one. */
  readonly lowMm: number;
  readonly highMm: number;
  /** Convex arc (crown): centre, radius, slopes at its ends; radius 0 when absent. */
  readonly crownD: number;
  readonly crownH: number;
  readonly crownRadius: number;
  readonly crownFromCos: number;
  readonly crownFromSin: number;
  readonly crownToCos: number;
  readonly crownToSin: number;
  /** Concave arc (gum): centre outside the gum, radius, slope at its far end; radius 0 when absent. */
  readonly gumD: number;
  readonly gumH: number;
  readonly gumRadius: number;
  readonly gumToCos: number;
  readonly gumToSin: number;
  /** Straight part from (lineD, lineH) along (−sin, cos) over lineLength; length 0 when absent, starts at −∞ when two-sided. */
  readonly lineD: number;
  readonly lineH: number;
  readonly lineCos: number;
  readonly lineSin: number;
  readonly lineLength: number;
  readonly lineTwoSided: boolean;
  /** Where the profile begins and ends (d, h); used only when that end is finite. */
  readonly startD: number;
  readonly startH: number;
  readonly endD: number;
  readonly endH: number;
}

/**
 * Builds a profile. `twoSided` is for a single surface: the straight line and the arc then reach below the origin too.
 * Throws RangeError, naming `field`, where the arcs cannot be drawn.
 */
export function buildProfile(spec: ProfileSpec, twoSided: boolean, field = 'profile'): LabialProfile {
  if (spec.kind === 'straight') return withNumbers(straightProfile(toRadians(spec.inclinationDeg ?? 0), twoSided));
  if (spec.kind === 'arc') return withNumbers(arcProfile(spec.radiusMm, twoSided, field));
  return withNumbers(crownAndGum(spec, field));
}

/** Offset d, slope angle β (radians) and curvature (1/mm, convex +) of the profile at height h. */
export function profileAt(
  profile: LabialProfile,
  heightMm: number,
): { readonly offsetMm: number; readonly slope: number; readonly curvature: number } {
  const h = Math.min(Math.max(heightMm, profile.lowMm), profile.highMm);
  const crownTop = profile.crownH + profile.crownRadius * profile.crownToSin;
  if (profile.crownRadius > 0 && h <= crownTop) {
    const slope = Math.asin(clampUnit((h - profile.crownH) / profile.crownRadius));
    return {
      offsetMm: profile.crownD + profile.crownRadius * Math.cos(slope),
      slope,
      curvature: 1 / profile.crownRadius,
    };
  }
  const gumTop = profile.gumH - profile.gumRadius * profile.gumToSin;
  if (profile.gumRadius > 0 && h < gumTop) {
    const slope = Math.asin(clampUnit((profile.gumH - h) / profile.gumRadius));
    return { offsetMm: profile.gumD - profile.gumRadius * Math.cos(slope), slope, curvature: -1 / profile.gumRadius };
  }
  return {
    offsetMm: profile.lineD - ((h - profile.lineH) * profile.lineSin) / profile.lineCos,
    slope: Math.atan2(profile.lineSin, profile.lineCos),
    curvature: 0,
  };
}

/**
 * Closest point of a point on the profile, signed + outside; the point (d, h) stands in `section` (why an array: curveFoot.ts,
 * `footAt`). Writes PROFILE_OUT numbers. Beyond the edge or the gum's end the gap is the positive distance to that end. Where the
 * concave gum lets two parts compete, the nearer one is taken.
 */
export function footOnProfile(profile: LabialProfile, section: Float64Array, out: Float64Array): void {
  const n = profile.numbers;
  const d = section[0]!;
  const h = section[1]!;
  let nearest = Infinity;
  let gap = 0;
  let nd = 1;
  let nh = 0;
  let bend = 0;
  let footH = 0;
  let footD = 0;
  if (n[CROWN_RADIUS]! > 0) {
    const wd = d - n[CROWN_D]!;
    const wh = h - n[CROWN_H]!;
    if (
      n[CROWN_FROM_COS]! * wh - n[CROWN_FROM_SIN]! * wd >= -JOIN_SLACK_MM &&
      wd * n[CROWN_TO_SIN]! - wh * n[CROWN_TO_COS]! >= -JOIN_SLACK_MM
    ) {
      const reach = Math.sqrt(wd * wd + wh * wh);
      if (reach > 0) {
        bend = 1 / reach;
        gap = reach - n[CROWN_RADIUS]!;
        nearest = Math.abs(gap);
        nd = wd * bend;
        nh = wh * bend;
        footH = n[CROWN_H]! + n[CROWN_RADIUS]! * nh;
        footD = n[CROWN_D]! + n[CROWN_RADIUS]! * nd;
      }
    }
  }
  if (n[GUM_RADIUS]! > 0) {
    const wd = n[GUM_D]! - d;
    const wh = n[GUM_H]! - h;
    if (
      n[GUM_TO_COS]! * wh - n[GUM_TO_SIN]! * wd >= -JOIN_SLACK_MM &&
      wd * n[CROWN_TO_SIN]! - wh * n[CROWN_TO_COS]! >= -JOIN_SLACK_MM
    ) {
      const reach = Math.sqrt(wd * wd + wh * wh);
      const away = n[GUM_RADIUS]! - reach;
      if (reach > 0 && Math.abs(away) < nearest) {
        const inverse = 1 / reach;
        gap = away;
        nearest = Math.abs(away);
        bend = -inverse;
        nd = wd * inverse;
        nh = wh * inverse;
        footH = n[GUM_H]! - n[GUM_RADIUS]! * nh;
        footD = n[GUM_D]! - n[GUM_RADIUS]! * nd;
      }
    }
  }
  if (n[LINE_LENGTH]! > 0) {
    const wd = d - n[LINE_D]!;
    const wh = h - n[LINE_H]!;
    const along = wh * n[LINE_COS]! - wd * n[LINE_SIN]!;
    if ((along >= -JOIN_SLACK_MM || profile.lineTwoSided) && along <= n[LINE_LENGTH]!) {
      const away = wd * n[LINE_COS]! + wh * n[LINE_SIN]!;
      if (Math.abs(away) < nearest) {
        gap = away;
        nearest = Math.abs(away);
        bend = 0;
        nd = n[LINE_COS]!;
        nh = n[LINE_SIN]!;
        footH = n[LINE_H]! + along * nd;
        footD = n[LINE_D]! - along * nh;
      }
    }
  }
  if (nearest === Infinity) {
    footAtEnd(profile, section, out);
    return;
  }
  out[0] = gap;
  out[1] = nd;
  out[2] = nh;
  out[3] = bend;
  out[4] = footH;
  out[5] = footD;
  out[6] = REGION_FACE;
}

function footAtEnd(profile: LabialProfile, section: Float64Array, out: Float64Array): void {
  const n = profile.numbers;
  const startD = section[0]! - n[START_D]!;
  const startH = section[1]! - n[START_H]!;
  const endD = section[0]! - n[END_D]!;
  const endH = section[1]! - n[END_H]!;
  const toStart = n[LOW_MM]! === -Infinity ? Infinity : startD * startD + startH * startH;
  const toEnd = n[HIGH_MM]! === Infinity ? Infinity : endD * endD + endH * endH;
  const atStart = toStart <= toEnd;
  const gap = Math.sqrt(atStart ? toStart : toEnd);
  const inverse = gap > 0 ? 1 / gap : 0;
  out[0] = gap;
  // On the very end point any direction is a normal; outward along d is the one a rim meets.
  out[1] = gap > 0 ? (atStart ? startD : endD) * inverse : 1;
  out[2] = (atStart ? startH : endH) * inverse;
  out[3] = inverse;
  out[4] = atStart ? n[START_H]! : n[END_H]!;
  out[5] = atStart ? n[START_D]! : n[END_D]!;
  out[6] = atStart ? REGION_EDGE : REGION_END;
}

type ProfileParts = Omit<LabialProfile, 'numbers'>;

function withNumbers(parts: ProfileParts): LabialProfile {
  return {
    ...parts,
    numbers: Float64Array.of(
      parts.crownD, parts.crownH, parts.crownRadius, parts.crownFromCos,
      parts.crownFromSin, parts.crownToCos, parts.crownToSin, parts.gumD,
      parts.gumH, parts.gumRadius, parts.gumToCos, parts.gumToSin,
      parts.lineD, parts.lineH, parts.lineCos, parts.lineSin,
      parts.lineLength,
      parts.startD, parts.startH, parts.endD, parts.endH, parts.lowMm, parts.highMm,
    ),
  };
}

const NONE = {
  crownD: 0, crownH: 0, crownRadius: 0, crownFromCos: 1, crownFromSin: 0, crownToCos: 1, crownToSin: 0,
  gumD: 0, gumH: 0, gumRadius: 0, gumToCos: 1, gumToSin: 0,
  lineD: 0, lineH: 0, lineCos: 1, lineSin: 0, lineLength: 0, lineTwoSided: false,
  startD: 0, startH: 0, endD: 0, endH: 0,
} as const;

function straightProfile(slope: number, twoSided: boolean): ProfileParts {
  return {
    ...NONE,
    lowMm: twoSided ? -Infinity : 0,
    highMm: Infinity,
    lineCos: Math.cos(slope),
    lineSin: Math.sin(slope),
    lineLength: Infinity,
    lineTwoSided: twoSided,
  };
}

function arcProfile(radius: number, twoSided: boolean, field: string): ProfileParts {
  if (!(radius > 0 && Number.isFinite(radius))) throw tooTight(`${field}.radiusMm`, saidNumber(radius), sayCore('length'));
  return {
    ...NONE,
    lowMm: twoSided ? -radius : 0,
    highMm: radius,
    crownD: -radius,
    crownRadius: radius,
    crownFromCos: twoSided ? 0 : 1,
    crownFromSin: twoSided ? -1 : 0,
    crownToCos: 0,
    crownToSin: 1,
    startD: twoSided ? -radius : 0,
    startH: twoSided ? -radius : 0,
    endD: -radius,
    endH: radius,
  };
}

function crownAndGum(spec: Extract<ProfileSpec, { kind: 'arcs' }>, field: string): ProfileParts {
  const { crownHeightMm: height, crownRadiusMm: radius, gumRadiusMm } = spec;
  const middle = Math.sin(toRadians(spec.inclinationDeg));
  const sinFrom = middle - height / (2 * radius);
  const sinTo = middle + height / (2 * radius);
  if (!(Math.abs(sinFrom) < 1 && Math.abs(sinTo) < 1)) {
    throw tooTight(
      `${field}.crownRadiusMm`,
      saidNumber(radius),
      sayCore('crownRadius', { height, inclination: spec.inclinationDeg, least: fixed(height / 2 / (1 - Math.abs(middle)), 2) }),
    );
  }
  const cosFrom = Math.sqrt(1 - sinFrom * sinFrom);
  const cosTo = Math.sqrt(1 - sinTo * sinTo);
  const crownD = -radius * cosFrom;
  const crownH = height / 2 - radius * middle;
  const neckD = crownD + radius * cosTo;
  const neckH = crownH + radius * sinTo;
  const gumSlope = toRadians(spec.gumInclinationDeg);
  const sinGum = Math.sin(gumSlope);
  if (!(sinGum <= sinTo)) {
    throw tooTight(
      `${field}.gumInclinationDeg`,
      saidNumber(spec.gumInclinationDeg),
      sayCore('gumSlope', { most: fixed((Math.asin(sinTo) * 180) / Math.PI, 2) }),
    );
  }
  const gumD = neckD + gumRadiusMm * cosTo;
  const gumH = neckH + gumRadiusMm * sinTo;
  // A gum arc that would run past the gum's end stops there, and the straight part has no length.
  const sinEnd = Math.max(sinGum, (gumH - GUM_END_MM) / gumRadiusMm);
  const cosEnd = Math.sqrt(1 - sinEnd * sinEnd);
  const lineD = gumD - gumRadiusMm * cosEnd;
  const lineH = gumH - gumRadiusMm * sinEnd;
  const lineLength = sinEnd > sinGum ? 0 : Math.max(0, (GUM_END_MM - lineH) / cosEnd);
  return {
    ...NONE,
    lowMm: 0,
    highMm: GUM_END_MM,
    crownD, crownH, crownRadius: radius,
    crownFromCos: cosFrom, crownFromSin: sinFrom, crownToCos: cosTo, crownToSin: sinTo,
    gumD, gumH, gumRadius: gumRadiusMm, gumToCos: cosEnd, gumToSin: sinEnd,
    lineD, lineH, lineCos: cosEnd, lineSin: sinEnd, lineLength,
    endD: lineD - lineLength * sinEnd,
    endH: lineH + lineLength * cosEnd,
  };
}

const clampUnit = (value: number): number => Math.min(1, Math.max(-1, value));
