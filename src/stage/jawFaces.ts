/** The labial faces to draw on: two jaws as they are, or one surface split at its level line into an upper and a lower face. */
import type { Arch } from '../core/arch';
import type { JawSurface } from '../core/surface';
import type { Vec3 } from '../core/vector';

export interface JawFace {
  readonly upper: boolean;
  /** Largest |arc length| that may be asked for. */
  readonly arcLimitMm: number;
  /** Largest height from the edge toward the gum that may be asked for. */
  readonly heightLimitMm: number;
  pointAt(arcMm: number, heightMm: number): Vec3;
  normalAt(arcMm: number, heightMm: number): Vec3;
}

export function jawFaces(arch: Arch): readonly JawFace[] {
  if (arch.lower) return [faceOf(arch.upper, true, 1), faceOf(arch.lower, false, 1)];
  if (arch.upper.jaw === 'single') return [faceOf(arch.upper, true, 1), faceOf(arch.upper, false, -1)];
  return [faceOf(arch.upper, true, 1)];
}

/** Keeps clear of the very end of a surface, where a circle's arc may have no slope. */
const END_CLEARANCE = 0.97;

function faceOf(surface: JawSurface, upper: boolean, heightSign: 1 | -1): JawFace {
  const arcLimitMm = Math.min(-surface.arcRange[0], surface.arcRange[1]) * END_CLEARANCE;
  const end = heightSign > 0 ? surface.heightRange[1] : -surface.heightRange[0];
  const heightLimitMm = end * END_CLEARANCE;
  const arcIn = (arc: number): number => Math.max(-arcLimitMm, Math.min(arcLimitMm, arc));
  const heightIn = (height: number): number => heightSign * Math.max(0, Math.min(heightLimitMm, height));
  return {
    upper,
    arcLimitMm,
    heightLimitMm,
    pointAt: (arc, height) => surface.pointAt(arcIn(arc), heightIn(height)),
    normalAt: (arc, height) => surface.normalAt(arcIn(arc), heightIn(height)),
  };
}
