/** The upper-lip share by its three meanings, and the lip line it puts inside the rim. Formulas: docs/numerics.md §5. */
import { tooTight } from './formChecks';
import type { PlayerRecord, RimSpec } from './specs';
import { sayCore } from '../words/core';
import { saidNumber } from '../words/numbers';

export type ShareMeaning = PlayerRecord['upperLipShare']['by'];

/** Share of the rim's arc above a lip line at fraction f of the diameter from the top: acos(1 − 2f)/π. */
export const arcShare = (byDiameter: number): number => Math.acos(1 - 2 * byDiameter) / Math.PI;

/** Share of the cup's area above it: (θ − sin θ cos θ)/π, θ = acos(1 − 2f). */
export function areaShare(byDiameter: number): number {
  const angle = Math.acos(1 - 2 * byDiameter);
  return (angle - Math.sin(angle) * Math.cos(angle)) / Math.PI;
}

/** The share by diameter that a share in another meaning stands for; throws RangeError outside 0 … 1. */
export function shareByDiameter(share: { readonly value: number; readonly by: ShareMeaning }): number {
  if (!(share.value >= 0 && share.value <= 1)) throw tooTight('upperLipShare.value', saidNumber(share.value), sayCore('fromTo', { low: 0, high: 1 }));
  if (share.by === 'diameter') return share.value;
  const meaning = share.by === 'arc' ? arcShare : areaShare;
  let low = 0;
  let high = 1;
  while (high - low > 1e-15) {
    const middle = (low + high) / 2;
    if (middle === low || middle === high) break;
    if (meaning(middle) < share.value) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Height of the lip line above the rim's centre, mm, in the rim's own plane: r_inner(1 − 2·share). */
export function lipLineOffset(rim: RimSpec, share: { readonly value: number; readonly by: ShareMeaning }): number {
  return (rim.innerDiameterMm / 2) * (1 - 2 * shareByDiameter(share));
}
