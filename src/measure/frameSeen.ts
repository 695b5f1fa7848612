/** What a frame of a front film shows, as the equations of head and rim take it. docs/numerics.md §17. */
import { type Vec3, normalize } from '../core/vector';
import { circleForm, middleOf } from './camera';
import type { FrameSeen } from './frameEquations';
import type { FrontAxis } from './hornFromFront';
import { type HeadSpots, markOf } from './markedAgain';
import type { CameraSpec, LandmarkName } from './marks';
import { anyWaySdPx } from './slidingPoint';
import type { FilmTrace } from './traces';

/** What the pictures of a frame are read by. */
export interface Seeing {
  readonly names: readonly LandmarkName[];
  readonly spots: HeadSpots;
  readonly optics: Optics;
  readonly axes: (index: number) => FrontAxis | null;
  readonly handMm: number;
  readonly noiseTimes: number;
  readonly rimTimes: number;
}

export interface Optics {
  readonly camera: CameraSpec;
  readonly radiusMm: number;
}

/** Where no line tells the axis, the rim's ellipse is taken to face the camera to within this, radians: a judgement. */
const UNKNOWN_AXIS_SD = 0.2;

/**
 * What a frame shows, with the rim's ellipse brought to what the equations expect: the centre of an ellipse is not where the circle's
 * centre is seen, nor its larger semi-axis exactly focal length × radius / depth; both are put right by the axis found.
 */
export function frameSeen(trace: FilmTrace, index: number, { names, spots, optics, axes, handMm, noiseTimes, rimTimes }: Seeing): FrameSeen {
  const frame = trace.frames[index]!;
  const axis = axes(index);
  const { camera, radiusMm } = optics;
  const middle = middleOf(camera);
  const rim = frame.rim!;
  const f = camera.focalPx;
  const depth = (f * radiusMm) / rim.semiMajorPx;
  const centre: Vec3 = axis?.centre ?? [((rim.centre.x - middle.x) * depth) / f, ((rim.centre.y - middle.y) * depth) / f, depth];
  const normal = axis?.axis ?? normalize([-centre[0], -centre[1], -centre[2]]);
  const form = circleForm(camera, centre, normal, radiusMm);
  const mean = form ? (form.xx + form.yy) / 2 : 0;
  const major = form ? Math.sqrt(mean + Math.hypot((form.xx - form.yy) / 2, form.xy)) : rim.semiMajorPx;
  const axisSd = axis ? Math.sqrt(axis.noise[0] + axis.noise[2]) : UNKNOWN_AXIS_SD;
  // By how much the ellipse's centre moves with the axis, px a radian, to first order.
  const centreByAxis = (f * radiusMm * radiusMm) / (centre[2] * centre[2]);
  return {
    timeS: frame.timeS,
    marks: names.flatMap((name) => {
      const point = frame.points[name];
      if (!point) return [];
      const { spot, isOwn } = spots.spotAt(name, frame.timeS);
      const ofHandPx = isOwn ? 0 : (Math.SQRT2 * handMm * rim.semiMajorPx) / radiusMm;
      return [{ landmark: spot, x: point.x - middle.x, y: point.y - middle.y, sdPx: Math.hypot(anyWaySdPx(point) * noiseTimes, ofHandPx) }];
    }),
    rim: {
      x: rim.centre.x - middle.x - (form ? form.centre.x - middle.x - (f * centre[0]) / centre[2] : 0),
      y: rim.centre.y - middle.y - (form ? form.centre.y - middle.y - (f * centre[1]) / centre[2] : 0),
      sdPx: Math.hypot(rim.centreSdPx, centreByAxis * axisSd),
      radiusPx: (rim.semiMajorPx * ((f * radiusMm) / centre[2])) / major,
      radiusSdPx: rim.axesSdPx * rimTimes,
      radius: markOf(trace, 'rim', frame.timeS),
    },
  };
}
