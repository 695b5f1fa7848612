/**
 * The gap about every node of a rim to second order: read off the exact closest points at one place of the rim, and good for places
 * near by, where it costs a tenth. Next to the jaws' handover a node keeps a model of either jaw, so that their blend stays exact.
 * What the model leaves out is of third order: docs/numerics.md §6.
 */
import { JAW_BLEND_MM } from './arch';
import { type GapRoom, HINGE_COS, HINGE_SIN, GUMWARD, type Jaw, LEAST_DENOMINATOR, beyondEdge, gapAlone, gapRoom } from './jawGap';
import type { RimNodes } from './rim';

/**
 * Places in a node's part of `GapModel.numbers`, which begins with where it stood (x, y, z): then gap, normal and second derivatives of
 * the nearer jaw's gap; 1 + d·κ of the foot, 1 where the foot is at an end of the form, 1 where the other jaw counts too; and that jaw's own.
 */
export const FIRST_GAP = 3;
export const TIGHTNESS = 13;
export const AT_END = 14;
export const BOTH = 15;
export const OTHER_GAP = 16;
export const MODEL_SIZE = 26;
/** From `FIRST_GAP` or `OTHER_GAP`: the normal (x, y, z), and the second derivatives (xx, xy, xz, yy, yz, zz). */
export const NORMAL = 1;
export const SECOND = 4;

/** A node further than this from touching is only known to be so; a model may be used that far from where it was read off, mm. */
export const MODEL_REACH_MM = 0.5;
/** The other jaw is looked at where its gap may come this near to the nearer one's, mm. */
const BOTH_WITHIN_MM = 1.5 * JAW_BLEND_MM;

export interface GapModel {
  readonly numbers: Float64Array;
  /** False where the numbers belong to jaws that have been moved or replaced since. */
  readonly current: () => boolean;
  /** Reads the model off at a place of the rim; nodes without area are left out. */
  readOff(x: number, y: number, z: number, elevation: number, lateral: number): void;
  /** Forgets the warm feet. */
  forgetFeet(): void;
  moveLower(jaw: Jaw): void;
  replaceJaws(upper: Jaw, lower: Jaw | null): void;
}

/** `thickerMm` is the thickness of the thicker lip. */
export function createGapModel(upperAtFirst: Jaw, lowerAtFirst: Jaw | null, nodes: RimNodes, thickerMm: () => number): GapModel {
  let upper = upperAtFirst;
  let lower = lowerAtFirst;
  const count = nodes.area.length;
  const { across, up, recede, area } = nodes;
  const numbers = new Float64Array(count * MODEL_SIZE).fill(NaN);
  let current = false;
  const upperFeet = new Float64Array(count).fill(NaN);
  const lowerFeet = new Float64Array(count).fill(NaN);
  /** Where two jaws may count: a lower bound of the further one's gap, and whether the upper is the nearer. */
  const otherAtLeast = new Float64Array(count);
  const upperNearer = new Uint8Array(count);
  /** From this gap on a node is only known not to touch. In an array, as a number handed to a function is boxed. */
  const limit = new Float64Array(1);
  const roomOne = gapRoom();
  const roomTwo = gapRoom();
  const pointOne = roomOne.point;
  const pointTwo = roomTwo.point;

  function readOff(x: number, y: number, z: number, elevation: number, lateral: number): void {
    current = true;
    const ce = Math.cos(elevation);
    const se = Math.sin(elevation);
    const cl = Math.cos(lateral);
    const sl = Math.sin(lateral);
    const vx = se * sl;
    const vz = -se * cl;
    const ax = -sl * ce;
    const az = cl * ce;
    limit[0] = thickerMm() + MODEL_REACH_MM;
    const laid = nodes.count;
    for (let i = 0; i < laid; i++) {
      const from = i * MODEL_SIZE;
      if (area[i] === 0) {
        numbers[from] = NaN;
        continue;
      }
      const nodeAcross = across[i]!;
      const nodeUp = up[i]!;
      const back = recede[i]!;
      const px = x + nodeAcross * cl + nodeUp * vx + back * ax;
      const py = y + nodeUp * ce + back * se;
      const pz = z + nodeAcross * sl + nodeUp * vz + back * az;
      const mx = px - numbers[from]!;
      const my = py - numbers[from + 1]!;
      const mz = pz - numbers[from + 2]!;
      numbers[from] = px;
      numbers[from + 1] = py;
      numbers[from + 2] = pz;
      numbers[from + BOTH] = 0;
      pointOne[0] = px;
      pointOne[1] = py;
      pointOne[2] = pz;
      if (lower === null) {
        gapAlone(upper, upperFeet, i, roomOne);
        writeNearer(upper, roomOne, from);
        continue;
      }
      // A gap changes no faster than the point moves: what was known of the other jaw still bounds its gap from below.
      let bound = otherAtLeast[i]! - Math.sqrt(mx * mx + my * my + mz * mz);
      const known = bound === bound;
      const edgeFirst = !known && beyondEdge(upper, py, pz) <= beyondEdge(lower, py, pz);
      const upperFirst = known ? upperNearer[i] === 1 : edgeFirst;
      const jaw = upperFirst ? upper : lower;
      const other = upperFirst ? lower : upper;
      gapAlone(jaw, upperFirst ? upperFeet : lowerFeet, i, roomOne);
      const needed = roomOne.profile[0]! + BOTH_WITHIN_MM;
      // So does its edge.
      if (!(bound >= needed)) bound = beyondEdge(other, py, pz);
      if (bound >= needed) {
        writeNearer(jaw, roomOne, from);
        otherAtLeast[i] = bound;
        upperNearer[i] = upperFirst ? 1 : 0;
        continue;
      }
      pointTwo[0] = px;
      pointTwo[1] = py;
      pointTwo[2] = pz;
      gapAlone(other, upperFirst ? lowerFeet : upperFeet, i, roomTwo);
      const away = roomTwo.profile[0]! - roomOne.profile[0]!;
      const nearerFirst = away >= 0;
      const nearerRoom = nearerFirst ? roomOne : roomTwo;
      const otherRoom = nearerFirst ? roomTwo : roomOne;
      writeNearer(nearerFirst ? jaw : other, nearerRoom, from);
      otherAtLeast[i] = otherRoom.profile[0]!;
      upperNearer[i] = nearerFirst === upperFirst ? 1 : 0;
      if (Math.abs(away) < BOTH_WITHIN_MM) {
        writeDerivatives(nearerFirst ? other : jaw, otherRoom, numbers, from + OTHER_GAP, limit);
        numbers[from + BOTH] = 1;
        if (Math.abs(away) < JAW_BLEND_MM && otherRoom.form[4] === 1) numbers[from + AT_END] = 1;
      }
    }
  }

  function writeNearer(jaw: Jaw, room: GapRoom, from: number): void {
    writeDerivatives(jaw, room, numbers, from + FIRST_GAP, limit);
    numbers[from + TIGHTNESS] = 1 + room.profile[5]! * room.form[3]!;
    numbers[from + AT_END] = room.form[4]!;
  }

  return {
    numbers,
    current: () => current,
    readOff,
    forgetFeet() {
      current = false;
      otherAtLeast.fill(NaN);
      upperFeet.fill(NaN);
      lowerFeet.fill(NaN);
    },
    moveLower(jaw) {
      current = false;
      const moved = lower === null ? NaN : shiftBetween(lower, jaw);
      for (let i = 0; i < count; i++) otherAtLeast[i]! -= moved;
      lower = jaw;
    },
    replaceJaws(newUpper, newLower) {
      current = false;
      otherAtLeast.fill(NaN);
      upper = newUpper;
      lower = newLower;
    },
  };
}

/** How far a jaw has been shifted without turning, mm: no gap to it changes by more. NaN where it turned or is another. */
function shiftBetween(from: Jaw, to: Jaw): number {
  const same =
    from.curve === to.curve && from.profile === to.profile && from.hingeSin === to.hingeSin && from.armMm === to.armMm;
  return same ? Math.hypot(from.openingMm - to.openingMm, from.forwardMm - to.forwardMm) : NaN;
}

/**
 * One jaw's gap with its derivatives in the player's frame: the normal N, and Σ bend·T·Tᵀ over the two directions of curvature, one in
 * the foot's normal plane and one along the form. A gap of `limit` or more only says that the node is not in touch.
 */
function writeDerivatives(jaw: Jaw, room: GapRoom, numbers: Float64Array, from: number, limit: Float64Array): void {
  const { form, profile } = room;
  const gap = profile[0]!;
  numbers[from] = gap;
  if (gap >= limit[0]!) {
    numbers.fill(0, from + NORMAL, from + SECOND + 6);
    return;
  }
  const place = jaw.place;
  const cos = place[HINGE_COS]!;
  const sin = place[HINGE_SIN]!;
  const nx = form[1]!;
  const nz = form[2]!;
  const bendForm = form[3]!;
  const nd = profile[1]!;
  const nh = place[GUMWARD]! * profile[2]!;
  const bendV = profile[3]!;
  const denominator = 1 + form[0]! * bendForm;
  const bendH = (nd * bendForm) / (denominator > LEAST_DENOMINATOR ? denominator : LEAST_DENOMINATOR);
  // In the jaw's own frame, turned by the hinge: y = y'·cos − z'·sin, z = y'·sin + z'·cos.
  const along = nd * nz;
  const vx = -nh * nx;
  const vAlong = -nh * nz;
  const vy = nd * cos - vAlong * sin;
  const vz = nd * sin + vAlong * cos;
  const hy = nx * sin;
  const hz = -nx * cos;
  numbers[from + NORMAL] = nd * nx;
  numbers[from + NORMAL + 1] = nh * cos - along * sin;
  numbers[from + NORMAL + 2] = nh * sin + along * cos;
  numbers[from + SECOND] = bendV * vx * vx + bendH * nz * nz;
  numbers[from + SECOND + 1] = bendV * vx * vy + bendH * nz * hy;
  numbers[from + SECOND + 2] = bendV * vx * vz + bendH * nz * hz;
  numbers[from + SECOND + 3] = bendV * vy * vy + bendH * hy * hy;
  numbers[from + SECOND + 4] = bendV * vy * vz + bendH * hy * hz;
  numbers[from + SECOND + 5] = bendV * vz * vz + bendH * hz * hz;
}
