/** A crown and its gum that were moved, held to what can be drawn. */
import type { ProfileSpec } from './specs';

export type Arcs = Extract<ProfileSpec, { kind: 'arcs' }>;

/** Keeps a gum held to the neck's slope on the drawable side of rounding, degrees. */
const NECK_MARGIN_DEG = 1e-6;

/** Holds moved arcs to what can be drawn: a crown within its radius, a gum no steeper than the neck. */
export function drawable(arcs: Arcs): Arcs {
  const middle = Math.sin((arcs.inclinationDeg * Math.PI) / 180);
  const crownRadiusMm = Math.max(arcs.crownRadiusMm, (arcs.crownHeightMm / 2 / (1 - Math.abs(middle))) * 1.02);
  const neckDeg = (Math.asin(middle + arcs.crownHeightMm / (2 * crownRadiusMm)) * 180) / Math.PI;
  return { ...arcs, crownRadiusMm, gumInclinationDeg: Math.min(arcs.gumInclinationDeg, neckDeg - NECK_MARGIN_DEG) };
}
