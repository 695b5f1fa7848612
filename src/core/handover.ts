/**
 * Where one jaw hands over to the other on a rim: the line on which both gaps are the same. Found as azimuths on circles and, where the
 * line runs along the rim rather than across it, as radii on rays. Azimuths run from −π/2 (bottom) to π/2 (top) on either side.
 */
import { ANSWER_GAP, type GapFace, gapRoom } from './gapFace';
import { contourHeight, contourSlope } from './rim';
import type { RimSpec } from './specs';

/** Where the rim stands, with the cosines and sines of its angles. */
export interface RimPlace {
  x: number;
  y: number;
  z: number;
  elevation: number;
  lateral: number;
  ce: number;
  se: number;
  cl: number;
  sl: number;
}

export interface Handover {
  /**
   * Azimuth at which the upper jaw becomes the nearer one on a circle of one side (+1 the player's left); −π/2 or π/2 where one jaw is nearer
   * all along it, NaN where they change places more than once or the wrong way round. `slot` tells this circle and side from others, to start from its last answer.
   */
  angleOn(side: number, radius: number, slot: number): number;
  /** Radius at which the jaws hand over on the ray of an azimuth; its nearer end where they do not. */
  radiusOn(side: number, angle: number, slot: number): number;
  forget(): void;
  moveLower(jaw: GapFace): void;
}

/** Newton, from the last answer in few steps or else inside a bracket, ends at a step this short, radians or mm: what is left is about its square. */
const SHORT_STEP = 1e-6;
const LONGEST_TURN = 0.3;
/** Parts of half a circle at whose ends one looks whether one jaw is the nearer all along. */
const LOOKS = 8;
const WARM_STEPS = 5;
const BRACKETED_STEPS = 50;
const QUARTER = Math.PI / 2;

/** `slots` is how many circles and rays may be asked about; `place` is read anew at every question. */
export function createHandover(
  upper: GapFace, lowerAtFirst: GapFace | null, rim: RimSpec, place: RimPlace, slots: number,
): Handover {
  let lower = lowerAtFirst;
  const inner = rim.innerDiameterMm / 2;
  const outer = rim.outerDiameterMm / 2;
  const upperFeet = new Float64Array(slots).fill(NaN);
  const lowerFeet = new Float64Array(slots).fill(NaN);
  const last = new Float64Array(slots).fill(NaN);
  const room = gapRoom();
  const { point, answer } = room;
  const one = new Float64Array(3);
  const two = new Float64Array(3);
  /** Upper gap less lower gap at the place last asked about, and its slopes by azimuth and by radius. */
  const miss = { value: 0, byAngle: 0, byRadius: 0 };

  function ask(side: number, radius: number, angle: number, slot: number): void {
    const { ce, se, cl, sl } = place;
    const cos = Math.cos(angle);
    const sin = Math.sin(angle);
    const across = side * radius * cos;
    const up = radius * sin;
    const back = contourHeight(rim, radius);
    point[0] = place.x + across * cl + up * se * sl - back * sl * ce;
    point[1] = place.y + up * ce + back * se;
    point[2] = place.z + across * sl - up * se * cl + back * cl * ce;
    upper.ask(upperFeet, slot, room);
    upper.writeNormal(room, one, 0);
    const upperGap = answer[ANSWER_GAP]!;
    lower!.ask(lowerFeet, slot, room);
    lower!.writeNormal(room, two, 0);
    const nx = one[0]! - two[0]!;
    const ny = one[1]! - two[1]!;
    const nz = one[2]! - two[2]!;
    // The difference of the normals in the rim's own directions: across, up, back.
    const onAcross = nx * cl + nz * sl;
    const onUp = nx * se * sl + ny * ce - nz * se * cl;
    const onBack = ny * se + ce * (nz * cl - nx * sl);
    miss.value = upperGap - answer[ANSWER_GAP]!;
    miss.byAngle = radius * (onUp * cos - onAcross * side * sin);
    miss.byRadius = onAcross * side * cos + onUp * sin + onBack * contourSlope(rim, radius);
  }

  function angleOn(side: number, radius: number, slot: number): number {
    ask(side, radius, -QUARTER, slot);
    const atBottom = miss.value;
    ask(side, radius, QUARTER, slot);
    const atTop = miss.value;
    if (!(atBottom > 0 && atTop < 0)) {
      // One jaw at either end: then it should be the nearer one all along.
      if (atBottom > 0 !== atTop > 0) return NaN;
      for (let turn = 1; turn < LOOKS; turn++) {
        ask(side, radius, -QUARTER + (turn * Math.PI) / LOOKS, slot);
        if (miss.value > 0 !== atTop > 0) return NaN;
      }
      return atTop > 0 ? QUARTER : -QUARTER;
    }
    let angle = last[slot]!;
    for (let turn = 0; angle === angle && turn < WARM_STEPS; turn++) {
      ask(side, radius, angle, slot);
      const move = miss.byAngle < 0 ? -miss.value / miss.byAngle : NaN;
      if (!(Math.abs(move) < LONGEST_TURN && Math.abs(angle + move) < QUARTER)) break;
      angle += move;
      if (Math.abs(move) < SHORT_STEP) return (last[slot] = angle);
    }
    return bracketed(side, radius, slot, false, -QUARTER, QUARTER, 0, true);
  }

  function radiusOn(side: number, angle: number, slot: number): number {
    let known = last[slot]!;
    for (let turn = 0; known === known && turn < WARM_STEPS; turn++) {
      ask(side, known, angle, slot);
      const move = -miss.value / miss.byRadius;
      known += move;
      if (!(known > inner && known < outer)) break;
      if (Math.abs(move) < SHORT_STEP) return (last[slot] = known);
    }
    last[slot] = NaN;
    ask(side, inner, angle, slot);
    const atInner = miss.value;
    ask(side, outer, angle, slot);
    const atOuter = miss.value;
    if (atInner > 0 === atOuter > 0) return Math.abs(atInner) < Math.abs(atOuter) ? inner : outer;
    const guess = inner + ((outer - inner) * atInner) / (atInner - atOuter);
    return bracketed(side, angle, slot, true, inner, outer, guess, atInner > 0);
  }

  /**
   * Newton kept inside a bracket: of azimuths on the circle of radius `fixed` or, `outward`, of radii on the ray of azimuth `fixed`.
   * `positive` says that at `from` the upper gap is the greater.
   */
  function bracketed(
    side: number, fixed: number, slot: number, outward: boolean, from: number, to: number, guess: number, positive: boolean,
  ): number {
    let low = from;
    let high = to;
    let at = guess;
    for (let turn = 0; turn < BRACKETED_STEPS; turn++) {
      if (outward) ask(side, at, fixed, slot);
      else ask(side, fixed, at, slot);
      if (miss.value > 0 === positive) low = at;
      else high = at;
      const newton = at - miss.value / (outward ? miss.byRadius : miss.byAngle);
      const next = newton > low && newton < high ? newton : (low + high) / 2;
      const move = Math.abs(next - at);
      at = next;
      if (move < SHORT_STEP) break;
    }
    return (last[slot] = at);
  }

  return {
    angleOn,
    radiusOn,
    forget() {
      for (const each of [upperFeet, lowerFeet, last]) each.fill(NaN);
    },
    moveLower(jaw) {
      lower = jaw;
    },
  };
}
