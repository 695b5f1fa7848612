/**
 * The rim and a short length of horn cut lengthwise, laid into the plane of a figure. Only the rim's contour is a measure; cup and
 * shank are generic proportions of the inner diameter.
 */
import { contourHeight } from '../core/rim';
import type { RimSpec } from '../core/specs';

/** A place in a figure's plane, mm of the mouth: to the right and up on the paper. */
export type Point = readonly [rightMm: number, upMm: number];

export interface HornShape {
  /** The rim's two cut faces, closed. */
  readonly rim: readonly (readonly Point[])[];
  /** The outside from the rim to the tube's end, one line on each side. */
  readonly outside: readonly (readonly Point[])[];
  readonly centreMm: Point;
  /** End of the axis, well beyond the tube. */
  readonly tipMm: Point;
}

/** How far the drawn tube reaches from the rim, mm. */
const hornLengthMm = (rim: RimSpec): number => 10 + 0.75 * rim.innerDiameterMm;
/** How far the drawn axis reaches, mm. */
export const axisLengthMm = (rim: RimSpec): number => hornLengthMm(rim) + 15;

/** `angle` is that of the axis from the paper's right, radians, counter-clockwise. */
export function hornShape(rim: RimSpec, centreMm: Point, angle: number): HornShape {
  const [ahead, aside] = [
    [Math.cos(angle), Math.sin(angle)],
    [-Math.sin(angle), Math.cos(angle)],
  ] as const;
  const at = ([radius, along]: readonly [number, number], side: 1 | -1): Point => [
    centreMm[0] + along * ahead[0] + side * radius * aside[0],
    centreMm[1] + along * ahead[1] + side * radius * aside[1],
  ];
  const both = (profile: readonly (readonly [number, number])[]): readonly Point[][] =>
    ([1, -1] as const).map((side) => profile.map((point) => at(point, side)));
  return {
    rim: both(rimProfile(rim)),
    outside: both(outsideProfile(rim)),
    centreMm,
    tipMm: at([0, axisLengthMm(rim)], 1),
  };
}

const WALL_MM = 5;
const FACE_STEPS = 16;

/** Radius and distance along the axis, mm: the face from the inner to the outer edge, and a short piece of wall behind it. */
function rimProfile(rim: RimSpec): readonly (readonly [number, number])[] {
  const inner = rim.innerDiameterMm / 2;
  const outer = rim.outerDiameterMm / 2;
  const face = Array.from({ length: FACE_STEPS + 1 }, (_, step) => {
    const radius = inner + ((outer - inner) * step) / FACE_STEPS;
    return [radius, contourHeight(rim, radius)] as const;
  });
  const end = contourHeight(rim, outer) + WALL_MM;
  return [...face, [outer, end - 0.6], [outer - 0.6, end], [inner - 0.5, end], [inner - 0.2, contourHeight(rim, inner) + 1.5]];
}

const TAPER_STEPS = 12;

function outsideProfile(rim: RimSpec): readonly (readonly [number, number])[] {
  const inner = rim.innerDiameterMm / 2;
  const outer = rim.outerDiameterMm / 2;
  const start = contourHeight(rim, outer) + WALL_MM;
  const shank = Math.max(3.5, rim.innerDiameterMm * 0.2);
  const cupEnd = Math.max(start + 4, rim.innerDiameterMm * 0.75);
  const wide = Math.min(outer - 0.6, inner + 2);
  const taper = Array.from({ length: TAPER_STEPS + 1 }, (_, step) => {
    const part = step / TAPER_STEPS;
    return [wide + (shank - wide) * part * part * (3 - 2 * part), start + (cupEnd - start) * part] as const;
  });
  return [...taper, [shank, hornLengthMm(rim)]];
}
