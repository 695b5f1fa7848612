/** The rim as a ring to hold: its face is the model's contour, behind it a short wall and a flat back, on which it is printed. */
import { contourHeight } from '../core/rim';
import type { RimSpec } from '../core/specs';
import { type NotSolid, type Solid, notSolid, solidBuilder } from './solid';

export interface RimSolid {
  readonly kind: 'solid';
  readonly solid: Solid;
  /** Largest distance of a chord from its arc along the contour, and round the ring, mm. */
  readonly chordMm: { readonly contour: number; readonly round: number };
}

/** Wall behind the lowest edge of the face, mm: enough to hold between two fingers. */
export const RIM_WALL_MM = 6;
/** Chords keep within this of the contour and of the circles, mm. */
export const RIM_CHORD_MM = 0.01;
const FEWEST_TURNS = 48;
const FEWEST_ARCS = 4;
/** A ring thinner than this, or a hole smaller, is nothing a printer makes, mm; nor is a ring wider than its bed. */
const LEAST_WIDTH_MM = 0.8;
const LEAST_HOLE_MM = 2;
const MOST_ACROSS_MM = 200;

/** Axis along z, the face toward +z, its high points at z = 0. */
export function rimSolid(rim: RimSpec): RimSolid | NotSolid {
  const inner = rim.innerDiameterMm / 2;
  const outer = rim.outerDiameterMm / 2;
  if (outer - inner < LEAST_WIDTH_MM) return notSolid({ reason: 'thin-rim', leastMm: LEAST_WIDTH_MM });
  if (2 * inner < LEAST_HOLE_MM) return notSolid({ reason: 'small-hole', leastMm: LEAST_HOLE_MM });
  if (2 * outer > MOST_ACROSS_MM) return notSolid({ reason: 'large-rim', mostMm: MOST_ACROSS_MM });
  const face = faceRadii(rim);
  const backMm = -Math.max(contourHeight(rim, inner), contourHeight(rim, outer)) - RIM_WALL_MM;
  // From inside to outside over the face, then down: with the axis to the left of the profile its normals point out.
  const profile = [[inner, backMm], ...face.radii.map((radius) => [radius, -contourHeight(rim, radius)]), [outer, backMm]] as [number, number][];
  const turns = Math.max(FEWEST_TURNS, 4 * Math.ceil(Math.PI / Math.acos(1 - RIM_CHORD_MM / outer) / 4));
  const { corner, quad, build } = solidBuilder();
  const rings = Array.from({ length: turns }, (_, turn) => {
    const angle = (2 * Math.PI * turn) / turns;
    return profile.map(([radius, z]) => corner(radius * Math.cos(angle), radius * Math.sin(angle), z));
  });
  for (let turn = 0; turn < turns; turn++) {
    const [here, next] = [rings[turn]!, rings[(turn + 1) % turns]!];
    for (let row = 0; row < profile.length; row++) {
      const after = (row + 1) % profile.length;
      quad(here[row]!, here[after]!, next[after]!, next[row]!);
    }
  }
  return { kind: 'solid', solid: build(), chordMm: { contour: face.chordMm, round: outer * (1 - Math.cos(Math.PI / turns)) } };
}

/** Radii from the inner to the outer edge, even in the contour's angle, with one on the high points. */
function faceRadii({ innerDiameterMm, outerDiameterMm, highPointDiameterMm, contourRadiusMm }: RimSpec) {
  const [inner, high, outer] = [innerDiameterMm / 2, highPointDiameterMm / 2, outerDiameterMm / 2];
  if (contourRadiusMm === null) return { radii: [inner, outer], chordMm: 0 };
  const from = -Math.asin(Math.min(1, (high - inner) / contourRadiusMm));
  const to = Math.asin(Math.min(1, (outer - high) / contourRadiusMm));
  // A chord of angle a stands r(1 − cos(a/2)) off its arc.
  const widest = 2 * Math.acos(Math.max(-1, 1 - RIM_CHORD_MM / contourRadiusMm));
  const radii: number[] = [];
  let chordMm = 0;
  for (const [start, end] of [[from, 0], [0, to]] as const) {
    if (end - start < LEAST_ARC) continue;
    const count = Math.max(FEWEST_ARCS, Math.ceil((end - start) / widest));
    for (let step = radii.length === 0 ? 0 : 1; step <= count; step++) radii.push(high + contourRadiusMm * Math.sin(start + ((end - start) * step) / count));
    chordMm = Math.max(chordMm, contourRadiusMm * (1 - Math.cos((end - start) / count / 2)));
  }
  radii[0] = inner;
  radii[radii.length - 1] = outer;
  return { radii, chordMm };
}

/** High points nearer to an edge than this, radians of the contour, stand on it. */
const LEAST_ARC = 1e-3;
