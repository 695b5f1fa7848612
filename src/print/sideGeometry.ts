/**
 * What the figure from the side shows, in mm of the mouth: forward to the right, up up. The mouth is cut at the midline and stands as
 * at home; rims stand where they were computed, each horn at its elevation, as if turned into the picture's plane.
 */
import type { Analysis, ReadingAnalysis } from '../core/analysis';
import { type Arch, buildArch } from '../core/arch';
import { toRadians } from '../core/frame';
import { lipSection } from '../core/lipSection';
import { isAngleSeen } from '../core/readings';
import type { ProfileSpec } from '../core/specs';
import type { JawSurface } from '../core/surface';
import { type HornShape, type Point, hornShape } from './hornShape';
import { homeJaw, sheetNotes } from './sheetNotes';

/** One jaw's labial line on the cut, and what is hinted behind it. */
export interface SideFace {
  readonly jaw: JawSurface['jaw'];
  /** On the surface, from the edge to the neck; over the whole height where the profile names no crown. */
  readonly crown: readonly Point[];
  /** On the surface, from the neck toward the fold. */
  readonly gum: readonly Point[];
  /** The tooth's inner side, from neck to edge: a hint, no measure. */
  readonly inside: readonly Point[];
}

/** A swing about a rim's centre; angles in degrees from level, up positive. */
export interface Swing {
  readonly centreMm: Point;
  readonly fromDeg: number;
  readonly toDeg: number;
  /** The same as measured; null where it was not. */
  readonly measuredDeg: number | null;
}

export interface MovedHorn {
  readonly role: 'highest' | 'lowest' | 'sideways';
  readonly reading: ReadingAnalysis;
  readonly horn: HornShape;
  readonly swing: Swing;
}

export interface SideGeometry {
  readonly faces: readonly SideFace[];
  readonly lips: readonly (readonly Point[])[];
  readonly home: HornShape;
  readonly moved: readonly MovedHorn[];
}

export function sideGeometry(analysis: Analysis): SideGeometry {
  const { record, home } = analysis;
  const arch = buildArch(record.arch, homeJaw(analysis) ?? undefined);
  const pose = home.follow.pose;
  const { highest, lowest } = sheetNotes(analysis);
  const lips = lipSection(arch, record.lips, record.rim, pose, home.lipLineMm, record.rim.outerDiameterMm / 2 + LIPS_BEYOND_MM);
  const moved = (role: 'highest' | 'lowest', reading: ReadingAnalysis | null): MovedHorn[] => {
    if (reading === null) return [];
    const { rimCentreMm, elevationDeg } = reading.follow.pose;
    const centre: Point = [rimCentreMm[2], rimCentreMm[1]];
    const measured = measuredChange(analysis, reading, 'elevationDeg');
    return [{
      role,
      reading,
      horn: hornShape(record.rim, centre, toRadians(elevationDeg)),
      swing: {
        centreMm: centre,
        fromDeg: pose.elevationDeg,
        toDeg: pose.elevationDeg + reading.changeFromHome.elevationDeg,
        measuredDeg: measured === null ? null : pose.elevationDeg + measured,
      },
    }];
  };
  return {
    faces: facesOf(arch),
    lips: [lips.upper, lips.lower].map((outline) => outline.map(([y, z]): Point => [z, y])),
    home: hornShape(record.rim, [pose.rimCentreMm[2], pose.rimCentreMm[1]], toRadians(pose.elevationDeg)),
    moved: [...moved('highest', highest), ...moved('lowest', lowest)],
  };
}

/** The measured change from home; null where the note's or home's angle was not measured. */
export function measuredChange(analysis: Analysis, reading: ReadingAnalysis, angle: 'elevationDeg' | 'lateralDeg'): number | null {
  const home = analysis.home.measured;
  const sd = angle === 'elevationDeg' ? 'sdDeg' : 'lateralSdDeg';
  const seen = reading.measured !== null && home !== null && isAngleSeen(reading.measured[sd]) && isAngleSeen(home[sd]);
  return seen ? reading.measured[angle] - home[angle] : null;
}

/** The lips are drawn this much further from the lip line than half the rim. */
const LIPS_BEYOND_MM = 6;
const GUM_SHOWN_MM = 8;
const LINE_STEPS = 24;
/** A profile without a crown is drawn this far from the edge. */
const PLAIN_REACH_MM = 18;
/** How thick a front tooth is drawn at its edge and at its neck: a hint. */
const EDGE_THICK_MM = 1.4;
const NECK_THICK_MM = 6.8;

function facesOf(arch: Arch): readonly SideFace[] {
  const { spec } = arch;
  if ('single' in spec) return [faceOf(arch.upper, spec.single.profile)];
  return [faceOf(arch.upper, spec.upper.profile), ...(arch.lower === null ? [] : [faceOf(arch.lower, spec.lower.profile)])];
}

function faceOf(surface: JawSurface, profile: ProfileSpec): SideFace {
  const [low, high] = surface.heightRange;
  const at = (heightMm: number): Point => {
    const [, y, z] = surface.pointAt(0, heightMm);
    return [z, y];
  };
  const line = (from: number, to: number): Point[] =>
    Array.from({ length: LINE_STEPS + 1 }, (_, step) => at(from + ((to - from) * step) / LINE_STEPS));
  if (surface.jaw === 'single' || profile.kind !== 'arcs') {
    const reach = Math.min(high, PLAIN_REACH_MM);
    const crown = line(surface.jaw === 'single' ? Math.max(low, -PLAIN_REACH_MM) : Math.max(low, 0), reach);
    return { jaw: surface.jaw, crown, gum: [], inside: [] };
  }
  const neck = Math.min(high, profile.crownHeightMm);
  const crown = line(0, neck);
  const inside = crown
    .map(([z, y], step): Point => [z - (EDGE_THICK_MM + (NECK_THICK_MM - EDGE_THICK_MM) * (step / LINE_STEPS) ** 0.7), y])
    .reverse();
  return { jaw: surface.jaw, crown, gum: line(neck, Math.min(high, neck + GUM_SHOWN_MM)), inside };
}
