/**
 * The gap about every node of a rim to second order: read off the exact closest points at one place of the rim, and good for places
 * near by, where it costs a tenth. Next to the jaws' handover a node keeps a model of either jaw, so that their blend stays exact.
 * What the model leaves out is of third order: docs/numerics.md §6.
 */
import { JAW_BLEND_MM } from './arch';
import { ANSWER_AT_END, ANSWER_GAP, ANSWER_TIGHTNESS, type GapFace, type GapRoom, gapRoom } from './gapFace';
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
  moveLower(jaw: GapFace): void;
  replaceJaws(upper: GapFace, lower: GapFace | null): void;
}

/** `thickerMm` is the thickness of the thicker lip. */
export function createGapModel(
  upperAtFirst: GapFace, lowerAtFirst: GapFace | null, nodes: RimNodes, thickerMm: () => number,
): GapModel {
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
        upper.ask(upperFeet, i, roomOne);
        writeNearer(upper, roomOne, from);
        continue;
      }
      // A gap changes no faster than the point moves: what was known of the other jaw still bounds its gap from below.
      let bound = otherAtLeast[i]! - Math.sqrt(mx * mx + my * my + mz * mz);
      const known = bound === bound;
      const edgeFirst = !known && upper.beyondEdge(py, pz) <= lower.beyondEdge(py, pz);
      const upperFirst = known ? upperNearer[i] === 1 : edgeFirst;
      const jaw = upperFirst ? upper : lower;
      const other = upperFirst ? lower : upper;
      jaw.ask(upperFirst ? upperFeet : lowerFeet, i, roomOne);
      const needed = roomOne.answer[ANSWER_GAP]! + BOTH_WITHIN_MM;
      // So does its edge.
      if (!(bound >= needed)) bound = other.beyondEdge(py, pz);
      if (bound >= needed) {
        writeNearer(jaw, roomOne, from);
        otherAtLeast[i] = bound;
        upperNearer[i] = upperFirst ? 1 : 0;
        continue;
      }
      pointTwo[0] = px;
      pointTwo[1] = py;
      pointTwo[2] = pz;
      other.ask(upperFirst ? lowerFeet : upperFeet, i, roomTwo);
      const away = roomTwo.answer[ANSWER_GAP]! - roomOne.answer[ANSWER_GAP]!;
      const nearerFirst = away >= 0;
      const nearerRoom = nearerFirst ? roomOne : roomTwo;
      const otherRoom = nearerFirst ? roomTwo : roomOne;
      writeNearer(nearerFirst ? jaw : other, nearerRoom, from);
      otherAtLeast[i] = otherRoom.answer[ANSWER_GAP]!;
      upperNearer[i] = nearerFirst === upperFirst ? 1 : 0;
      if (Math.abs(away) < BOTH_WITHIN_MM) {
        writeDerivatives(nearerFirst ? other : jaw, otherRoom, numbers, from + OTHER_GAP, limit);
        numbers[from + BOTH] = 1;
        if (Math.abs(away) < JAW_BLEND_MM && otherRoom.answer[ANSWER_AT_END] === 1) numbers[from + AT_END] = 1;
      }
    }
  }

  function writeNearer(jaw: GapFace, room: GapRoom, from: number): void {
    writeDerivatives(jaw, room, numbers, from + FIRST_GAP, limit);
    numbers[from + TIGHTNESS] = room.answer[ANSWER_TIGHTNESS]!;
    numbers[from + AT_END] = room.answer[ANSWER_AT_END]!;
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
      const moved = lower === null ? NaN : jaw.shiftedFrom(lower);
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

/** A face's gap with its derivatives in the player's frame. A gap of `limit` or more only says that the node is not in touch. */
function writeDerivatives(face: GapFace, room: GapRoom, numbers: Float64Array, from: number, limit: Float64Array): void {
  const gap = room.answer[ANSWER_GAP]!;
  numbers[from] = gap;
  if (gap >= limit[0]!) {
    numbers.fill(0, from + NORMAL, from + SECOND + 6);
    return;
  }
  face.writeNormal(room, numbers, from + NORMAL);
  face.writeBends(room, numbers, from + SECOND);
}
