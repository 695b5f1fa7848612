/**
 * What the figure from above shows, in mm of the mouth: the player's own right to the right, forward up. The arches are drawn along
 * their edges as at home; rims are cut level through their centres, each horn at its lateral angle.
 */
import type { Analysis } from '../core/analysis';
import { buildArch } from '../core/arch';
import type { JawSurface } from '../core/surface';
import { type HornShape, type Point, hornShape } from './hornShape';
import { homeJaw, sheetNotes } from './sheetNotes';
import { type MovedHorn, measuredChange } from './sideGeometry';

export interface ArchLine {
  readonly jaw: JawSurface['jaw'];
  /** On the surface at the edge's height, from the player's right to the left. */
  readonly edge: readonly Point[];
}

export interface AboveGeometry {
  readonly arches: readonly ArchLine[];
  /** Outside of the upper lip at rest, as far as its corners. */
  readonly lip: readonly Point[];
  readonly home: HornShape;
  /** The note furthest to a side, with its swing; angles in degrees from straight ahead, right positive. None: empty. */
  readonly moved: readonly MovedHorn[];
}

/** How far back the arch is drawn from its front, and how far along it the lips, mm. */
const BACK_MM = 20;
const LIP_ARC_MM = 24;
const STEPS = 80;

export function aboveGeometry(analysis: Analysis): AboveGeometry {
  const { record, home } = analysis;
  const arch = buildArch(record.arch, homeJaw(analysis) ?? undefined);
  const pose = home.follow.pose;
  const { sideways } = sheetNotes(analysis);
  const moved = (): readonly MovedHorn[] => {
    if (sideways === null) return [];
    const { rimCentreMm, lateralDeg } = sideways.follow.pose;
    const centre: Point = [rightOf(rimCentreMm[0]), rimCentreMm[2]];
    const measured = measuredChange(analysis, sideways, 'lateralDeg');
    return [{
      role: 'sideways',
      reading: sideways,
      horn: hornShape(record.rim, centre, paperAngle(lateralDeg)),
      swing: {
        centreMm: centre,
        fromDeg: pose.lateralDeg,
        toDeg: pose.lateralDeg + sideways.changeFromHome.lateralDeg,
        measuredDeg: measured === null ? null : pose.lateralDeg + measured,
      },
    }];
  };
  return {
    arches: [edgeOf(arch.upper), ...(arch.lower === null ? [] : [edgeOf(arch.lower)])],
    lip: lipOf(arch.upper, record.lips.upper.thicknessMm),
    home: hornShape(record.rim, [rightOf(pose.rimCentreMm[0]), pose.rimCentreMm[2]], paperAngle(pose.lateralDeg)),
    moved: moved(),
  };
}

/** From a lateral angle (right positive, degrees) to the axis's angle on the paper: radians from the paper's right. */
export const paperAngle = (lateralDeg: number): number => ((90 - lateralDeg) * Math.PI) / 180;

const rightOf = (x: number): number => (x === 0 ? 0 : -x);

function edgeOf(surface: JawSurface): ArchLine {
  const [from, to] = surface.arcRange;
  const reach = Math.min(-from, to, 60);
  const front = surface.pointAt(0, 0)[2];
  const points = Array.from({ length: STEPS + 1 }, (_, step) => surface.pointAt(-reach + (2 * reach * step) / STEPS, 0));
  return { jaw: surface.jaw, edge: points.filter(([, , z]) => z > front - BACK_MM).map(([x, , z]): Point => [rightOf(x), z]) };
}

function lipOf(surface: JawSurface, thicknessMm: number): readonly Point[] {
  const reach = Math.min(-surface.arcRange[0], surface.arcRange[1], LIP_ARC_MM);
  return Array.from({ length: STEPS / 2 + 1 }, (_, step): Point => {
    const arc = -reach + (4 * reach * step) / STEPS;
    const [x, , z] = surface.pointAt(arc, 0);
    const [nx, , nz] = surface.normalAt(arc, 0);
    const level = Math.hypot(nx, nz) || 1;
    return [rightOf(x + (nx / level) * thicknessMm), z + (nz / level) * thicknessMm];
  });
}
