/** Solver and load reader side by side, for seats whose answer is known: angles in radians, places in the player's frame. */
import type { RimLoad, SeatReason } from '../../src/core/analysis';
import type { Faces } from '../../src/core/gapFace';
import { createLoadReader } from '../../src/core/load';
import { createSeatSolver } from '../../src/core/seat';
import type { SeatFound, SeatResult, SeatSetup } from '../../src/core/seatAnswer';
import type { LipLaw, LipsSpec, RimSpec } from '../../src/core/specs';

export interface Seating {
  /** Follow at the frontal place (x, y); throws where there is no seat. */
  follow(x: number, y: number, forceN: number): { readonly seat: SeatFound; readonly load: RimLoad };
  held(x: number, y: number, forceN: number, elevation: number, lateral: number): { readonly seat: SeatFound; readonly load: RimLoad };
}

export function seating(setup: SeatSetup): Seating {
  const solver = createSeatSolver(setup);
  const reader = createLoadReader(setup);
  return {
    follow(x, y, forceN) {
      const seat = found(solver.follow(x, y, forceN));
      return { seat, load: loaded(reader.read(solver.energy, x, y, seat, forceN, false)) };
    },
    held(x, y, forceN, elevation, lateral) {
      const seat = found(solver.held(x, y, forceN, elevation, lateral));
      return { seat, load: loaded(reader.read(solver.energy, x, y, seat, forceN, true)) };
    },
  };
}

export function found(seat: SeatResult): SeatFound {
  if (!seat.found) throw new Error(`no seat: ${seat.reason} after ${seat.iterations}`);
  return seat;
}

export function loaded(load: RimLoad | SeatReason): RimLoad {
  if (typeof load === 'string') throw new Error(`no load: ${load}`);
  return load;
}

/** Both lips alike: thickness in mm, modulus in kPa. */
export const alikeLips = (law: LipLaw, thicknessMm = 12, effectiveModulusKPa = 200): LipsSpec => ({
  upper: { thicknessMm, effectiveModulusKPa },
  lower: { thicknessMm, effectiveModulusKPa },
  law,
});

/** A flat rim of these radii, mm. */
export const flatRim = (inner: number, outer: number): RimSpec => ({
  innerDiameterMm: 2 * inner,
  outerDiameterMm: 2 * outer,
  highPointDiameterMm: inner + outer,
  contourRadiusMm: null,
});

export const setupOf = (arch: Faces, rim: RimSpec, lips: LipsSpec, lipLineMm = 0): SeatSetup => ({ arch, rim, lips, lipLineMm });
