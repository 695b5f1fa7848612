/** Bite prints with everything about them known: points of a form, laid on a card and seen by a pinhole camera. */
import { createArcLength } from '../../src/core/arcLength';
import { CURVE_OUT, buildCurve } from '../../src/core/planarForm';
import type { BitePrintSpec, FormSpec } from '../../src/core/specs';
import type { Vec3 } from '../../src/core/vector';
import { project } from '../../src/measure/camera';
import type { CameraSpec } from '../../src/measure/marks';
import type { Point } from '../../src/measure/picture';

/** [x, z] of a form's points, evenly along it from the player's right to the left, `reachMm` to each side. */
export function pointsOn(form: FormSpec, count: number, reachMm: number): [number, number][] {
  const curve = buildCurve(form);
  const length = createArcLength(curve);
  const out = new Float64Array(CURVE_OUT);
  return Array.from({ length: count }, (_, at) => {
    curve.exact(length.parameterAt(reachMm * ((2 * at) / (count - 1) - 1)), out);
    return [out[0]!, out[1]!];
  });
}

/** Laid on a card whose x goes right and y down, the front of the arch up before it is turned: seen from above, as one looks at one's own teeth in the card. */
export function onCardAt(places: readonly (readonly [number, number])[], middle: Point, turnRad: number): Point[] {
  const [cosine, sine] = [Math.cos(turnRad), Math.sin(turnRad)];
  return places.map(([x, z]) => ({ x: middle.x + cosine * -x - sine * -z, y: middle.y + sine * -x + cosine * -z }));
}

export const printOf = (points: readonly Point[], sdMm = 0.05, scalePart = 0): BitePrintSpec => ({
  jaw: 'upper',
  scale: { by: 'card', widthMm: 100, heightMm: 80 },
  scalePart,
  points: points.map(({ x, y }) => ({ xMm: x, yMm: y, sdMm })),
});

/** A card of this size with its middle `farMm` before the camera, turned about the camera's x and then y: where each of its points (mm from its upper left corner) is seen. */
export function cardSeen(camera: CameraSpec, size: { readonly widthMm: number; readonly heightMm: number }, farMm: number, tiltRad: readonly [number, number]): (point: Point) => Point {
  const [[cx, sx], [cy, sy]] = tiltRad.map((angle) => [Math.cos(angle), Math.sin(angle)]) as [[number, number], [number, number]];
  return ({ x, y }) => {
    const [u, v] = [x - size.widthMm / 2, y - size.heightMm / 2];
    const [, y1, z1] = [u, cx * v, sx * v];
    const placed: Vec3 = [cy * u + sy * z1, y1, farMm - sy * u + cy * z1];
    return project(camera, placed);
  };
}
