/**
 * The seat's energy Σ area·w(gap) of a pose, with exact gradient and Hessian: the hot loop. Nothing is allocated in it.
 * Unknowns in this order: depth z of the rim's centre (mm), elevation, lateral (radians). The force's own part F·z is added by
 * the solver. Derivation: docs/numerics.md §6.
 */
import { JAW_BLEND_MM } from './arch';
import { AT_END, GAP_OUT, type GapRoom, type Jaw, TIGHTNESS, beyondEdge, gapOfJaw, gapRoom } from './jawGap';
import { KPA_PER_NEWTON_PER_SQUARE_MM } from './lips';
import type { RimNodes } from './rim';
import type { LipsSpec } from './specs';

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
export const VALUE_SIZE = 14;

export interface SeatEnergy {
  readonly nodes: RimNodes;
  readonly value: Float64Array;
  /** Gap at every node after `evaluate`, mm. */
  readonly gap: Float64Array;
  /** Pressure (N/mm²) and the z part of the normal at every node after `evaluate`. */
  readonly pressure: Float64Array;
  readonly normalZ: Float64Array;
  /** Evaluates at a pose with the rim's centre at (x, y, z). False where a stiffening lip would be squeezed to nothing. */
  evaluate(x: number, y: number, z: number, elevation: number, lateral: number, withEnergy: boolean): boolean;
  /** Forgets the warm feet. */
  forgetFeet(): void;
}

/** Derivatives of one jaw's gap along the unknowns: first (z, e, l), then second (zz, ze, zl, ee, el, ll). */
const PROJECTED = 9;
/** Beyond this clearance over the lips a node is so far off that its second jaw cannot matter, mm. */
const FAR_OFF_MM = JAW_BLEND_MM;

export function createSeatEnergy(upper: Jaw, lower: Jaw | null, lips: LipsSpec, nodes: RimNodes): SeatEnergy {
  // A contact net may lay fewer nodes than it has room for, and other ones each time.
  const count = nodes.area.length;
  const { across, up, recede, area, underUpperLip } = nodes;
  const value = new Float64Array(VALUE_SIZE);
  const gap = new Float64Array(count);
  const pressure = new Float64Array(count);
  const normalZ = new Float64Array(count);
  const upperFeet = new Float64Array(count).fill(NaN);
  const lowerFeet = new Float64Array(count).fill(NaN);
  const room: GapRoom = gapRoom();
  const first = new Float64Array(GAP_OUT);
  const second = new Float64Array(GAP_OUT);
  const one = new Float64Array(PROJECTED);
  const two = new Float64Array(PROJECTED);
  const stiffening = lips.law === 'stiffening';
  const upperThickness = lips.upper.thicknessMm;
  const lowerThickness = lips.lower.thicknessMm;
  const upperModulus = lips.upper.effectiveModulusKPa / KPA_PER_NEWTON_PER_SQUARE_MM;
  const lowerModulus = lips.lower.effectiveModulusKPa / KPA_PER_NEWTON_PER_SQUARE_MM;

  function evaluate(x: number, y: number, z: number, elevation: number, lateral: number, withEnergy: boolean): boolean {
    const ce = Math.cos(elevation);
    const se = Math.sin(elevation);
    const cl = Math.cos(lateral);
    const sl = Math.sin(lateral);
    // The rim's own directions (frame.ts): across u = (cl, 0, sl), up v = (se·sl, ce, −se·cl), axis a = (−sl·ce, se, cl·ce).
    const vx = se * sl;
    const vz = -se * cl;
    const ax = -sl * ce;
    const az = cl * ce;
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

    const laid = nodes.count;
    for (let i = 0; i < laid; i++) {
      if (area[i] === 0) {
        pressure[i] = 0;
        continue;
      }
      const nodeAcross = across[i]!;
      const nodeUp = up[i]!;
      const back = recede[i]!;
      // Offset of the node from the rim's centre, and its derivative by elevation: −up·a + back·v.
      const ox = nodeAcross * cl + nodeUp * vx + back * ax;
      const oy = nodeUp * ce + back * se;
      const oz = nodeAcross * sl + nodeUp * vz + back * az;
      const ex = back * vx - nodeUp * ax;
      const ey = back * ce - nodeUp * se;
      const ez = back * vz - nodeUp * az;
      const px = x + ox;
      const py = y + oy;
      const pz = z + oz;
      const thickness = underUpperLip[i] === 1 ? upperThickness : lowerThickness;

      let nearFirst = true;
      let blending = false;
      if (lower === null) gapOfJaw(upper, px, py, pz, upperFeet, i, room, first);
      else {
        const overUpper = beyondEdge(upper, py, pz);
        const overLower = beyondEdge(lower, py, pz);
        nearFirst = overUpper <= overLower;
        if (nearFirst) gapOfJaw(upper, px, py, pz, upperFeet, i, room, first);
        else gapOfJaw(lower, px, py, pz, lowerFeet, i, room, first);
        const farther = nearFirst ? overLower : overUpper;
        if (farther < first[0]! + FAR_OFF_MM) {
          if (nearFirst) gapOfJaw(lower, px, py, pz, lowerFeet, i, room, second);
          else gapOfJaw(upper, px, py, pz, upperFeet, i, room, second);
          const difference = second[0]! - first[0]!;
          if (difference <= -JAW_BLEND_MM) first.set(second);
          else blending = difference < JAW_BLEND_MM;
        }
      }

      let g = first[0]!;
      let nz = first[3]!;
      let tightness = first[TIGHTNESS]!;
      let atEnd = first[AT_END]!;
      let weightOne = 1;
      let weightTwo = 0;
      let bend = 0;
      if (blending) {
        const ratio = (second[0]! - g) / JAW_BLEND_MM;
        const square = ratio * ratio;
        const lean = ratio * (1.5 - 0.5 * square);
        weightOne = (1 + lean) / 2;
        weightTwo = (1 - lean) / 2;
        bend = -(1.5 - 1.5 * square) / (2 * JAW_BLEND_MM);
        g = (g + second[0]! - JAW_BLEND_MM * (0.375 + square * (0.75 - 0.125 * square))) / 2;
        nz = weightOne * nz + weightTwo * second[3]!;
        tightness = Math.min(tightness, second[TIGHTNESS]!);
        atEnd = Math.max(atEnd, second[AT_END]!);
      }
      gap[i] = g;
      normalZ[i] = nz;
      if (g < leastGap) leastGap = g;
      const clearance = g - thickness;
      if (clearance < leastClearance) leastClearance = clearance;
      if (clearance >= 0) {
        pressure[i] = 0;
        continue;
      }
      if (tightness < leastTightness) leastTightness = tightness;
      endsTouched += atEnd;

      const modulus = underUpperLip[i] === 1 ? upperModulus : lowerModulus;
      let p: number;
      let stiffness: number;
      if (stiffening) {
        if (g <= 0) {
          value[LEAST_GAP] = g;
          return false;
        }
        p = modulus * (thickness / g - 1);
        stiffness = (modulus * thickness) / (g * g);
        if (withEnergy) energy += area[i]! * modulus * thickness * (clearance / thickness - Math.log(g / thickness));
      } else {
        stiffness = modulus / thickness;
        p = -stiffness * clearance;
        if (withEnergy) energy += (area[i]! * stiffness * clearance * clearance) / 2;
      }
      pressure[i] = p;

      // The node's derivative by lateral is −ŷ × offset = (−oz, 0, ox); by z it is ẑ.
      const qx = ox - nodeAcross * cl;
      const qz = oz - nodeAcross * sl;
      project(first, ox, oz, ex, ey, ez, qx, oy, qz, one);
      if (blending) {
        project(second, ox, oz, ex, ey, ez, qx, oy, qz, two);
        blend(one, two, weightOne, weightTwo, bend);
      }
      const dz = one[0]!;
      const de = one[1]!;
      const dl = one[2]!;
      const load = area[i]! * p;
      const stiff = area[i]! * stiffness;
      gz -= load * dz;
      ge -= load * de;
      gl -= load * dl;
      hzz += stiff * dz * dz - load * one[3]!;
      hze += stiff * dz * de - load * one[4]!;
      hzl += stiff * dz * dl - load * one[5]!;
      hee += stiff * de * de - load * one[6]!;
      hel += stiff * de * dl - load * one[7]!;
      hll += stiff * dl * dl - load * one[8]!;
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
    return true;
  }

  return {
    nodes,
    value,
    gap,
    pressure,
    normalZ,
    evaluate,
    forgetFeet() {
      upperFeet.fill(NaN);
      lowerFeet.fill(NaN);
    },
  };
}

/**
 * Carries one jaw's gap derivatives over to the unknowns: gradient N·∂P, and Σ bend (T·∂P)(T·∂P′) + N·∂²P with
 * ∂²P/∂e² = −q (q: the offset's part in the up–axis plane), ∂²P/∂e∂l = −ŷ × ∂P/∂e, ∂²P/∂l² = −horizontal offset.
 */
function project(
  jaw: Float64Array,
  ox: number,
  oz: number,
  ex: number,
  ey: number,
  ez: number,
  qx: number,
  qy: number,
  qz: number,
  out: Float64Array,
): void {
  const nx = jaw[1]!;
  const ny = jaw[2]!;
  const nz = jaw[3]!;
  const tx = jaw[4]!;
  const ty = jaw[5]!;
  const tz = jaw[6]!;
  const bendV = jaw[7]!;
  const sx = jaw[8]!;
  const sy = jaw[9]!;
  const sz = jaw[10]!;
  const bendH = jaw[11]!;
  const te = tx * ex + ty * ey + tz * ez;
  const tl = tz * ox - tx * oz;
  const s_e = sx * ex + sy * ey + sz * ez;
  const s_l = sz * ox - sx * oz;
  out[0] = nz;
  out[1] = nx * ex + ny * ey + nz * ez;
  out[2] = nz * ox - nx * oz;
  out[3] = bendV * tz * tz + bendH * sz * sz;
  out[4] = bendV * tz * te + bendH * sz * s_e;
  out[5] = bendV * tz * tl + bendH * sz * s_l;
  out[6] = bendV * te * te + bendH * s_e * s_e - nx * qx - ny * qy - nz * qz;
  out[7] = bendV * te * tl + bendH * s_e * s_l + nz * ex - nx * ez;
  out[8] = bendV * tl * tl + bendH * s_l * s_l - nx * ox - nz * oz;
}

/** Second-derivative rule of the blended minimum: weights on the two, and `bend` on the square of their difference. */
function blend(one: Float64Array, two: Float64Array, weightOne: number, weightTwo: number, bend: number): void {
  const dz = two[0]! - one[0]!;
  const de = two[1]! - one[1]!;
  const dl = two[2]! - one[2]!;
  for (let k = 0; k < PROJECTED; k++) one[k] = weightOne * one[k]! + weightTwo * two[k]!;
  one[3]! += bend * dz * dz;
  one[4]! += bend * dz * de;
  one[5]! += bend * dz * dl;
  one[6]! += bend * de * de;
  one[7]! += bend * de * dl;
  one[8]! += bend * dl * dl;
}
