/**
 * A rim seen nearly from its edge (from the side, from above): too thin for its own edge and metal, it rides on the two marks of the
 * horn, which is one stiff piece with it.
 */
import { ellipseOfMatrix, type EllipseMatrix, mapped, matrixOf } from './ellipseMatrix';
import type { LineMark } from './marks';
import type { RimEllipse, TracedPoint, TracedRim } from './traces';

export interface RidingRim {
  readonly ellipse: EllipseMatrix;
  readonly horn: LineMark;
}

export function rideOn(ellipse: RimEllipse, horn: LineMark): RidingRim {
  return { ellipse: matrixOf(ellipse), horn };
}

/** null where one of the horn's marks is lost. */
export function riddenTo({ ellipse, horn }: RidingRim, near: TracedPoint | undefined, far: TracedPoint | undefined): TracedRim | null {
  if (!near || !far) return null;
  const markedX = horn.to.x - horn.from.x;
  const markedY = horn.to.y - horn.from.y;
  const size = markedX ** 2 + markedY ** 2;
  if (size === 0) return null;
  const nowX = far.x - near.x;
  const nowY = far.y - near.y;
  const a = (nowX * markedX + nowY * markedY) / size;
  const b = (nowY * markedX - nowX * markedY) / size;
  const u = ellipse.x - horn.from.x;
  const v = ellipse.y - horn.from.y;
  // Beyond the near mark by this part of their distance: so much of the far mark's error is added, the other way.
  const beyond = Math.hypot(u, v) / Math.sqrt(size);
  const nearSdPx = near.slides?.sdPx ?? near.sdPx;
  const farSdPx = far.slides?.sdPx ?? far.sdPx;
  return {
    ...ellipseOfMatrix(mapped(ellipse, near.x + a * u - b * v, near.y + b * u + a * v, a, b, -b, a)),
    centreSdPx: Math.hypot((1 + beyond) * nearSdPx, beyond * farSdPx),
    axesSdPx: (Math.hypot(nearSdPx, farSdPx) / Math.sqrt(size)) * Math.hypot(ellipse.xu, ellipse.yu),
  };
}
