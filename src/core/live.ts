/** The moving picture: a frame at any pitch of the path or at any dragged place, each seat started from the one before. */
import type { Analysis, HornAngles, LiveFrame, PathBranch, RimPose, Seated, ViewName } from './analysis';
import { workingsOf } from './analyse';
import { anglesFromAxis } from './frame';
import { type ShapeCurve, shapePreserving } from './path';
import { type SeatRequest, isSeated } from './session';
import type { JawSpec, PlayingDirection } from './specs';
import type { Vec3 } from './vector';

export interface LiveOptions {
  readonly horn: 'follow' | 'held';
  readonly view: ViewName;
  readonly direction?: PlayingDirection | null;
}

export interface Travel {
  readonly upMm: number;
  readonly rightMm: number;
}

export interface Live {
  /** MIDI numbers of the lowest and highest reading of all branches; null without readings. */
  readonly range: { readonly low: number; readonly high: number } | null;
  /** Travel at a pitch; outside the readings the end's travel, marked extrapolated in the frame. */
  travelAt(midi: number, direction?: PlayingDirection | null): Travel | null;
  /** A frame, or null where the rim finds no seat: keep the last picture. */
  atPitch(midi: number, options: LiveOptions): LiveFrame | null;
  atTravel(travel: Travel, options: LiveOptions): LiveFrame | null;
}

interface BranchCurves {
  readonly low: number;
  readonly high: number;
  readonly up: ShapeCurve;
  readonly right: ShapeCurve;
  readonly force: ShapeCurve;
  readonly opening: ShapeCurve;
  readonly forward: ShapeCurve;
  readonly hinge: ShapeCurve;
  readonly jawMoves: boolean;
}

/** `apart` keeps its seats apart from those of other pictures: it neither finds them warm nor leaves them cold. */
export function createLive(analysis: Analysis, apart = false): Live {
  const { session: shared, aside, views } = workingsOf(analysis);
  const session = apart ? aside() : shared;
  const { home } = analysis;
  // Made when first asked for: a drag makes a new `Live` at every step and looks at the path in none of them.
  let made: ReadonlyMap<PlayingDirection | null, BranchCurves | null> | null = null;
  const branches = (): ReadonlyMap<PlayingDirection | null, BranchCurves | null> =>
    (made ??= new Map(analysis.branches.map((branch) => [branch.direction, curvesOf(analysis, branch)])));
  const midis = analysis.readings.map((reading) => reading.midi);
  let nearFollow: RimPose = home.follow.pose;
  let nearHeld: RimPose = home.follow.pose;

  const branchFor = (direction: PlayingDirection | null | undefined): BranchCurves | null =>
    branches().get(direction ?? null) ?? [...branches().values()].find((branch) => branch !== null) ?? null;

  function frame(
    travel: Travel,
    forceN: number,
    jaw: JawSpec | null,
    midi: number | null,
    outside: boolean,
    options: LiveOptions,
  ): LiveFrame | null {
    const request: SeatRequest = { upMm: home.upMm + travel.upMm, rightMm: home.rightMm + travel.rightMm, forceN, jaw };
    const follow = session.follow(request, nearFollow, 'glance');
    if (!isSeated(follow)) return null;
    const held = session.held(request, home.follow.pose, nearHeld, 'glance');
    if (!isSeated(held)) return null;
    nearFollow = follow.pose;
    nearHeld = held.pose;
    const direction = midi === null ? null : (options.direction ?? null);
    return { midi, direction, travel, jaw, shown: shownPose(follow, held, options), follow, held, extrapolated: outside };
  }

  function shownPose(follow: Seated, held: Seated, options: LiveOptions): RimPose {
    if (options.horn === 'held') return held.pose;
    const centre = follow.pose.rimCentreMm;
    if (options.view === 'plate') return withAngles(centre, home.follow.pose.axis, home.follow.pose);
    if (options.view === 'sphere') return withAxis(centre, views.sphereAxis(centre));
    if (options.view === 'normal') return withAxis(centre, views.normalAxis(centre));
    return follow.pose;
  }

  return {
    range: midis.length > 0 ? { low: Math.min(...midis), high: Math.max(...midis) } : null,
    travelAt(midi, direction) {
      const branch = branchFor(direction);
      return branch && { upMm: branch.up.at(midi), rightMm: branch.right.at(midi) };
    },
    atPitch(midi, options) {
      const branch = branchFor(options.direction);
      if (!branch) return frame({ upMm: 0, rightMm: 0 }, analysis.record.force.newtons, null, midi, true, options);
      const jaw = branch.jawMoves && session.jaw ? interpolatedJaw(branch, session.jaw, midi) : null;
      const travel = { upMm: branch.up.at(midi), rightMm: branch.right.at(midi) };
      return frame(travel, branch.force.at(midi), jaw, midi, midi < branch.low || midi > branch.high, options);
    },
    atTravel: (travel, options) => frame(travel, analysis.record.force.newtons, null, null, false, options),
  };
}

/** Frames along a branch, evenly spaced in pitch from its lowest to its highest reading: the ribbon and the fan. */
export function samplePath(analysis: Analysis, live: Live, steps: number, options: LiveOptions): LiveFrame[] {
  if (!live.range || analysis.readings.length === 0) return [];
  const { low, high } = live.range;
  const count = high > low ? steps : 1;
  return Array.from({ length: count }, (_, step) => (count === 1 ? low : low + ((high - low) * step) / (count - 1))).flatMap(
    (midi) => live.atPitch(midi, options) ?? [],
  );
}

function curvesOf(analysis: Analysis, branch: PathBranch): BranchCurves | null {
  const readings = branch.order.map((index) => analysis.readings[index]!);
  if (readings.length === 0) return null;
  const knots = readings.map((reading) => reading.midi);
  const own = 'single' in analysis.record.arch ? null : analysis.record.arch.jaw;
  const curve = (value: (index: number) => number): ShapeCurve => shapePreserving(knots, readings.map((_, index) => value(index)));
  const jawOf = (index: number, field: 'openingMm' | 'forwardMm' | 'hingeDeg'): number =>
    readings[index]!.jaw?.[field] ?? own?.[field] ?? 0;
  return {
    low: knots[0]!,
    high: knots[knots.length - 1]!,
    up: curve((index) => readings[index]!.travel.upMm),
    right: curve((index) => readings[index]!.travel.rightMm),
    force: curve((index) => readings[index]!.forceN),
    opening: curve((index) => jawOf(index, 'openingMm')),
    forward: curve((index) => jawOf(index, 'forwardMm')),
    hinge: curve((index) => jawOf(index, 'hingeDeg')),
    jawMoves: readings.some((reading) => reading.jaw !== null),
  };
}

function interpolatedJaw(branch: BranchCurves, own: JawSpec, midi: number): JawSpec {
  return {
    ...own,
    openingMm: branch.opening.at(midi),
    forwardMm: branch.forward.at(midi),
    hingeDeg: branch.hinge.at(midi),
  };
}

const withAxis = (centre: Vec3, axis: Vec3): RimPose => withAngles(centre, axis, anglesFromAxis(axis));
const withAngles = (rimCentreMm: Vec3, axis: Vec3, angles: HornAngles): RimPose => ({
  rimCentreMm,
  axis,
  elevationDeg: angles.elevationDeg,
  lateralDeg: angles.lateralDeg,
});
