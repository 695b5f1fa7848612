/**
 * The seat: the pose in which the rim rests, as the local minimum of the energy that is reached from first touch.
 * `follow` frees depth and both angles; `held` frees the depth alone. Newton with the exact Hessian; docs/numerics.md §6–7.
 * Answers are tagged; nothing here returns NaN or a guess.
 */
import type { SeatReason } from './analysis';
import { type Closeness, COARSELY, IN_FULL, closenesses } from './closeness';
import type { GapFace } from './gapFace';
import { solveShifted } from './newtonStep';
import { WIDE_SAMPLING, checkRim, layRimNodes, layUniformNodes } from './rim';
import { type ContactNet, createContactNet } from './contactNet';
import { MODEL_REACH_MM } from './gapModel';
import {
  BY_ELEVATION, BY_LATERAL, BY_Z, EE, EL, ENDS_TOUCHED, ENERGY, LEAST_CLEARANCE, LEAST_GAP, LEAST_TIGHTNESS, LL, type SeatEnergy,
  ZE, ZL, ZZ, BEYOND_REACH, SQUEEZED, createSeatEnergy,
} from './seatEnergy';
import type { SeatMissed, SeatResult, SeatSetup, SeatSolver } from './seatAnswer';

/** Largest force modelled, N. */
const GREATEST_FORCE_N = 200;
/** The form is refused where 1 + d·κ falls below this (docs/model.md). */
export const FORM_TIGHTEST = 0.1;
const START_ABOVE_MM = 120;
const SEARCH_BELOW_MM = -120;
const TOUCH_STEPS = 400;
/** First touch is found to this clearance, mm. */
const TOUCH_MM = 1e-3;
const DEPTH_STEPS = 120;
const WARM_STEPS = 12;
/** Turns of a warm search in which the imbalance may rise, by what factor, and how often in all a step may be shortened. */
const WARM_RISES = 4;
const RISE_ALLOWED = 8;
const WARM_HALVINGS = 3;
const COLD_STEPS = 80;
/** Longest Newton step, mm at the rim. */
const LONGEST_STEP_MM = 2;
const STEEPEST_RADIANS = (75 * Math.PI) / 180;
const START_STEEPEST_RADIANS = (60 * Math.PI) / 180;

/** A fine net, the energy over it, and the pose at which it was laid. Follow and held have each their own: a hand drags both along. */
interface Ground {
  readonly net: ContactNet | null;
  readonly fine: SeatEnergy;
  readonly laid: { x: number; y: number; z: number; elevation: number; lateral: number };
}

/** Builds a solver; it keeps warm feet between calls. Throws RangeError where rim or lips cannot be. */
export function createSeatSolver(setup: SeatSetup): SeatSolver {
  checkRim(setup.rim);
  let { arch, lips } = setup;
  const { rim } = setup;
  const alike =
    lips.upper.thicknessMm === lips.lower.thicknessMm && lips.upper.effectiveModulusKPa === lips.lower.effectiveModulusKPa;
  const upper = arch.upper.placed;
  const lower = arch.lower?.placed ?? null;
  // Two nets: a fixed one that sees the whole rim, to come in on; and one laid where the rim presses, to balance on.
  const { evenly, lipLineMm } = setup;
  const fixed = evenly
    ? layUniformNodes(rim, lipLineMm, evenly.azimuths, evenly.rings)
    : layRimNodes(rim, lipLineMm, alike, setup.coarse ?? WIDE_SAMPLING);
  const wide = createSeatEnergy(upper, lower, lips, fixed);
  let standing = lower;
  const layGround = (): Ground => {
    const net = evenly || setup.coarse ? null : createContactNet(upper, standing, rim, lips, lipLineMm);
    const fine = net ? createSeatEnergy(upper, standing, lips, net.nodes) : wide;
    return { net, fine, laid: { x: NaN, y: NaN, z: 0, elevation: 0, lateral: 0 } };
  };
  const following = layGround();
  let holding: Ground | null = null;
  let ground = following;
  let energy = wide;
  let value = wide.value;
  const radius = rim.outerDiameterMm / 2;
  const exactly = setup.coarse ? COARSELY : IN_FULL;
  let close: Closeness = exactly;
  const hessian = new Float64Array(6);
  const gradient = new Float64Array(3);
  const step = new Float64Array(3);
  const pose = { z: 0, elevation: 0, lateral: 0 };
  let iterations = 0;

  const evaluate = (x: number, y: number, z: number, e: number, l: number, withEnergy: boolean): boolean => {
    iterations++;
    return energy.evaluate(x, y, z, e, l, withEnergy);
  };

  const missed = (reason: SeatReason): SeatMissed => ({ found: false, reason, iterations });

  function settled(z: number, elevation: number, lateral: number, forceN: number, free: boolean): SeatResult {
    const forceResidual = Math.abs(value[BY_Z]! + forceN) / forceN;
    const momentResidual = Math.max(Math.abs(value[BY_ELEVATION]!), Math.abs(value[BY_LATERAL]!)) / (forceN * radius);
    if (!(forceResidual <= close.enough && (!free || momentResidual <= close.enough))) return missed('not-converged');
    if (value[LEAST_GAP]! <= 0) return missed('rim-inside-tooth');
    if (value[ENDS_TOUCHED]! > 0) return missed('off-the-arch');
    if (value[LEAST_TIGHTNESS]! < FORM_TIGHTEST) return missed('form-too-tight');
    return {
      found: true, z, elevation, lateral, iterations, forceResidual, momentResidual,
      momentElevation: value[BY_ELEVATION]!,
      momentLateral: value[BY_LATERAL]!,
    };
  }

  /** Comes in from the front until the rim all but touches the lips: a step of the least clearance can never pass the touch. */
  function firstTouch(x: number, y: number, elevation: number, lateral: number): number {
    let z = START_ABOVE_MM;
    for (let turn = 0; turn < TOUCH_STEPS; turn++) {
      if (!evaluate(x, y, z, elevation, lateral, false)) return NaN;
      const clearance = value[LEAST_CLEARANCE]!;
      if (clearance < TOUCH_MM) return z;
      z -= clearance;
      if (z < SEARCH_BELOW_MM) return NaN;
    }
    return NaN;
  }

  /** Depth at which the force is balanced, by Newton inside a bracket that starts at first touch; NaN where there is none. */
  function depthFromTouch(x: number, y: number, forceN: number, elevation: number, lateral: number, touch: number): number {
    let above = touch;
    let below = touch;
    let inward = Math.min(lips.upper.thicknessMm, lips.lower.thicknessMm) / 16;
    for (;;) {
      below -= inward;
      if (below < SEARCH_BELOW_MM) return NaN;
      if (!evaluate(x, y, below, elevation, lateral, false)) break;
      if (value[BY_Z]! + forceN <= 0) break;
      above = below;
      inward *= 1.3;
    }
    let z = (above + below) / 2;
    for (let turn = 0; turn < DEPTH_STEPS; turn++) {
      if (!evaluate(x, y, z, elevation, lateral, false)) {
        below = z;
        z = (above + below) / 2;
        continue;
      }
      const unbalanced = value[BY_Z]! + forceN;
      if (Math.abs(unbalanced) <= close.balanced * forceN) return z;
      if (unbalanced > 0) above = z;
      else below = z;
      const newton = z - unbalanced / value[ZZ]!;
      const next = newton > below && newton < above ? newton : (above + below) / 2;
      if (next === z || above - below < 1e-14 * (1 + Math.abs(z))) return z;
      z = next;
    }
    return z;
  }

  function loadSystem(forceN: number): number {
    gradient[0] = value[BY_Z]! + forceN;
    gradient[1] = value[BY_ELEVATION]! / radius;
    gradient[2] = value[BY_LATERAL]! / radius;
    hessian[0] = value[ZZ]!;
    hessian[1] = value[ZE]! / radius;
    hessian[2] = value[ZL]! / radius;
    hessian[3] = value[EE]! / (radius * radius);
    hessian[4] = value[EL]! / (radius * radius);
    hessian[5] = value[LL]! / (radius * radius);
    return Math.max(Math.abs(gradient[0]), Math.abs(gradient[1]), Math.abs(gradient[2])) / forceN;
  }

  /** How far the rim has moved since the fine net was laid, mm; NaN before it ever was. A fixed net never moves. */
  function movedSinceLaid(x: number, y: number): number {
    const { net, laid } = ground;
    if (net === null) return 0;
    return Math.max(
      Math.abs(x - laid.x),
      Math.abs(y - laid.y),
      Math.abs(pose.z - laid.z),
      radius * Math.abs(pose.elevation - laid.elevation),
      radius * Math.abs(pose.lateral - laid.lateral),
    );
  }

  /** Lays the fine net at the pose if that has moved further since it was last laid; true if it was laid. */
  function layNear(x: number, y: number, allowedMm: number): boolean {
    const { net, laid } = ground;
    if (net === null || movedSinceLaid(x, y) <= allowedMm) return false;
    net.lay(x, y, pose.z, pose.elevation, pose.lateral);
    laid.x = x;
    laid.y = y;
    laid.z = pose.z;
    laid.elevation = pose.elevation;
    laid.lateral = pose.lateral;
    return true;
  }

  /**
   * Sums at the pose by the gaps as last read off, or reads them off anew where some node has moved further than `reachMm` since.
   * False where a lip would be squeezed to nothing.
   */
  function sumAt(x: number, y: number, reachMm: number): boolean {
    iterations++;
    let outcome = energy.sumNear(x, y, pose.z, pose.elevation, pose.lateral, reachMm, false);
    if (outcome === BEYOND_REACH) {
      layNear(x, y, close.relayMm);
      energy.readOff(x, y, pose.z, pose.elevation, pose.lateral);
      outcome = energy.sumNear(x, y, pose.z, pose.elevation, pose.lateral, reachMm, false);
    }
    return outcome !== SQUEEZED;
  }

  /**
   * Plain Newton on the fine net from a pose near the answer: first coming near on the gaps known from close by, then on gaps read off
   * at the place itself. A step is halved where it would squeeze a lip to nothing. The imbalance may rise at first, as the lips are
   * far from linear, but not for long. True when balanced at a minimum; else the pose is not to be used.
   */
  function newtonNear(x: number, y: number, forceN: number): boolean {
    sumOver(ground.fine);
    let coming = true;
    let before = Infinity;
    let halvings = 0;
    for (let turn = 0; turn < WARM_STEPS; turn++) {
      if (layNear(x, y, coming ? (turn === 0 ? MODEL_REACH_MM : close.comingMm) : close.relayMm)) before = Infinity;
      if (!sumAt(x, y, coming ? MODEL_REACH_MM : close.readOffMm)) {
        if (turn === 0 || ++halvings > WARM_HALVINGS) return false;
        for (let k = 0; k < 3; k++) step[k]! /= -2;
        takeStep();
        for (let k = 0; k < 3; k++) step[k]! *= -1;
        continue;
      }
      const unbalanced = loadSystem(forceN);
      if (!(unbalanced < (turn < WARM_RISES ? RISE_ALLOWED : 1) * before)) {
        return !coming && unbalanced <= close.enough && solveShifted(hessian, gradient, step) === 0;
      }
      before = unbalanced;
      if (solveShifted(hessian, gradient, step) !== 0) return false;
      const long = Math.max(Math.abs(step[0]!), Math.abs(step[1]!), Math.abs(step[2]!));
      if (long > LONGEST_STEP_MM) {
        if (++halvings > WARM_HALVINGS) return false;
        for (let k = 0; k < 3; k++) step[k]! *= LONGEST_STEP_MM / long;
      }
      const rests = !coming && unbalanced <= close.balanced && movedSinceLaid(x, y) <= close.relayMm;
      // The last step, of a few millionths of a micrometre, costs nothing and squares what is left.
      takeStep();
      if (rests) return true;
      coming = long > close.comingMm;
    }
    return false;
  }

  function takeStep(): void {
    pose.z += step[0]!;
    pose.elevation += step[1]! / radius;
    pose.lateral += step[2]! / radius;
  }

  /** Newton with a shifted Hessian, a bounded step and halving until the energy falls. */
  function newtonFar(x: number, y: number, forceN: number): SeatReason | null {
    let shifted = 0;
    if (!evaluate(x, y, pose.z, pose.elevation, pose.lateral, true)) return 'not-converged';
    for (let turn = 0; turn < COLD_STEPS; turn++) {
      const unbalanced = loadSystem(forceN);
      shifted = solveShifted(hessian, gradient, step);
      if (unbalanced <= close.balanced) return shifted === 0 ? null : 'no-rest';
      const slope = gradient[0]! * step[0]! + gradient[1]! * step[1]! + gradient[2]! * step[2]!;
      const long = Math.max(Math.abs(step[0]!), Math.abs(step[1]!), Math.abs(step[2]!));
      let part = long > LONGEST_STEP_MM ? LONGEST_STEP_MM / long : 1;
      const start = value[ENERGY]! + forceN * pose.z;
      const { z, elevation, lateral } = pose;
      const [dz, de, dl] = [step[0]!, step[1]! / radius, step[2]! / radius];
      let moved = false;
      for (let halving = 0; halving < 40; halving++, part /= 2) {
        if (!evaluate(x, y, z + part * dz, elevation + part * de, lateral + part * dl, true)) continue;
        const end = value[ENERGY]! + forceN * (z + part * dz);
        const rounding = 1e-14 * (Math.abs(start) + Math.abs(forceN * z));
        const better = Math.abs(end - start) <= rounding ? loadSystem(forceN) < unbalanced : end <= start + 1e-4 * part * slope;
        if (better) {
          moved = true;
          break;
        }
      }
      if (!moved) {
        evaluate(x, y, z, elevation, lateral, true);
        return unbalanced <= close.enough && shifted === 0 ? null : 'not-converged';
      }
      pose.z = z + part * dz;
      pose.elevation = elevation + part * de;
      pose.lateral = lateral + part * dl;
      if (Math.abs(pose.elevation) > STEEPEST_RADIANS || Math.abs(pose.lateral) > STEEPEST_RADIANS) return 'no-rest';
      if (pose.z < SEARCH_BELOW_MM) return 'no-rest';
    }
    return 'not-converged';
  }

  /** Changes the net that `evaluate` sums over. */
  function sumOver(which: SeatEnergy): void {
    energy = which;
    value = which.value;
  }

  return {
    get energy() {
      return ground.fine;
    },
    moveLower(jaw) {
      standing = jaw;
      wide.moveLower(jaw);
      for (const each of [following, holding]) {
        if (each === null || each.net === null) continue;
        each.fine.moveLower(jaw);
        each.net.moveLower(jaw);
        each.laid.x = NaN;
      }
    },
    replaceMouth(newArch, newLips) {
      if (following.net !== null) throw new TypeError('replaceMouth: only for a coarse solver');
      arch = newArch;
      lips = newLips;
      wide.replaceMouth(arch.upper.placed, arch.lower?.placed ?? null, lips);
    },
    follow(x, y, forceN, warm, detail = 'full') {
      iterations = 0;
      ground = following;
      if (!(forceN > 0 && forceN <= GREATEST_FORCE_N)) return missed('force-out-of-range');
      for (const each of warm ? closenesses(exactly, detail) : []) {
        close = each;
        pose.z = warm!.z;
        pose.elevation = warm!.elevation;
        pose.lateral = warm!.lateral;
        if (newtonNear(x, y, forceN)) return settled(pose.z, pose.elevation, pose.lateral, forceN, true);
      }
      close = exactly;
      forgetFeet();
      sumOver(wide);
      const lateral = facing(arch.upper.placed, x);
      const touch = firstTouch(x, y, 0, lateral);
      if (touch !== touch) return missed('never-touches');
      const z = depthFromTouch(x, y, forceN, 0, lateral, touch);
      if (z !== z) return missed('no-rest');
      pose.z = z;
      pose.elevation = 0;
      pose.lateral = lateral;
      const trouble = newtonFar(x, y, forceN);
      if (trouble !== null) return missed(value[ENDS_TOUCHED]! > 0 ? 'off-the-arch' : trouble);
      if (ground.fine !== wide && !newtonNear(x, y, forceN)) return missed('not-converged');
      return settled(pose.z, pose.elevation, pose.lateral, forceN, true);
    },
    held(x, y, forceN, elevation, lateral, warmZ, detail = 'full') {
      iterations = 0;
      ground = holding ??= layGround();
      if (!(forceN > 0 && forceN <= GREATEST_FORCE_N)) return missed('force-out-of-range');
      for (const each of warmZ === undefined ? [] : closenesses(exactly, detail)) {
        close = each;
        const near = depthNear(x, y, forceN, elevation, lateral, warmZ!);
        if (near === near) return settled(near, elevation, lateral, forceN, false);
      }
      close = exactly;
      forgetFeet();
      sumOver(wide);
      const touch = firstTouch(x, y, elevation, lateral);
      if (touch !== touch) return missed('never-touches');
      const depth = depthFromTouch(x, y, forceN, elevation, lateral, touch);
      if (depth !== depth) return missed('no-rest');
      const z = ground.fine === wide ? depth : depthNear(x, y, forceN, elevation, lateral, depth);
      if (z !== z) return missed('not-converged');
      return settled(z, elevation, lateral, forceN, false);
    },
  };

  function forgetFeet(): void {
    wide.forgetFeet();
    ground.fine.forgetFeet();
    ground.net?.forgetFeet();
    ground.laid.x = NaN;
  }

  function depthNear(x: number, y: number, forceN: number, elevation: number, lateral: number, warmZ: number): number {
    sumOver(ground.fine);
    pose.z = warmZ;
    pose.elevation = elevation;
    pose.lateral = lateral;
    let coming = true;
    let before = Infinity;
    for (let turn = 0; turn < WARM_STEPS; turn++) {
      if (layNear(x, y, coming ? (turn === 0 ? MODEL_REACH_MM : close.comingMm) : close.relayMm)) before = Infinity;
      if (!sumAt(x, y, coming ? MODEL_REACH_MM : close.readOffMm)) return NaN;
      const unbalanced = Math.abs(value[BY_Z]! + forceN);
      if (!(unbalanced < before)) return !coming && unbalanced <= close.enough * forceN ? pose.z : NaN;
      if (!(value[ZZ]! > 0)) return NaN;
      before = unbalanced;
      const move = -(value[BY_Z]! + forceN) / value[ZZ]!;
      if (Math.abs(move) > LONGEST_STEP_MM) return NaN;
      const rests = !coming && unbalanced <= close.balanced * forceN && movedSinceLaid(x, y) <= close.relayMm;
      pose.z += move;
      if (rests) return pose.z;
      coming = Math.abs(move) > close.comingMm;
    }
    return NaN;
  }
}

/** Where a cold search begins: the lateral angle at which the horn meets the upper face squarely at x, radians, within bounds. */
function facing(face: GapFace, x: number): number {
  return Math.min(Math.max(face.facingAt(x), -START_STEEPEST_RADIANS), START_STEEPEST_RADIANS);
}
