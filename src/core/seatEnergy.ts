/**
 * The seat's energy Σ area·w(gap) of a pose, with exact gradient and Hessian: the hot loop. Nothing is allocated in it.
 * Unknowns in this order: depth z of the rim's centre (mm), elevation, lateral (radians). The force's own part F·z is added by
 * the solver. Derivation: docs/numerics.md §6.
 *
 * Two pressure laws, as functions of the gap g between rim and tooth with strain ε = (t − g)/t (docs/numerics.md §4).
 * Stiffening: p = Eε/(1 − ε) = E(t/g − 1), energy per area E·t(−ε − ln(1 − ε)). Linear: p = Eε, energy E·t·ε²/2.
 * Thickness in mm, modulus in N/mm², pressure in N/mm².
 */
import { JAW_BLEND_MM } from './arch';
import type { GapFace } from './gapFace';
import { AT_END, BOTH, FIRST_GAP, MODEL_REACH_MM, MODEL_SIZE, NORMAL, OTHER_GAP, SECOND, TIGHTNESS, createGapModel } from './gapModel';
import type { RimNodes } from './rim';
import type { LipsSpec } from './specs';

export const KPA_PER_NEWTON_PER_SQUARE_MM = 1000;

/** Offsets into `SeatEnergy.value`. Gradient and Hessian are of the contact energy alone. */
export const ENERGY = 0;
export const BY_Z = 1;
export const BY_ELEVATION = 2;
export const BY_LATERAL = 3;
export const ZZ = 4;
export const ZE = 5;
export const ZL = 6;
export const EE = 7;
export const EL = 8;
export const LL = 9;
/** Smallest gap − thickness and smallest gap over the nodes, mm. */
export const LEAST_CLEARANCE = 10;
export const LEAST_GAP = 11;
/** Contact nodes whose foot is at an end of a form, and least 1 + d·κ over the contact nodes. */
export const ENDS_TOUCHED = 12;
export const LEAST_TIGHTNESS = 13;
const VALUE_SIZE = 14;

/** What a sum over the nodes comes to. */
export const SUMMED = 0;
/** A stiffening lip would be squeezed to nothing. */
export const SQUEEZED = 1;
/** A node has moved too far from where the gap was last read off. */
export const BEYOND_REACH = 2;
export type SumOutcome = typeof SUMMED | typeof SQUEEZED | typeof BEYOND_REACH;

export interface SeatEnergy {
  readonly nodes: RimNodes;
  readonly value: Float64Array;
  /** Gap at every node after a sum, mm. */
  readonly gap: Float64Array;
  /** Pressure (N/mm²) and the z part of the normal at every node after a sum. */
  readonly pressure: Float64Array;
  readonly normalZ: Float64Array;
  /** Reads the gaps off anew at a pose with the rim's centre at (x, y, z), exactly. */
  readOff(x: number, y: number, z: number, elevation: number, lateral: number): void;
  /** Sums over the nodes by the gaps last read off, to second order; no node may be further than `reachMm` from where it was then. */
  sumNear(x: number, y: number, z: number, elevation: number, lateral: number, reachMm: number, withEnergy: boolean): SumOutcome;
  /** Both: the exact sums. False where a stiffening lip would be squeezed to nothing. */
  evaluate(x: number, y: number, z: number, elevation: number, lateral: number, withEnergy: boolean): boolean;
  /** Forgets the warm feet. */
  forgetFeet(): void;
  /** Puts the lower jaw elsewhere. */
  moveLower(jaw: GapFace): void;
  /** Another mouth under the same nodes; the lips' law stays. */
  replaceMouth(upper: GapFace, lower: GapFace | null, lips: LipsSpec): void;
}

/** Places in the blended derivatives of two jaws: gap, normal, second derivatives. */
const BLENDED_SIZE = 10;

export function createSeatEnergy(upper: GapFace, lower: GapFace | null, lips: LipsSpec, nodes: RimNodes): SeatEnergy {
  // A contact net may lay fewer nodes than it has room for, and other ones each time.
  const count = nodes.area.length;
  const { across, up, recede, area, underUpperLip } = nodes;
  const value = new Float64Array(VALUE_SIZE);
  const gap = new Float64Array(count);
  const pressure = new Float64Array(count);
  const normalZ = new Float64Array(count);
  const blended = new Float64Array(BLENDED_SIZE);
  const moved = new Float64Array(3);
  const stiffening = lips.law === 'stiffening';
  const material = new Float64Array(4);
  writeMaterial(lips, material);
  const model = createGapModel(upper, lower, nodes, () => Math.max(material[0]!, material[1]!));
  const { numbers, readOff } = model;

  function sumNear(
    x: number, y: number, z: number, elevation: number, lateral: number, reachMm: number, withEnergy: boolean,
  ): SumOutcome {
    if (!model.current()) return BEYOND_REACH;
    const ce = Math.cos(elevation);
    const se = Math.sin(elevation);
    const cl = Math.cos(lateral);
    const sl = Math.sin(lateral);
    // The rim's own directions (frame.ts): across u = (cl, 0, sl), up v = (se·sl, ce, −se·cl), axis a = (−sl·ce, se, cl·ce).
    const vx = se * sl;
    const vz = -se * cl;
    const ax = -sl * ce;
    const az = cl * ce;
    const reach2 = reachMm * reachMm;
    let energy = 0;
    let gz = 0;
    let ge = 0;
    let gl = 0;
    let hzz = 0;
    let hze = 0;
    let hzl = 0;
    let hee = 0;
    let hel = 0;
    let hll = 0;
    let leastClearance = Infinity;
    let leastGap = Infinity;
    let endsTouched = 0;
    let leastTightness = Infinity;

    const upperThickness = material[0]!;
    const lowerThickness = material[1]!;
    const upperModulus = material[2]!;
    const lowerModulus = material[3]!;
    const laid = nodes.count;
    for (let i = 0; i < laid; i++) {
      const nodeArea = area[i]!;
      if (nodeArea === 0) {
        pressure[i] = 0;
        continue;
      }
      const nodeAcross = across[i]!;
      const nodeUp = up[i]!;
      const back = recede[i]!;
      const from = i * MODEL_SIZE;
      // Offset of the node from the rim's centre; how far it has moved since the gap was read off.
      const ox = nodeAcross * cl + nodeUp * vx + back * ax;
      const oy = nodeUp * ce + back * se;
      const oz = nodeAcross * sl + nodeUp * vz + back * az;
      const mx = x + ox - numbers[from]!;
      const my = y + oy - numbers[from + 1]!;
      const mz = z + oz - numbers[from + 2]!;
      if (!(mx * mx + my * my + mz * mz <= reach2)) return BEYOND_REACH;
      let xx = numbers[from + FIRST_GAP + SECOND]!;
      let xy = numbers[from + FIRST_GAP + SECOND + 1]!;
      let xz = numbers[from + FIRST_GAP + SECOND + 2]!;
      let yy = numbers[from + FIRST_GAP + SECOND + 3]!;
      let yz = numbers[from + FIRST_GAP + SECOND + 4]!;
      let zz = numbers[from + FIRST_GAP + SECOND + 5]!;
      let nx = numbers[from + FIRST_GAP + NORMAL]!;
      let ny = numbers[from + FIRST_GAP + NORMAL + 1]!;
      let nz = numbers[from + FIRST_GAP + NORMAL + 2]!;
      const bx = xx * mx + xy * my + xz * mz;
      const by = xy * mx + yy * my + yz * mz;
      const bz = xz * mx + yz * my + zz * mz;
      let g = numbers[from + FIRST_GAP]! + mx * (nx + bx / 2) + my * (ny + by / 2) + mz * (nz + bz / 2);
      nx += bx;
      ny += by;
      nz += bz;
      if (numbers[from + BOTH] === 1) {
        blended[0] = g;
        blended[NORMAL] = nx;
        blended[NORMAL + 1] = ny;
        blended[NORMAL + 2] = nz;
        moved[0] = mx;
        moved[1] = my;
        moved[2] = mz;
        blendJaws(numbers, from, moved, blended);
        g = blended[0];
        nx = blended[NORMAL]!;
        ny = blended[NORMAL + 1]!;
        nz = blended[NORMAL + 2]!;
        xx = blended[SECOND]!;
        xy = blended[SECOND + 1]!;
        xz = blended[SECOND + 2]!;
        yy = blended[SECOND + 3]!;
        yz = blended[SECOND + 4]!;
        zz = blended[SECOND + 5]!;
      }
      gap[i] = g;
      if (g < leastGap) leastGap = g;
      const underUpper = underUpperLip[i] === 1;
      const thickness = underUpper ? upperThickness : lowerThickness;
      const clearance = g - thickness;
      if (clearance < leastClearance) leastClearance = clearance;
      if (clearance >= 0) {
        pressure[i] = 0;
        normalZ[i] = 0;
        continue;
      }
      const tightness = numbers[from + TIGHTNESS]!;
      if (tightness < leastTightness) leastTightness = tightness;
      endsTouched += numbers[from + AT_END]!;

      const modulus = underUpper ? upperModulus : lowerModulus;
      let p: number;
      let stiffness: number;
      if (stiffening) {
        if (g <= 0) {
          value[LEAST_GAP] = g;
          return SQUEEZED;
        }
        const inverse = 1 / g;
        stiffness = modulus * thickness * inverse;
        p = stiffness - modulus;
        stiffness *= inverse;
        if (withEnergy) energy += nodeArea * modulus * thickness * (clearance / thickness - Math.log(g / thickness));
      } else {
        stiffness = modulus / thickness;
        p = -stiffness * clearance;
        if (withEnergy) energy += (nodeArea * stiffness * clearance * clearance) / 2;
      }
      pressure[i] = p;
      normalZ[i] = nz;

      // By z the node moves along ẑ, by elevation along e = −up·a + back·v, by lateral along (−oz, 0, ox); and the second derivatives
      // of its place: ∂²/∂e² = −q (the offset without its part across), ∂²/∂e∂l = (−ez, 0, ex), ∂²/∂l² = −(ox, 0, oz).
      const ex = back * vx - nodeUp * ax;
      const ey = back * ce - nodeUp * se;
      const ez = back * vz - nodeUp * az;
      const hex = xx * ex + xy * ey + xz * ez;
      const hey = xy * ex + yy * ey + yz * ez;
      const hez = xz * ex + yz * ey + zz * ez;
      const lx = xz * ox - xx * oz;
      const lz = zz * ox - xz * oz;
      const de = nx * ex + ny * ey + nz * ez;
      const dl = nz * ox - nx * oz;
      const load = nodeArea * p;
      const stiff = nodeArea * stiffness;
      gz -= load * nz;
      ge -= load * de;
      gl -= load * dl;
      const stiffZ = stiff * nz;
      const stiffE = stiff * de;
      hzz += stiffZ * nz - load * zz;
      hze += stiffZ * de - load * hez;
      hzl += stiffZ * dl - load * lz;
      hee += stiffE * de - load * (ex * hex + ey * hey + ez * hez - nx * (ox - nodeAcross * cl) - ny * oy - nz * (oz - nodeAcross * sl));
      hel += stiffE * dl - load * (ox * hez - oz * hex + nz * ex - nx * ez);
      hll += stiff * dl * dl - load * (ox * lz - oz * lx - nx * ox - nz * oz);
    }
    value[ENERGY] = energy;
    value[BY_Z] = gz;
    value[BY_ELEVATION] = ge;
    value[BY_LATERAL] = gl;
    value[ZZ] = hzz;
    value[ZE] = hze;
    value[ZL] = hzl;
    value[EE] = hee;
    value[EL] = hel;
    value[LL] = hll;
    value[LEAST_CLEARANCE] = leastClearance;
    value[LEAST_GAP] = leastGap;
    value[ENDS_TOUCHED] = endsTouched;
    value[LEAST_TIGHTNESS] = leastTightness;
    return SUMMED;
  }

  return {
    nodes,
    value,
    gap,
    pressure,
    normalZ,
    readOff,
    sumNear,
    evaluate(x, y, z, elevation, lateral, withEnergy) {
      readOff(x, y, z, elevation, lateral);
      return sumNear(x, y, z, elevation, lateral, MODEL_REACH_MM, withEnergy) === SUMMED;
    },
    forgetFeet: model.forgetFeet,
    moveLower: model.moveLower,
    replaceMouth(newUpper, newLower, newLips) {
      writeMaterial(newLips, material);
      model.replaceJaws(newUpper, newLower);
    },
  };
}

/** Thickness (mm) of upper and lower lip, then their moduli (N/mm²). */
function writeMaterial(lips: LipsSpec, material: Float64Array): void {
  material[0] = lips.upper.thicknessMm;
  material[1] = lips.lower.thicknessMm;
  material[2] = lips.upper.effectiveModulusKPa / KPA_PER_NEWTON_PER_SQUARE_MM;
  material[3] = lips.lower.effectiveModulusKPa / KPA_PER_NEWTON_PER_SQUARE_MM;
}

/**
 * The blended minimum of two jaws (arch.ts) and its derivatives. `out` holds the nearer jaw's gap and normal at the node, which has
 * moved by `moved` since the model was read off, and receives the blend's gap, normal and second derivatives: weights (1 ± A′)/2 on the
 * two, −A″/2 on the square of their difference.
 */
function blendJaws(numbers: Float64Array, from: number, moved: Float64Array, out: Float64Array): void {
  const mx = moved[0]!;
  const my = moved[1]!;
  const mz = moved[2]!;
  const one = from + FIRST_GAP + SECOND;
  const two = from + OTHER_GAP + SECOND;
  const bx = numbers[two]! * mx + numbers[two + 1]! * my + numbers[two + 2]! * mz;
  const by = numbers[two + 1]! * mx + numbers[two + 3]! * my + numbers[two + 4]! * mz;
  const bz = numbers[two + 2]! * mx + numbers[two + 4]! * my + numbers[two + 5]! * mz;
  let nx = numbers[from + OTHER_GAP + NORMAL]!;
  let ny = numbers[from + OTHER_GAP + NORMAL + 1]!;
  let nz = numbers[from + OTHER_GAP + NORMAL + 2]!;
  const otherGap = numbers[from + OTHER_GAP]! + mx * (nx + bx / 2) + my * (ny + by / 2) + mz * (nz + bz / 2);
  nx += bx;
  ny += by;
  nz += bz;
  const gap = out[0]!;
  const ratio = (otherGap - gap) / JAW_BLEND_MM;
  if (ratio >= 1 || ratio <= -1) {
    if (ratio <= -1) {
      out[0] = otherGap;
      out[NORMAL] = nx;
      out[NORMAL + 1] = ny;
      out[NORMAL + 2] = nz;
    }
    const nearer = ratio <= -1 ? two : one;
    for (let k = 0; k < 6; k++) out[SECOND + k] = numbers[nearer + k]!;
    return;
  }
  const square = ratio * ratio;
  out[0] = (gap + otherGap - JAW_BLEND_MM * (0.375 + square * (0.75 - 0.125 * square))) / 2;
  const lean = ratio * (1.5 - 0.5 * square);
  const ofOne = (1 + lean) / 2;
  const ofTwo = (1 - lean) / 2;
  const bend = -(1.5 - 1.5 * square) / (2 * JAW_BLEND_MM);
  const dx = nx - out[NORMAL]!;
  const dy = ny - out[NORMAL + 1]!;
  const dz = nz - out[NORMAL + 2]!;
  out[NORMAL]! += ofTwo * dx;
  out[NORMAL + 1]! += ofTwo * dy;
  out[NORMAL + 2]! += ofTwo * dz;
  out[SECOND] = ofOne * numbers[one]! + ofTwo * numbers[two]! + bend * dx * dx;
  out[SECOND + 1] = ofOne * numbers[one + 1]! + ofTwo * numbers[two + 1]! + bend * dx * dy;
  out[SECOND + 2] = ofOne * numbers[one + 2]! + ofTwo * numbers[two + 2]! + bend * dx * dz;
  out[SECOND + 3] = ofOne * numbers[one + 3]! + ofTwo * numbers[two + 3]! + bend * dy * dy;
  out[SECOND + 4] = ofOne * numbers[one + 4]! + ofTwo * numbers[two + 4]! + bend * dy * dz;
  out[SECOND + 5] = ofOne * numbers[one + 5]! + ofTwo * numbers[two + 5]! + bend * dz * dz;
}
