/** What the seat solver is asked and what it answers (seat.ts). */
import type { LoadDetail, SeatReason } from './analysis';
import type { Faces, GapFace } from './gapFace';
import type { RimSampling } from './rim';
import type { SeatEnergy } from './seatEnergy';
import type { LipsSpec, RimSpec } from './specs';

export interface SeatSetup {
  /** What the rim is seated on: an arch, or scans. */
  readonly arch: Faces;
  readonly rim: RimSpec;
  readonly lips: LipsSpec;
  /** Height of the lip line above the rim's centre, mm. */
  readonly lipLineMm: number;
  /** Balance on a small fixed net alone: many times faster and right to about 0.1°, for the draws of a Monte Carlo. */
  readonly coarse?: RimSampling;
  /** Instead of the usual nets, one that is even and fixed: for holding those nets against. */
  readonly evenly?: { readonly azimuths: number; readonly rings: number };
}

/** Depth of the rim's centre (mm) and the horn's angles (radians). */
export interface SeatState {
  readonly z: number;
  readonly elevation: number;
  readonly lateral: number;
}

export interface SeatFound extends SeatState {
  readonly found: true;
  readonly iterations: number;
  /** |Σ p·n_z·area − F| / F. */
  readonly forceResidual: number;
  /** The larger moment over F × outer radius; what the hands supply when held, ~0 in follow. */
  readonly momentResidual: number;
  /** Moments the hands must supply, N·mm (+ bell up / to the right). */
  readonly momentElevation: number;
  readonly momentLateral: number;
}

export interface SeatMissed {
  readonly found: false;
  readonly reason: SeatReason;
  readonly iterations: number;
}

export type SeatResult = SeatFound | SeatMissed;

export interface SeatSolver {
  /** The energy as left at the last answer's pose. */
  readonly energy: SeatEnergy;
  /**
   * Rim centre over the frontal place (x, y) mm, force in N; `warm` is a pose near the answer. At a `glance` the answer is balanced to
   * 1e-5 of F instead of 1e-10 and lies within 0.01° of the full one.
   */
  follow(x: number, y: number, forceN: number, warm?: SeatState, detail?: LoadDetail): SeatResult;
  /** Puts the lower jaw elsewhere; the upper jaw, rim and lips stay. Only for a solver of two jaws. */
  moveLower(jaw: GapFace): void;
  /** Another mouth under the same rim, lip line and law; only for a coarse solver, whose nodes know no mouth. */
  replaceMouth(arch: Faces, lips: LipsSpec): void;
  /** Depth alone, at fixed angles in radians. */
  held(
    x: number, y: number, forceN: number, elevation: number, lateral: number, warmZ?: number, detail?: LoadDetail,
  ): SeatResult;
}
