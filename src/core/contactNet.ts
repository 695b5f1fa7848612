/**
 * The net on which a seat is balanced: Gauss points laid only where the rim presses, between the places where the pressure has a
 * kink — the line where one jaw hands over to the other, the lip line, and lift-off along each ray. Away from its kinks the
 * pressure is smooth, so few points do what a fixed net needs thousands for (docs/numerics.md §6, tests/reference/sampling.test.ts).
 * A net belongs to the pose it was laid at; a kink that has moved by δ since costs only about δ².
 */
import { gaussLegendre } from './gauss';
import { GAP_OUT, type GapRoom, type Jaw, beyondEdge, gapAlone, gapOfJaw, gapRoom } from './jawGap';
import { type RimNodes, annulusArea, contourHeight, layUniformNodes } from './rim';
import type { LipsSpec, RimSpec } from './specs';

export interface ContactNet {
  /** Contents change with every `lay`; a node out of contact has area 0. */
  readonly nodes: RimNodes;
  /** Lays the net for a rim centred at (x, y, z) with these angles in radians. */
  lay(x: number, y: number, z: number, elevation: number, lateral: number): void;
  forgetFeet(): void;
  /** Puts the lower jaw elsewhere. */
  moveLower(jaw: Jaw): void;
}

/** Rays in an arc that reaches the top or the bottom of the rim, and in a short one between two kinks. */
const OUTER_RAYS = 14;
const INNER_RAYS = 4;
/** Gauss points along each ray. */
const POINTS_A_RAY = 3;
/** Beyond this angle a handover grazes the rim rather than crosses it, radians. */
const STEEPEST_CROSSING = 1.1;
/** Numbers of a pose. */
const POSE_SIZE = 5;
const EVEN_AZIMUTHS = 256;
const EVEN_RINGS = 8;
/**
 * The handover is found by Newton, from a warm angle in few steps or else inside a bracket, until a step is shorter than this, radians:
 * what is then left is about its square.
 */
const HANDOVER_ANGLE = 1e-6;
const LONGEST_HANDOVER_MOVE = 0.3;
const HANDOVER_STEPS = 5;
const BRACKETED_STEPS = 50;
const QUARTER = Math.PI / 2;

export function createContactNet(upper: Jaw, lowerAtFirst: Jaw | null, rim: RimSpec, lips: LipsSpec, lipLineMm: number): ContactNet {
  let lower = lowerAtFirst;
  const lipsAlike =
    lips.upper.thicknessMm === lips.lower.thicknessMm && lips.upper.effectiveModulusKPa === lips.lower.effectiveModulusKPa;
  const inner = rim.innerDiameterMm / 2;
  const outer = rim.outerDiameterMm / 2;
  const middle = (inner + outer) / 2;
  // Kinks a side: the handover (a single surface is broken at the horizontal, for symmetry) and the lip line.
  const kinks = lipsAlike ? 1 : 2;
  const arcsASide = kinks + 1;
  const rules = Array.from({ length: arcsASide }, (_, arc) => {
    const { nodes: places, weights } = gaussLegendre(arc === 0 || arc === kinks ? OUTER_RAYS : INNER_RAYS);
    return { parts: Float64Array.from(places, (place) => (1 + place) / 2), weights: Float64Array.from(weights, (weight) => weight / 2) };
  });
  const raysASide = rules.reduce((sum, rule) => sum + rule.parts.length, 0);
  const radialRule = gaussLegendre(POINTS_A_RAY);
  /** Where the points of a ray stand that presses all along, and how far the rim recedes there. */
  const wholeRadii = radialRule.nodes.map((node) => Math.sqrt((inner * inner * (1 - node) + outer * outer * (1 + node)) / 2));
  const wholeRecede = wholeRadii.map((radius) => contourHeight(rim, radius));
  const wholeAcross = wholeRadii.map((radius) => (radius - middle) / (outer - middle));
  const rayCount = 2 * raysASide * POINTS_A_RAY;
  const even = layUniformNodes(rim, lipLineMm, EVEN_AZIMUTHS, EVEN_RINGS);
  const count = Math.max(rayCount, even.count);
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
  const one = new Float64Array(GAP_OUT);
  const two = new Float64Array(GAP_OUT);
  const probeFeet = [new Float64Array(raysASide * 6).fill(NaN), new Float64Array(raysASide * 6).fill(NaN)] as const;
  const handoverFeet = [new Float64Array(6).fill(NaN), new Float64Array(6).fill(NaN)] as const;
  const handoverWarm = new Float64Array(6).fill(NaN);
  const pose = { x: 0, y: 0, z: 0, elevation: 0, lateral: 0, ce: 1, se: 0, cl: 1, sl: 0 };
  const { point } = room;
  // Probes along a ray stand at its two ends and its middle.
  const probeRadii = [inner, middle, outer] as const;
  const probeRecede = probeRadii.map((radius) => contourHeight(rim, radius));
  const clearances = new Float64Array(3);
  /** Where each ray was probed last: the pose (x, y, z, elevation, lateral), and the three angles and clearances found there. */
  const probedPose = new Float64Array(raysASide * 2 * POSE_SIZE).fill(NaN);
  /** On which circles of a side the lip line stands above the handover, as bits. */
  const orders = new Uint8Array(2);
  const probedAngles = new Float64Array(raysASide * 6);
  const probedClearances = new Float64Array(raysASide * 6);
  /** How far a node of the rim stands from its centre at most, mm. */
  const reach = Math.hypot(outer, Math.max(...probeRecede));
  const breaks = new Float64Array(3 * (arcsASide + 1));
  /** Where an arc begins and how far it goes, on the three probe circles and on those of a whole ray's points. */
  const arcLow = new Float64Array(3);
  const arcSpan = new Float64Array(3);
  const wholeLow = new Float64Array(POINTS_A_RAY);
  const wholeSpan = new Float64Array(POINTS_A_RAY);
  const handover = new Float64Array(6);
  const stretch = new Float64Array(2);

  function placePoint(across: number, up: number, recede: number): void {
    const { ce, se, cl, sl } = pose;
    point[0] = pose.x + across * cl + up * se * sl - recede * sl * ce;
    point[1] = pose.y + up * ce + recede * se;
    point[2] = pose.z + across * sl - up * se * cl + recede * cl * ce;
  }

  /** Clearance over the lip at the placed point, to `clearances[probe]`. */
  function probeClearance(ray: number, probe: number, thickness: number): void {
    const index = 3 * ray + probe;
    let nearer = upper;
    let other: Jaw | null = null;
    let bound = Infinity;
    if (lower !== null) {
      const overUpper = beyondEdge(upper, point[1]!, point[2]!);
      const overLower = beyondEdge(lower, point[1]!, point[2]!);
      const upperFirst = overUpper <= overLower;
      nearer = upperFirst ? upper : lower;
      other = upperFirst ? lower : upper;
      bound = upperFirst ? overLower : overUpper;
    }
    gapAlone(nearer, probeFeet[nearer === upper ? 0 : 1], index, room);
    let gap = room.profile[0]!;
    if (other !== null && bound < gap) {
      gapAlone(other, probeFeet[other === upper ? 0 : 1], index, room);
      gap = Math.min(gap, room.profile[0]!);
    }
    clearances[probe] = gap - thickness;
  }

  /** Upper gap less lower gap at an azimuth of a probe circle; its slope by the azimuth goes to handoverSlope. */
  function handoverMiss(side: number, probe: number, angle: number, slot: number): number {
    const radius = probeRadii[probe]!;
    const cos = Math.cos(angle);
    const sin = Math.sin(angle);
    placePoint(side * radius * cos, radius * sin, probeRecede[probe]!);
    gapOfJaw(upper, point[0]!, point[1]!, point[2]!, handoverFeet[0], slot, room, one);
    gapOfJaw(lower!, point[0]!, point[1]!, point[2]!, handoverFeet[1], slot, room, two);
    const alongAcross = -side * radius * sin;
    const alongUp = radius * cos;
    const { ce, se, cl, sl } = pose;
    handoverSlope =
      (one[1]! - two[1]!) * (alongAcross * cl + alongUp * se * sl) +
      (one[2]! - two[2]!) * alongUp * ce +
      (one[3]! - two[3]!) * (alongAcross * sl - alongUp * se * cl);
    return one[0]! - two[0]!;
  }
  let handoverSlope = 0;

  /** Azimuth at which the jaws hand over on one side of a probe circle; the end where one jaw is nearer all along it. */
  function handoverAngle(side: number, probe: number, slot: number): number {
    let angle = handoverWarm[slot]!;
    for (let turn = 0; angle === angle && turn < HANDOVER_STEPS; turn++) {
      const miss = handoverMiss(side, probe, angle, slot);
      const move = handoverSlope < 0 ? -miss / handoverSlope : NaN;
      if (!(Math.abs(move) < LONGEST_HANDOVER_MOVE && Math.abs(angle + move) < QUARTER)) break;
      angle += move;
      if (Math.abs(move) < HANDOVER_ANGLE) {
        handoverWarm[slot] = angle;
        return angle;
      }
    }
    handoverWarm[slot] = NaN;
    let low = -QUARTER;
    let high = QUARTER;
    if (handoverMiss(side, probe, low, slot) <= 0) return low;
    if (handoverMiss(side, probe, high, slot) >= 0) return high;
    angle = (low + high) / 2;
    for (let turn = 0; turn < BRACKETED_STEPS; turn++) {
      const miss = handoverMiss(side, probe, angle, slot);
      if (miss > 0) low = angle;
      else high = angle;
      const newton = angle - miss / handoverSlope;
      const next = newton > low && newton < high ? newton : (low + high) / 2;
      const move = Math.abs(next - angle);
      angle = next;
      if (move < HANDOVER_ANGLE) break;
    }
    handoverWarm[slot] = angle;
    return angle;
  }

  /** Finds where the jaws hand over on one side of the three probe circles; false where the line does not cross them all alike. */
  function findHandover(side: number, slot: number): boolean {
    let crossed = 0;
    for (let probe = 0; probe < 3; probe++) {
      const angle = lower === null ? 0 : handoverAngle(side, probe, 3 * slot + probe);
      handover[3 * slot + probe] = angle;
      if (Math.abs(angle) < STEEPEST_CROSSING) crossed++;
    }
    const first = handover[3 * slot]!;
    return crossed === 3 || (Math.abs(first) === QUARTER && first === handover[3 * slot + 1] && first === handover[3 * slot + 2]);
  }

  /** Writes the angles of a side's breaks, bottom to top, on the three probe circles: three numbers a break. */
  function writeBreaks(slot: number): void {
    let order = 0;
    for (let probe = 0; probe < 3; probe++) {
      const angle = handover[3 * slot + probe]!;
      breaks[probe] = -QUARTER;
      breaks[3 * arcsASide + probe] = QUARTER;
      if (lipsAlike) breaks[3 + probe] = angle;
      else {
        const lip = angleAt(lipLineMm, probeRadii[probe]!);
        breaks[3 + probe] = Math.min(angle, lip);
        breaks[6 + probe] = Math.max(angle, lip);
        order = 2 * order + (angle < lip ? 1 : 0);
      }
    }
    // The rays between the two kinks lie under the other lip now: what was found of them no longer holds.
    if (order !== orders[slot]) probedPose.fill(NaN);
    orders[slot] = order;
  }

  /** Whether a ray must still press all along it, as no clearance can have grown by more than the rim has moved since it was probed. */
  function stillPresses(ray: number, part: number): boolean {
    const at = ray * POSE_SIZE;
    const dx = pose.x - probedPose[at]!;
    const dy = pose.y - probedPose[at + 1]!;
    const dz = pose.z - probedPose[at + 2]!;
    const turned = Math.abs(pose.elevation - probedPose[at + 3]!) + Math.abs(pose.lateral - probedPose[at + 4]!);
    const moved = Math.sqrt(dx * dx + dy * dy + dz * dz) + reach * turned;
    for (let probe = 0; probe < 3; probe++) {
      const index = 3 * ray + probe;
      const along = outer * Math.abs(arcLow[probe]! + part * arcSpan[probe]! - probedAngles[index]!);
      if (!(probedClearances[index]! + moved + along < 0)) return false;
    }
    stretch[0] = inner;
    stretch[1] = outer;
    return true;
  }

  /** Probes a ray; true where some of it presses, left in `stretch`. */
  function probedPresses(ray: number, part: number, side: number): boolean {
    for (let probe = 0; probe < 3; probe++) {
      const radius = probeRadii[probe]!;
      const angle = arcLow[probe]! + part * arcSpan[probe]!;
      const height = radius * Math.sin(angle);
      placePoint(side * radius * Math.cos(angle), height, probeRecede[probe]!);
      probeClearance(ray, probe, height >= lipLineMm ? lips.upper.thicknessMm : lips.lower.thicknessMm);
      probedAngles[3 * ray + probe] = angle;
      probedClearances[3 * ray + probe] = clearances[probe]!;
    }
    const at = ray * POSE_SIZE;
    probedPose[at] = pose.x;
    probedPose[at + 1] = pose.y;
    probedPose[at + 2] = pose.z;
    probedPose[at + 3] = pose.elevation;
    probedPose[at + 4] = pose.lateral;
    return pressedStretch();
  }

  /** The part [from, to] of a ray that presses, by the parabola through three clearances; whole where that is not one stretch. */
  function pressedStretch(): boolean {
    const a = clearances[0]!;
    const b = clearances[1]!;
    const c = clearances[2]!;
    stretch[0] = inner;
    stretch[1] = outer;
    if (a < 0 && b < 0 && c < 0) return true;
    // Clearance ≈ b + s·v + q·s² with s from −1 (inner) to 1 (outer).
    const v = (c - a) / 2;
    const q = (a + c) / 2 - b;
    const discriminant = v * v - 4 * q * b;
    if (a >= 0 && b >= 0 && c >= 0) {
      if (!(q > 0 && discriminant > 0 && Math.abs(v) < 2 * q)) return false;
    } else if (q <= 0 && a < 0 && c < 0) return true;
    const root = Math.sqrt(Math.max(0, discriminant));
    const half = (outer - inner) / 2;
    // Stable roots of q·s² + v·s + b = 0.
    const sum = -(v + (v >= 0 ? root : -root)) / 2;
    const first = q === 0 ? -b / v : sum / q;
    const second = sum === 0 ? first : b / sum;
    const low = Math.min(first, second);
    const high = Math.max(first, second);
    if (a >= 0 && c >= 0) {
      stretch[0] = middle + half * Math.max(low, -1);
      stretch[1] = middle + half * Math.min(high, 1);
    } else {
      const cut = low >= -1 && low <= 1 ? low : high;
      if (a < 0) stretch[1] = middle + half * Math.min(Math.max(cut, -1), 1);
      else stretch[0] = middle + half * Math.min(Math.max(cut, -1), 1);
    }
    return stretch[1] > stretch[0];
  }

  /** Angle of a break line on the circle of a radius; beyond the circle, its top or bottom. */
  const angleAt = (height: number, radius: number): number =>
    height >= radius ? QUARTER : height <= -radius ? -QUARTER : Math.asin(height / radius);

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
    const left = findHandover(1, 0);
    if (findHandover(-1, 1) && left) layRays();
    else layEvenly();
  }

  /** All of the rim, evenly and densely: where the handover grazes the rim, no few rays can follow it. */
  function layEvenly(): void {
    nodes.count = even.count;
    across.set(even.across);
    up.set(even.up);
    recede.set(even.recede);
    area.set(even.area);
    underUpperLip.set(even.underUpperLip);
  }

  function layRays(): void {
    nodes.count = rayCount;
    let ray = 0;
    for (let slot = 0; slot < 2; slot++) {
      const side = slot === 0 ? 1 : -1;
      writeBreaks(slot);
      for (let arc = 0; arc < arcsASide; arc++) {
        const parts = rules[arc]!.parts;
        const weights = rules[arc]!.weights;
        for (let probe = 0; probe < 3; probe++) {
          arcLow[probe] = breaks[3 * arc + probe]!;
          arcSpan[probe] = breaks[3 * arc + 3 + probe]! - arcLow[probe]!;
        }
        for (let step = 0; step < POINTS_A_RAY; step++) {
          wholeLow[step] = parabola(arcLow, wholeAcross[step]!);
          wholeSpan[step] = parabola(arcSpan, wholeAcross[step]!);
        }
        for (let k = 0; k < parts.length; k++, ray++) {
          const part = parts[k]!;
          if (stillPresses(ray, part) || probedPresses(ray, part, side)) placeOnRay(ray, part, weights[k]!, side);
          else area.fill(0, ray * POINTS_A_RAY, (ray + 1) * POINTS_A_RAY);
        }
      }
    }
  }

  /** Lays a ray's points over its `stretch`. */
  function placeOnRay(ray: number, part: number, weight: number, side: number): void {
    const whole = stretch[0] === inner && stretch[1] === outer;
    const from2 = stretch[0]! * stretch[0]!;
    const to2 = stretch[1]! * stretch[1]!;
    for (let step = 0; step < POINTS_A_RAY; step++) {
      const i = ray * POINTS_A_RAY + step;
      let radius = wholeRadii[step]!;
      let angle = wholeLow[step]! + part * wholeSpan[step]!;
      let span = wholeSpan[step]!;
      let back = wholeRecede[step]!;
      if (!whole) {
        radius = Math.sqrt(from2 + ((to2 - from2) * (1 + radialRule.nodes[step]!)) / 2);
        const s = (radius - middle) / (outer - middle);
        span = parabola(arcSpan, s);
        angle = parabola(arcLow, s) + part * span;
        back = contourHeight(rim, radius);
      }
      const height = radius * Math.sin(angle);
      across[i] = side * radius * Math.cos(angle);
      up[i] = height;
      recede[i] = back;
      area[i] = Math.max(0, ((to2 - from2) / 4) * radialRule.weights[step]! * weight * span);
      underUpperLip[i] = height >= lipLineMm ? 1 : 0;
    }
  }

  return {
    nodes,
    lay,
    moveLower(jaw) {
      lower = jaw;
      probedPose.fill(NaN);
    },
    forgetFeet() {
      for (const feet of [...probeFeet, ...handoverFeet, handoverWarm, probedPose]) feet.fill(NaN);
    },
  };
}


/** The parabola through values at −1, 0 and 1. */
function parabola(values: Float64Array, s: number): number {
  const a = values[0]!;
  const b = values[1]!;
  const c = values[2]!;
  return b + s * ((c - a) / 2 + s * ((a + c) / 2 - b));
}
