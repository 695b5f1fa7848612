/**
 * The seat's energy Σ area·w(gap) of a pose, with exact gradient and Hessian: the hot loop. Nothing is allocated in it.
 * Unknowns in this order: depth z of the rim's centre (mm), elevation, lateral (radians). The force's own part F·z is added by
 * the solver. Derivation: docs/numerics.md §6.
 */
import { JAW_BLEND_MM } from './arch';
import { GUMWARD, type GapRoom, HINGE_COS, HINGE_SIN, type Jaw, LEAST_DENOMINATOR, beyondEdge, gapAlone, gapRoom } from './jawGap';
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
  /** Puts the lower jaw elsewhere. */
  moveLower(jaw: Jaw): void;
  /** Another mouth under the same nodes; the lips' law stays. */
  replaceMouth(upper: Jaw, lower: Jaw | null, lips: LipsSpec): void;
}

/** Derivatives of one jaw's gap along the unknowns: first (z, e, l), then second (zz, ze, zl, ee, el, ll). */
const PROJECTED = 9;
/** What `projectFeet` is told of a node: offset x and z, elevation's direction e, and q (x, y, z). */
const NODE_SIZE = 8;

export function createSeatEnergy(upperAtFirst: Jaw, lowerAtFirst: Jaw | null, lips: LipsSpec, nodes: RimNodes): SeatEnergy {
  let upper = upperAtFirst;
  let lower = lowerAtFirst;
  // A contact net may lay fewer nodes than it has room for, and other ones each time.
  const count = nodes.area.length;
  const { across, up, recede, area, underUpperLip } = nodes;
  const value = new Float64Array(VALUE_SIZE);
  const gap = new Float64Array(count);
  const pressure = new Float64Array(count);
  const normalZ = new Float64Array(count);
  const upperFeet = new Float64Array(count).fill(NaN);
  const lowerFeet = new Float64Array(count).fill(NaN);
  const roomOne: GapRoom = gapRoom();
  const roomTwo: GapRoom = gapRoom();
  const pointOne = roomOne.point;
  const pointTwo = roomTwo.point;
  const node = new Float64Array(NODE_SIZE);
  const one = new Float64Array(PROJECTED);
  const two = new Float64Array(PROJECTED);
  const stiffening = lips.law === 'stiffening';
  const material = new Float64Array(4);
  writeMaterial(lips, material);

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

    const upperThickness = material[0]!;
    const lowerThickness = material[1]!;
    const upperModulus = material[2]!;
    const lowerModulus = material[3]!;
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

      pointOne[0] = px;
      pointOne[1] = py;
      pointOne[2] = pz;
      let jaw = upper;
      let feet = roomOne;
      let g: number;
      // In the blend: the other jaw's gap less this one's, over the blend.
      let ratio = 1;
      if (lower === null) {
        gapAlone(upper, upperFeet, i, roomOne);
        g = roomOne.profile[0]!;
      } else {
        const overUpper = beyondEdge(upper, py, pz);
        const overLower = beyondEdge(lower, py, pz);
        const upperFirst = overUpper <= overLower;
        if (!upperFirst) jaw = lower;
        gapAlone(jaw, upperFirst ? upperFeet : lowerFeet, i, roomOne);
        g = roomOne.profile[0]!;
        // The edge is a lower bound of the other jaw's gap: most nodes need not ask further.
        if ((upperFirst ? overLower : overUpper) < g + JAW_BLEND_MM) {
          const other = upperFirst ? lower : upper;
          pointTwo[0] = px;
          pointTwo[1] = py;
          pointTwo[2] = pz;
          gapAlone(other, upperFirst ? lowerFeet : upperFeet, i, roomTwo);
          const otherGap = roomTwo.profile[0]!;
          ratio = (otherGap - g) / JAW_BLEND_MM;
          if (ratio <= -1) {
            jaw = other;
            feet = roomTwo;
            g = otherGap;
          } else if (ratio < 1) {
            const square = ratio * ratio;
            g = (g + otherGap - JAW_BLEND_MM * (0.375 + square * (0.75 - 0.125 * square))) / 2;
          }
        }
      }
      const blending = ratio > -1 && ratio < 1;
      gap[i] = g;
      if (g < leastGap) leastGap = g;
      const clearance = g - thickness;
      if (clearance < leastClearance) leastClearance = clearance;
      if (clearance >= 0) {
        pressure[i] = 0;
        normalZ[i] = 0;
        continue;
      }
      const tightness = tightnessOf(feet);
      if (tightness < leastTightness) leastTightness = tightness;
      if (standsAtEnd(feet) || (blending && standsAtEnd(roomTwo))) endsTouched++;

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

      node[0] = ox;
      node[1] = oz;
      node[2] = ex;
      node[3] = ey;
      node[4] = ez;
      node[5] = ox - nodeAcross * cl;
      node[6] = oy;
      node[7] = oz - nodeAcross * sl;
      projectFeet(jaw, feet, node, one);
      if (blending) {
        projectFeet(jaw === upper && lower !== null ? lower : upper, roomTwo, node, two);
        blend(one, two, ratio);
      }
      normalZ[i] = one[0]!;
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
    moveLower(jaw) {
      lower = jaw;
    },
    replaceMouth(newUpper, newLower, newLips) {
      upper = newUpper;
      lower = newLower;
      writeMaterial(newLips, material);
    },
    forgetFeet() {
      upperFeet.fill(NaN);
      lowerFeet.fill(NaN);
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
 * Carries one jaw's gap derivatives over to the unknowns: gradient N·∂P, and Σ bend (T·∂P)(T·∂P′) + N·∂²P. By z the node moves
 * along ẑ, by elevation along e = (ex, ey, ez), by lateral along −ŷ × offset = (−oz, 0, ox); ∂²P/∂e² = −q (q: the offset's part in the
 * up–axis plane), ∂²P/∂e∂l = −ŷ × e, ∂²P/∂l² = −horizontal offset. All is done in the foot's own directions: n and t along and
 * across the form's normal, y up, turned back by the hinge first.
 */
function projectFeet(jaw: Jaw, feet: GapRoom, node: Float64Array, out: Float64Array): void {
  const ox = node[0]!;
  const oz = node[1]!;
  const ex = node[2]!;
  const ey = node[3]!;
  const ez = node[4]!;
  const qx = node[5]!;
  const qy = node[6]!;
  const qz = node[7]!;
  const form = feet.form;
  const profile = feet.profile;
  const nx = form[1]!;
  const nz = form[2]!;
  const bendForm = form[3]!;
  const nd = profile[1]!;
  const nh = jaw.place[GUMWARD]! * profile[2]!;
  const bendV = profile[3]!;
  const denominator = 1 + form[0]! * bendForm;
  const bendH = (nd * bendForm) / (denominator > LEAST_DENOMINATOR ? denominator : LEAST_DENOMINATOR);
  const cos = jaw.place[HINGE_COS]!;
  const sin = jaw.place[HINGE_SIN]!;
  // Each displacement's height and forward parts in the jaw's own frame: y' = y·cos + z·sin, z' = z·cos − y·sin.
  const eUp = ey * cos + ez * sin;
  const eForward = ez * cos - ey * sin;
  const lUp = ox * sin;
  const lForward = ox * cos;
  const qUp = qy * cos + qz * sin;
  const qForward = qz * cos - qy * sin;
  // Second derivatives −ŷ × e = (−ez, 0, ex) and −(ox, 0, oz).
  const elUp = ex * sin;
  const elForward = ex * cos;
  const llUp = oz * sin;
  const llForward = oz * cos;
  const zAlong = nz * cos;
  const eAlong = nx * ex + nz * eForward;
  const lAlong = nz * lForward - nx * oz;
  const gz = nd * zAlong + nh * sin;
  const tz = nd * sin - nh * zAlong;
  const te = nd * eUp - nh * eAlong;
  const tl = nd * lUp - nh * lAlong;
  const hz = -nx * cos;
  const he = nz * ex - nx * eForward;
  const hl = -nz * oz - nx * lForward;
  out[0] = gz;
  out[1] = nd * eAlong + nh * eUp;
  out[2] = nd * lAlong + nh * lUp;
  out[3] = bendV * tz * tz + bendH * hz * hz;
  out[4] = bendV * tz * te + bendH * hz * he;
  out[5] = bendV * tz * tl + bendH * hz * hl;
  out[6] = bendV * te * te + bendH * he * he - nd * (nx * qx + nz * qForward) - nh * qUp;
  out[7] = bendV * te * tl + bendH * he * hl + nd * (nz * elForward - nx * ez) + nh * elUp;
  out[8] = bendV * tl * tl + bendH * hl * hl - nd * (nx * ox + nz * llForward) - nh * llUp;
}

/**
 * Second-derivative rule of the blended minimum (arch.ts): weights (1 ± A′)/2 on the two and −A″/2 on the square of their difference,
 * `ratio` being that difference over the blend.
 */
function blend(one: Float64Array, two: Float64Array, ratio: number): void {
  const square = ratio * ratio;
  const lean = ratio * (1.5 - 0.5 * square);
  const bend = -(1.5 - 1.5 * square) / (2 * JAW_BLEND_MM);
  const dz = two[0]! - one[0]!;
  const de = two[1]! - one[1]!;
  const dl = two[2]! - one[2]!;
  for (let k = 0; k < PROJECTED; k++) one[k] = ((1 + lean) * one[k]! + (1 - lean) * two[k]!) / 2;
  one[3]! += bend * dz * dz;
  one[4]! += bend * dz * de;
  one[5]! += bend * dz * dl;
  one[6]! += bend * de * de;
  one[7]! += bend * de * dl;
  one[8]! += bend * dl * dl;
}

/** 1 + d·κ at the foot left in `feet`. */
const tightnessOf = (feet: GapRoom): number => 1 + feet.profile[5]! * feet.form[3]!;
const standsAtEnd = (feet: GapRoom): boolean => feet.form[4] === 1;
