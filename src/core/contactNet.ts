/**
 * The net on which a seat is balanced: Gauss points laid only where the rim presses, between the places where the pressure has a
 * kink — the line where one jaw hands over to the other, the lip line, and lift-off along each ray. Away from its kinks the
 * pressure is smooth, so few points do what a fixed net needs thousands for (docs/numerics.md §6, tests/reference/sampling.test.ts).
 * A net belongs to the pose it was laid at; a kink that has moved by δ since costs only about δ².
 */
import { gaussLegendre } from './gauss';
import { ANSWER_GAP, type GapFace, type GapRoom, gapRoom } from './gapFace';
import { createHandover } from './handover';
import { pressedStretch } from './pressedStretch';
import { type RimNodes, annulusArea, contourHeight, contourSlope, layUniformNodes } from './rim';
import type { LipsSpec, RimSpec } from './specs';

export interface ContactNet {
  /** Contents change with every `lay`; a node out of contact has area 0. */
  readonly nodes: RimNodes;
  /** Lays the net for a rim centred at (x, y, z) with these angles in radians. */
  lay(x: number, y: number, z: number, elevation: number, lateral: number): void;
  forgetFeet(): void;
  /** Puts the lower jaw elsewhere. */
  moveLower(jaw: GapFace): void;
}

/**
 * Rays in an arc: one that reaches the top or the bottom of the rim, a short one between two kinks, one that a handover running along the rim
 * cuts in two, and the cap beyond it.
 */
const LONG_RULE = 0;
const SHORT_RULE = 1;
const SPLIT_RULE = 2;
const CAP_RULE = 3;
const RAYS = [14, 4, 8, 6] as const;
/** Arcs a side: cap, split arc, and two either side of the lip line. Pieces of rays in them; a split ray is two. */
const MOST_ARCS = 4;
const MOST_PIECES = RAYS[CAP_RULE] + 2 * RAYS[SPLIT_RULE] + 2 * RAYS[LONG_RULE];
/** Gauss points along each piece of a ray; and on a side whose handover runs along the rim, where other bends of the gap do so too. */
const POINTS = 3;
const POINTS_ALONG = 5;
/** Beyond this angle a handover runs along the rim rather than across it, radians. */
const STEEPEST_CROSSING = 1.1;
/** Numbers of a pose. */
const POSE_SIZE = 5;
const EVEN_AZIMUTHS = 256;
const EVEN_RINGS = 8;
const QUARTER = Math.PI / 2;

export function createContactNet(
  upper: GapFace, lowerAtFirst: GapFace | null, rim: RimSpec, lips: LipsSpec, lipLineMm: number,
): ContactNet {
  let lower = lowerAtFirst;
  const lipsAlike =
    lips.upper.thicknessMm === lips.lower.thicknessMm && lips.upper.effectiveModulusKPa === lips.lower.effectiveModulusKPa;
  const inner = rim.innerDiameterMm / 2;
  const outer = rim.outerDiameterMm / 2;
  const middle = (inner + outer) / 2;
  const rules = RAYS.map((rays) => {
    const { nodes: places, weights } = gaussLegendre(rays);
    return { parts: Float64Array.from(places, (place) => (1 + place) / 2), weights: Float64Array.from(weights, (weight) => weight / 2) };
  });
  const usual = radialRule(POINTS);
  const along = radialRule(POINTS_ALONG);
  const even = layUniformNodes(rim, lipLineMm, EVEN_AZIMUTHS, EVEN_RINGS);
  const count = Math.max(2 * MOST_PIECES * POINTS_ALONG, even.count);
  const nodes = {
    count,
    across: new Float64Array(count),
    up: new Float64Array(count),
    recede: new Float64Array(count),
    area: new Float64Array(count),
    underUpperLip: new Uint8Array(count),
    totalArea: annulusArea(rim),
  };
  const { across, up, recede, area, underUpperLip } = nodes;
  const room: GapRoom = gapRoom();
  const { point } = room;
  const pose = { x: 0, y: 0, z: 0, elevation: 0, lateral: 0, ce: 1, se: 0, cl: 1, sl: 0 };
  // Slots of the handover: three circles on either side, then the rays that it may cut.
  const handover = createHandover(upper, lower, rim, pose, 6 + 2 * RAYS[SPLIT_RULE]);
  const upperFeet = new Float64Array(6 * MOST_PIECES).fill(NaN);
  const lowerFeet = new Float64Array(6 * MOST_PIECES).fill(NaN);
  const circles = [inner, middle, outer] as const;
  /** A piece of a ray, from one radius to another, and the part of it that presses. Probes stand at its two ends and its middle. */
  const piece = new Float64Array(2);
  const stretch = new Float64Array(2);
  const clearances = new Float64Array(3);
  /** Where each piece was probed last: pose (x, y, z, elevation, lateral), ends, and the three angles and clearances found there. */
  const probedPose = new Float64Array(2 * MOST_PIECES * POSE_SIZE).fill(NaN);
  const probedEnds = new Float64Array(4 * MOST_PIECES);
  const probedAngles = new Float64Array(6 * MOST_PIECES);
  const probedClearances = new Float64Array(6 * MOST_PIECES);
  /** How far a node of the rim stands from its centre at most, mm. */
  const reach = Math.hypot(outer, contourHeight(rim, inner), contourHeight(rim, outer));
  /** A step along a ray moves a point by at most this many steps. */
  const steepening = Math.hypot(1, contourSlope(rim, inner), contourSlope(rim, outer));
  /** A side's arcs from bottom to top: their ends on the three circles, three numbers an end, and their rules. */
  const ends = new Float64Array(3 * (MOST_ARCS + 1));
  const ruleOf = new Uint8Array(MOST_ARCS);
  /** What the arcs of either side were last, as a number: where that changes, pieces have changed places. */
  const layouts = new Int32Array(2);
  const handsOver = new Float64Array(3);
  const lip = Float64Array.from(circles, (radius) => angleAt(lipLineMm, radius));
  /** Where an arc begins and how far it goes, on the three circles and on those of a whole ray's points. */
  const arcLow = new Float64Array(3);
  const arcSpan = new Float64Array(3);
  const wholeLow = new Float64Array(POINTS_ALONG);
  const wholeSpan = new Float64Array(POINTS_ALONG);
  /** The side being laid: its rule along rays, and the next node. */
  let radial = usual;
  let nextNode = 0;

  function radialRule(points: number) {
    const { nodes: places, weights } = gaussLegendre(points);
    // Where the points of a ray stand that presses all along, how far out in the rim's width (−1 to 1), and how far the rim recedes.
    const radii = places.map((place) => Math.sqrt((inner * inner * (1 - place) + outer * outer * (1 + place)) / 2));
    return {
      places: Float64Array.from(places),
      weights: Float64Array.from(weights),
      radii: Float64Array.from(radii),
      across: Float64Array.from(radii, (radius) => (radius - middle) / (outer - middle)),
      recede: Float64Array.from(radii, (radius) => contourHeight(rim, radius)),
    };
  }

  function lay(x: number, y: number, z: number, elevation: number, lateral: number): void {
    pose.x = x;
    pose.y = y;
    pose.z = z;
    pose.elevation = elevation;
    pose.lateral = lateral;
    pose.ce = Math.cos(elevation);
    pose.se = Math.sin(elevation);
    pose.cl = Math.cos(lateral);
    pose.sl = Math.sin(lateral);
    nextNode = 0;
    const left = laySide(0, 0);
    if (left < 0 || laySide(1, left) < 0) layEvenly();
    else nodes.count = nextNode;
  }

  /** All of the rim, evenly and densely: where the handover is too tangled for few rays to follow. */
  function layEvenly(): void {
    nodes.count = even.count;
    across.set(even.across);
    up.set(even.up);
    recede.set(even.recede);
    area.set(even.area);
    underUpperLip.set(even.underUpperLip);
  }

  /** Lays one side (0 left, 1 right) from a piece on; returns the next piece, or −1 where it cannot be laid in rays. */
  function laySide(slot: number, firstPiece: number): number {
    const side = slot === 0 ? 1 : -1;
    const arcs = writeArcs(slot, side);
    let index = firstPiece;
    for (let arc = 0; arc < arcs; arc++) {
      const { parts, weights } = rules[ruleOf[arc]!]!;
      for (let circle = 0; circle < 3; circle++) {
        arcLow[circle] = ends[3 * arc + circle]!;
        arcSpan[circle] = ends[3 * arc + 3 + circle]! - arcLow[circle]!;
      }
      for (let step = 0; step < radial.places.length; step++) {
        wholeLow[step] = parabola(arcLow, radial.across[step]!);
        wholeSpan[step] = parabola(arcSpan, radial.across[step]!);
      }
      const split = ruleOf[arc] === SPLIT_RULE;
      for (let ray = 0; ray < parts.length; ray++) {
        const part = parts[ray]!;
        piece[0] = inner;
        piece[1] = outer;
        if (split) {
          const cut = handover.radiusOn(side, arcLow[0]! + part * arcSpan[0]!, 6 + slot * RAYS[SPLIT_RULE] + ray);
          piece[1] = cut;
          layPiece(index++, part, weights[ray]!, side);
          piece[0] = cut;
          piece[1] = outer;
        }
        layPiece(index++, part, weights[ray]!, side);
      }
    }
    return arcs === 0 ? -1 : index;
  }

  /** Writes a side's arcs to `ends` and `ruleOf`; returns how many there are, 0 where no rays can follow the handover. */
  function writeArcs(slot: number, side: number): number {
    let crossed = 0;
    for (let circle = 0; circle < 3; circle++) {
      // A single surface is broken at the horizontal, for symmetry.
      const angle = lower === null ? 0 : handover.angleOn(side, circles[circle]!, 3 * slot + circle);
      handsOver[circle] = angle;
      if (Math.abs(angle) < STEEPEST_CROSSING) crossed++;
    }
    const onInner = handsOver[0]!;
    const onMiddle = handsOver[1]!;
    const onOuter = handsOver[2]!;
    ends.fill(-QUARTER, 0, 3);
    radial = usual;
    let layout = 0;
    let arcs: number;
    if (crossed === 3) {
      arcs = lipsAlike ? 2 : 3;
      for (let circle = 0; circle < 3; circle++) {
        const angle = handsOver[circle]!;
        if (lipsAlike) ends[3 + circle] = angle;
        else {
          ends[3 + circle] = Math.min(angle, lip[circle]!);
          ends[6 + circle] = Math.max(angle, lip[circle]!);
          layout = 2 * layout + (angle < lip[circle]! ? 1 : 0);
        }
      }
      ruleOf.fill(LONG_RULE, 0, arcs);
      if (!lipsAlike) ruleOf[1] = SHORT_RULE;
    } else if (Math.abs(onOuter) === QUARTER && onInner === onOuter && onMiddle === onOuter) {
      layout = 10;
      arcs = addLongArcs(0);
    } else if (onInner <= onMiddle && onMiddle <= onOuter && onOuter < QUARTER) {
      // Along the bottom: a cap beyond where the handover crosses the inner edge, then the arc that it cuts.
      if (!lipsAlike && !(Math.min(lip[0]!, lip[1]!, lip[2]!) > onOuter)) return 0;
      layout = 11;
      radial = along;
      arcs = addStraight(0, onInner, CAP_RULE);
      arcs = addStraight(arcs, onOuter, SPLIT_RULE);
      arcs = addLongArcs(arcs);
    } else if (onInner >= onMiddle && onMiddle >= onOuter && onOuter > -QUARTER) {
      if (!lipsAlike && !(Math.max(lip[0]!, lip[1]!, lip[2]!) < onOuter)) return 0;
      layout = 12;
      radial = along;
      arcs = addLongArcs(0, onOuter);
      arcs = addStraight(arcs, onInner, SPLIT_RULE);
      arcs = addStraight(arcs, QUARTER, CAP_RULE);
    } else return 0; // Also where an angle is NaN: all comparisons fail.
    ends.fill(QUARTER, 3 * arcs, 3 * arcs + 3);
    if (layout !== layouts[slot]) probedPose.fill(NaN);
    layouts[slot] = layout;
    return arcs;
  }

  /** Adds an arc as number `arc` that ends at the same angle on all circles; returns the next one's number. */
  function addStraight(arc: number, to: number, rule: number): number {
    ruleOf[arc] = rule;
    ends.fill(to, 3 * arc + 3, 3 * arc + 6);
    return arc + 1;
  }

  /** Adds the arcs from where the last one ends up to an angle, broken at the lip line. */
  function addLongArcs(arc: number, to = QUARTER): number {
    let next = arc;
    if (!lipsAlike) {
      ruleOf[next] = LONG_RULE;
      ends.set(lip, 3 * next + 3);
      next++;
    }
    return addStraight(next, to, LONG_RULE);
  }

  /** Lays the points of one piece of a ray, `part` of the way through its arc. */
  function layPiece(index: number, part: number, weight: number, side: number): void {
    if (stillPresses(index, part) || probedPresses(index, part, side)) placeOnRay(part, weight, side);
    else area.fill(0, nextNode, nextNode + radial.places.length);
    nextNode += radial.places.length;
  }

  /** Whether a piece must still press all along, as no clearance can have grown by more than the rim has moved since it was probed. */
  function stillPresses(index: number, part: number): boolean {
    const at = index * POSE_SIZE;
    const dx = pose.x - probedPose[at]!;
    const dy = pose.y - probedPose[at + 1]!;
    const dz = pose.z - probedPose[at + 2]!;
    const turned = Math.abs(pose.elevation - probedPose[at + 3]!) + Math.abs(pose.lateral - probedPose[at + 4]!);
    const longer = Math.max(Math.abs(piece[0]! - probedEnds[2 * index]!), Math.abs(piece[1]! - probedEnds[2 * index + 1]!));
    const moved = Math.sqrt(dx * dx + dy * dy + dz * dz) + reach * turned + steepening * longer;
    for (let probe = 0; probe < 3; probe++) {
      const turnedOn = outer * Math.abs(angleOf(probe, part) - probedAngles[3 * index + probe]!);
      if (!(probedClearances[3 * index + probe]! + moved + turnedOn < 0)) return false;
    }
    stretch[0] = piece[0]!;
    stretch[1] = piece[1]!;
    return true;
  }

  /** Probes a piece; true where some of it presses, left in `stretch`. */
  function probedPresses(index: number, part: number, side: number): boolean {
    const { ce, se, cl, sl } = pose;
    for (let probe = 0; probe < 3; probe++) {
      const radius = piece[0]! + ((piece[1]! - piece[0]!) * probe) / 2;
      const angle = angleOf(probe, part);
      const onAcross = side * radius * Math.cos(angle);
      const onUp = radius * Math.sin(angle);
      const back = contourHeight(rim, radius);
      point[0] = pose.x + onAcross * cl + onUp * se * sl - back * sl * ce;
      point[1] = pose.y + onUp * ce + back * se;
      point[2] = pose.z + onAcross * sl - onUp * se * cl + back * cl * ce;
      probeClearance(3 * index + probe, probe, onUp >= lipLineMm ? lips.upper.thicknessMm : lips.lower.thicknessMm);
      probedAngles[3 * index + probe] = angle;
      probedClearances[3 * index + probe] = clearances[probe]!;
    }
    const at = index * POSE_SIZE;
    probedPose[at] = pose.x;
    probedPose[at + 1] = pose.y;
    probedPose[at + 2] = pose.z;
    probedPose[at + 3] = pose.elevation;
    probedPose[at + 4] = pose.lateral;
    probedEnds[2 * index] = piece[0]!;
    probedEnds[2 * index + 1] = piece[1]!;
    return pressedStretch(piece, clearances, stretch);
  }

  /** Azimuth of a probe: on the three circles, or (a cut ray is straight) the same all along. */
  const angleOf = (probe: number, part: number): number => arcLow[probe]! + part * arcSpan[probe]!;

  /** Clearance over the lip at the placed point, to `clearances[probe]`. */
  function probeClearance(index: number, probe: number, thickness: number): void {
    let nearer = upper;
    let other: GapFace | null = null;
    let bound = Infinity;
    if (lower !== null) {
      const overUpper = upper.beyondEdge(point[1]!, point[2]!);
      const overLower = lower.beyondEdge(point[1]!, point[2]!);
      const upperFirst = overUpper <= overLower;
      nearer = upperFirst ? upper : lower;
      other = upperFirst ? lower : upper;
      bound = upperFirst ? overLower : overUpper;
    }
    nearer.ask(nearer === upper ? upperFeet : lowerFeet, index, room);
    let gap = room.answer[ANSWER_GAP]!;
    if (other !== null && bound < gap) {
      other.ask(other === upper ? upperFeet : lowerFeet, index, room);
      gap = Math.min(gap, room.answer[ANSWER_GAP]!);
    }
    clearances[probe] = gap - thickness;
  }

  /** Lays a piece's points over its `stretch`. */
  function placeOnRay(part: number, weight: number, side: number): void {
    const whole = stretch[0] === inner && stretch[1] === outer;
    const from2 = stretch[0]! * stretch[0]!;
    const to2 = stretch[1]! * stretch[1]!;
    const { places, weights, radii, recede: receded } = radial;
    for (let step = 0; step < places.length; step++) {
      const i = nextNode + step;
      let radius = radii[step]!;
      let angle = wholeLow[step]! + part * wholeSpan[step]!;
      let span = wholeSpan[step]!;
      let back = receded[step]!;
      if (!whole) {
        radius = Math.sqrt(from2 + ((to2 - from2) * (1 + places[step]!)) / 2);
        const s = (radius - middle) / (outer - middle);
        span = parabola(arcSpan, s);
        angle = parabola(arcLow, s) + part * span;
        back = contourHeight(rim, radius);
      }
      const height = radius * Math.sin(angle);
      across[i] = side * radius * Math.cos(angle);
      up[i] = height;
      recede[i] = back;
      area[i] = Math.max(0, ((to2 - from2) / 4) * weights[step]! * weight * span);
      underUpperLip[i] = height >= lipLineMm ? 1 : 0;
    }
  }

  return {
    nodes,
    lay,
    moveLower(jaw) {
      lower = jaw;
      handover.moveLower(jaw);
      probedPose.fill(NaN);
    },
    forgetFeet() {
      handover.forget();
      for (const feet of [upperFeet, lowerFeet, probedPose]) feet.fill(NaN);
    },
  };
}

/** Angle at which a height is met on the circle of a radius; beyond the circle, its top or bottom. */
const angleAt = (height: number, radius: number): number =>
  height >= radius ? QUARTER : height <= -radius ? -QUARTER : Math.asin(height / radius);

/** The parabola through values at −1, 0 and 1. */
function parabola(values: Float64Array, s: number): number {
  const a = values[0]!;
  const b = values[1]!;
  const c = values[2]!;
  return b + s * ((c - a) / 2 + s * ((a + c) / 2 - b));
}
