/** A rim marked by hand drawn to its edge all round: where six points alone still err by 0.25 px on a faint rim, 72 places of its edge err by 0.06 (docs/numerics.md §18). */
import { refineRim } from './edgeSnap';
import { eccentricFoot } from './ellipseForm';
import type { GreyPicture, Point } from './picture';

/** Each point on the edge's ellipse next to where it was put; null where there are too few for an ellipse, or the picture shows no edge along it. */
export function rimDrawn(picture: GreyPicture, points: readonly Point[]): Point[] | null {
  const rim = refineRim(picture, points);
  if (rim.kind === 'refused') return null;
  const { centre, semiMajorPx, semiMinorPx, angleRad } = rim.ellipse;
  const [cosine, sine] = [Math.cos(angleRad), Math.sin(angleRad)];
  return points.map(({ x, y }) => {
    const [dx, dy] = [x - centre.x, y - centre.y];
    const foot = eccentricFoot(semiMajorPx, semiMinorPx, cosine * dx + sine * dy, cosine * dy - sine * dx);
    const [u, v] = [semiMajorPx * foot.cosine, semiMinorPx * foot.sine];
    return { x: centre.x + cosine * u - sine * v, y: centre.y + sine * u + cosine * v };
  });
}
