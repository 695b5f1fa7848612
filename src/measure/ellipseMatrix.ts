/**
 * An ellipse as centre and a 2 × 2 matrix that takes the unit circle to it: what follows a rim moves it by shifts and linear maps, and
 * those multiply. Any turn of the circle gives the same ellipse.
 */
import type { RimEllipse } from './traces';

/** (u, v) of the unit circle lies at (x + xu·u + xv·v, y + yu·u + yv·v), px. */
export interface EllipseMatrix {
  readonly x: number;
  readonly y: number;
  readonly xu: number;
  readonly xv: number;
  readonly yu: number;
  readonly yv: number;
}

/** The circle's first axis goes to the major axis. */
export function matrixOf({ centre, semiMajorPx, semiMinorPx, angleRad }: RimEllipse): EllipseMatrix {
  const cosine = Math.cos(angleRad);
  const sine = Math.sin(angleRad);
  return { x: centre.x, y: centre.y, xu: semiMajorPx * cosine, xv: -semiMinorPx * sine, yu: semiMajorPx * sine, yv: semiMinorPx * cosine };
}

/** The angle of a circle is 0. */
export function ellipseOfMatrix({ x, y, xu, xv, yu, yv }: EllipseMatrix): RimEllipse {
  // The matrix times its transpose has the squares of the semi-axes as its own values.
  const xx = xu * xu + xv * xv;
  const xy = xu * yu + xv * yv;
  const yy = yu * yu + yv * yv;
  const half = Math.hypot((xx - yy) / 2, xy);
  const major = Math.sqrt((xx + yy) / 2 + half);
  const angle = half > 0 ? 0.5 * Math.atan2(2 * xy, xx - yy) : 0;
  return {
    centre: { x, y },
    semiMajorPx: major,
    semiMinorPx: Math.abs(xu * yv - xv * yu) / major,
    angleRad: angle <= -Math.PI / 2 ? Math.PI / 2 : angle,
  };
}

/** The ellipse after the linear map ((a, c), (b, d)) about its centre and a shift of the centre to (x, y): what lay at (u, v) from the centre lies at (a·u + c·v, b·u + d·v). */
export function mapped(ellipse: EllipseMatrix, x: number, y: number, a: number, b: number, c: number, d: number): EllipseMatrix {
  return {
    x,
    y,
    xu: a * ellipse.xu + c * ellipse.yu,
    xv: a * ellipse.xv + c * ellipse.yv,
    yu: b * ellipse.xu + d * ellipse.yu,
    yv: b * ellipse.xv + d * ellipse.yv,
  };
}

/**
 * How far inside the ellipse a place lies, px, along the normal, to first order near the edge: negative outside. `part` asks the same of the ellipse
 * with its axes times that.
 */
export function insidePx(ellipse: EllipseMatrix, x: number, y: number, part = 1): number {
  const determinant = ellipse.xu * ellipse.yv - ellipse.xv * ellipse.yu;
  const dx = x - ellipse.x;
  const dy = y - ellipse.y;
  const u = (ellipse.yv * dx - ellipse.xv * dy) / determinant;
  const v = (ellipse.xu * dy - ellipse.yu * dx) / determinant;
  const size = Math.hypot(u, v);
  if (size === 0) return Math.abs(determinant) * part / Math.hypot(ellipse.xu, ellipse.xv, ellipse.yu, ellipse.yv);
  const slopeX = (ellipse.yv * u - ellipse.yu * v) / (size * determinant);
  const slopeY = (ellipse.xu * v - ellipse.xv * u) / (size * determinant);
  return (part - size) / Math.hypot(slopeX, slopeY);
}
