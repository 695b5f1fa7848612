/** Where the teeth of one jaw are drawn, seen square to the arch, mm: the table's widths laid along the form from the midline. Pure. */
import { createArcLength } from '../../core/arcLength';
import { CURVE_OUT, buildCurve } from '../../core/planarForm';
import type { FormSpec } from '../../core/specs';
import { crownOf } from '../../records/library';

export interface DrawnTooth {
  readonly fdi: number;
  /** Middle of the tooth and of its outside, and the tip or edge, mm: x to the player's left, back from the front. */
  readonly middle: readonly [xMm: number, backMm: number];
  readonly outside: readonly [xMm: number, backMm: number];
  readonly widthMm: number;
  readonly depthMm: number;
  /** Turn of its width out of the page's level, degrees. */
  readonly turnDeg: number;
}

const TEETH_A_SIDE = 6;

export function drawnTeeth(form: FormSpec, jaw: 'upper' | 'lower'): DrawnTooth[] {
  const curve = buildCurve(form);
  const length = createArcLength(curve);
  const out = new Float64Array(CURVE_OUT);
  const quadrants = jaw === 'upper' ? ([[2, 1], [1, -1]] as const) : ([[3, 1], [4, -1]] as const);
  return quadrants.flatMap(([quadrant, side]) => {
    let inner = 0;
    return Array.from({ length: TEETH_A_SIDE }, (_, index): DrawnTooth => {
      const fdi = quadrant * 10 + index + 1;
      const { widthMm, depthMm } = crownOf(fdi);
      const at = Math.min(Math.max(side * (inner + widthMm / 2), length.range[0]), length.range[1]);
      inner += widthMm;
      curve.exact(length.parameterAt(at), out);
      const [x, z, dx, dz] = out as unknown as [number, number, number, number];
      const speed = Math.hypot(dx, dz);
      // Square to the form and inward, half the tooth's depth.
      const [inX, inZ] = [dz / speed, -dx / speed];
      return {
        fdi,
        middle: [x + (inX * depthMm) / 2, -(z + (inZ * depthMm) / 2)],
        outside: [x, -z],
        widthMm,
        depthMm,
        turnDeg: (Math.atan2(-dz, dx) * 180) / Math.PI,
      };
    });
  });
}
