/** A circle in space as the ellipse it is seen as: what tests give to the code that goes the other way. */
import type { Vec3 } from '../../src/core/vector';
import { circleForm } from '../../src/measure/camera';
import type { CameraSpec } from '../../src/measure/marks';
import type { RimEllipse } from '../../src/measure/traces';

/** Arguments as `circleForm`. */
export function projectCircle(camera: CameraSpec, centre: Vec3, normal: Vec3, radiusMm: number): RimEllipse | null {
  const form = circleForm(camera, centre, normal, radiusMm);
  if (!form) return null;
  const mean = (form.xx + form.yy) / 2;
  const apart = Math.hypot((form.xx - form.yy) / 2, form.xy);
  const angle = Math.atan2(2 * form.xy, form.xx - form.yy) / 2;
  return {
    centre: form.centre,
    semiMajorPx: Math.sqrt(mean + apart),
    // Edge on, the smaller one is 0 to rounding, of either sign.
    semiMinorPx: Math.sqrt(Math.max(0, mean - apart)),
    angleRad: angle <= -Math.PI / 2 ? angle + Math.PI : angle,
  };
}
