/**
 * The two pressure laws, as functions of the gap g between rim and tooth with strain ε = (t − g)/t (docs/numerics.md §4).
 * Stiffening: p = Eε/(1 − ε) = E(t/g − 1), energy per area E·t(−ε − ln(1 − ε)). Linear: p = Eε, energy E·t·ε²/2.
 * Thickness in mm, modulus in N/mm² (1 N/mm² = 1000 kPa), pressure in N/mm².
 */
import type { LipLaw } from './specs';

export const KPA_PER_NEWTON_PER_SQUARE_MM = 1000;

/** Energy per area, N/mm; its derivative by the gap is −pressure. */
export function lipEnergy(law: LipLaw, thicknessMm: number, modulus: number, gapMm: number): number {
  if (gapMm >= thicknessMm) return 0;
  const strain = (thicknessMm - gapMm) / thicknessMm;
  if (law === 'linear') return (modulus * thicknessMm * strain * strain) / 2;
  return gapMm > 0 ? modulus * thicknessMm * (-strain - Math.log(gapMm / thicknessMm)) : Infinity;
}
