/**
 * Arch forms and moulding surfaces against published geometry. Where a table has values worked out from a published formula, the
 * formula's source is named. One millimetre stands for 1e5 metres of the Earth.
 */
import geographiclib from 'geographiclib-geodesic';
import { describe, expect, it } from 'vitest';
import { createArcLength } from '../../src/core/arcLength';
import { toDegrees, toRadians } from '../../src/core/frame';
import { CURVE_OUT, type PlaneCurve, buildCurve, catenaryParameter, curvatureOf, evaluateCurve } from '../../src/core/planarForm';
import { buildProfile } from '../../src/core/profile';
import type { FormSpec, ProfileSpec } from '../../src/core/specs';
import { length } from '../../src/core/vector';
import { expectWithin } from '../support/expectWithin';
import { integrate, singleSurface } from '../support/surfaces';

/**
 * A form kept as quintic pieces errs in curvature, between their ends, by the fourth power of a piece's length: up to this part on the
 * most sharply bent form here (a catenary as deep as it is wide), far less on arches.
 */
const CURVATURE_PART = 3e-8;
/** Rounding of a handful of double operations, as a part. */
const ROUNDING_PART = 1e-12;
/** Angles of normals on a tabulated form, degrees: the slope's error is the fifth power of a piece's length. */
const NORMAL_DEG = 1e-9;
/** Tables print ten significant digits. */
const PRINTED_PART = 1e-9;

function at(curve: PlaneCurve, u: number): { x: number; z: number; slope: number; curvature: number } {
  const out = new Float64Array(CURVE_OUT);
  evaluateCurve(curve, u, out);
  return { x: out[0]!, z: out[1]!, slope: out[3]! / out[2]!, curvature: curvatureOf(out) };
}

/** World Geodetic System 1984: a and 1/f define it; M, N and the geocentric latitude follow (NGA standard; read). */
describe('half an ellipse (power form, exponent 0.5) against WGS 84', () => {
  const METRES_PER_MM = 1e5;
  const flattening = 1 / 298.257223563;
  const a = 6378137 / METRES_PER_MM;
  const b = a * (1 - flattening);
  const poleInFront: FormSpec = { kind: 'power', widthMm: 2 * a, depthMm: b, exponent: 0.5 };
  const equatorInFront: FormSpec = { kind: 'power', widthMm: 2 * b, depthMm: a, exponent: 0.5 };
  // φ, M and N in metres, geocentric latitude ψ, meridian arc from the equator in metres.
  const table = [
    [0, 6335439.3273, 6378137.0, 0, 0],
    [15, 6339703.299, 6379567.582, 14.90406714, 1658989.589401],
    [30, 6351377.1037, 6383480.9177, 29.83363581, 3320113.39794],
    [45, 6367381.8156, 6388838.2901, 44.807576784, 4984944.377978],
    [60, 6383453.8572, 6394209.1738, 59.83307615, 6654072.819491],
    [75, 6395262.3228, 6398149.5323, 74.903507474, 8326937.58728],
    [90, 6399593.6258, 6399593.6258, 90, 10001965.729313],
  ] as const;
  /** The library's arcs and the table agree to 1e-6 m; ours adds the quadrature of arc length, 1e-11 mm = 1e-6 m. */
  const ARC_METRES = 1e-5;
  const METRES_PART = 2e-11; // the table prints 1e-4 m of 6.4e6 m

  /** The point of the meridian with its normal at latitude φ, as (away from the axis, along the axis), mm. */
  const meridianPoint = (phiDeg: number): readonly [number, number] => {
    const e2 = flattening * (2 - flattening);
    const phi = toRadians(phiDeg);
    const n = a / Math.sqrt(1 - e2 * Math.sin(phi) ** 2);
    return [n * Math.cos(phi), n * (1 - e2) * Math.sin(phi)];
  };

  it.each(table)('latitude %d°: normal, curvature and geocentric latitude where the form runs equator in front', (phi, m, _n, psi) => {
    // The normal at 90° is the end of this form, which the next test has in front.
    if (phi === 90) return;
    const surface = singleSurface(equatorInFront);
    const [away, along] = meridianPoint(phi);
    for (const side of [1, -1]) {
      const heightMm = 3;
      const reach = [Math.cos(toRadians(phi)), Math.sin(toRadians(phi))] as const;
      const foot = surface.closest([side * (along + heightMm * reach[1]), 2, away - a + heightMm * reach[0]]);
      expectWithin(foot.gapMm, heightMm, { abs: 1e-10 }, 'height over the ellipse');
      expectWithin(toDegrees(Math.atan2(side * foot.normal[0], foot.normal[2])), phi, { abs: NORMAL_DEG }, 'geodetic latitude');
      const { horizontal } = surface.curvaturesAt(foot.arcMm, 2);
      expectWithin(METRES_PER_MM / horizontal, m, { rel: CURVATURE_PART }, 'M');
      const [x, , z] = surface.pointAt(foot.arcMm, 0);
      expectWithin(toDegrees(Math.atan2(side * x, z + a)), psi, { abs: 1e-8 }, 'geocentric latitude');
    }
  });

  it.each(table)('latitude %d°: the same with a pole in front', (phi, m, _n, psi) => {
    if (phi === 0) return;
    const surface = singleSurface(poleInFront);
    const [away, along] = meridianPoint(phi);
    const foot = surface.closest([away + 3 * Math.cos(toRadians(phi)), 0, along - b + 3 * Math.sin(toRadians(phi))]);
    expectWithin(toDegrees(Math.atan2(foot.normal[2], foot.normal[0])), phi, { abs: NORMAL_DEG }, 'geodetic latitude');
    expectWithin(METRES_PER_MM / surface.curvaturesAt(foot.arcMm, 0).horizontal, m, { rel: CURVATURE_PART }, 'M');
    const [x, , z] = surface.pointAt(foot.arcMm, 0);
    expectWithin(toDegrees(Math.atan2(z + b, x)), psi, { abs: 1e-8 }, 'geocentric latitude');
  });

  it.each(table)('latitude %d°: the distance to the axis along the normal is N', (phi, _m, n) => {
    if (phi === 90) return;
    const surface = singleSurface(equatorInFront);
    const [away, along] = meridianPoint(phi);
    const foot = surface.closest([along, 0, away - a]);
    const [, , z] = surface.pointAt(foot.arcMm, 0);
    expectWithin(((z + a) / foot.normal[2]) * METRES_PER_MM, n, { rel: METRES_PART }, 'N');
  });

  /** Karney CFF, Algorithms for geodesics, J Geod 2013;87:43–55, as the npm package geographiclib-geodesic. */
  it.each(table)('latitude %d°: arc from the equator against geodesics of geographiclib-geodesic', (phi, _m, _n, _psi, printed) => {
    const truth = geographiclib.Geodesic.WGS84.Inverse(0, 0, phi, 0).s12!;
    const surface = singleSurface(equatorInFront);
    const [away, along] = meridianPoint(phi);
    const arcMm = phi === 90 ? surface.arcRange[1] : surface.closest([along, 0, away - a]).arcMm;
    expectWithin(arcMm * METRES_PER_MM, truth, { abs: ARC_METRES }, 'arc');
    expectWithin(truth, printed, { abs: ARC_METRES }, 'the library against the table');
  });

  /**
   * Through the profile's own interface. No profile is an ellipse, but an ellipsoid of revolution shares normal and both curvatures at
   * a latitude with the surface whose profile is an arc of radius M inclined at φ, carried round a circle that puts it N·cos φ from
   * the axis. M and that distance go in; N = 1/κ_horizontal, the normal, and the curvatures' product and mean come out.
   */
  it.each(table)('latitude %d°: the surface that osculates the ellipsoid has N across and M along', (phi, m, n) => {
    if (phi === 90) return;
    const crown: ProfileSpec = {
      kind: 'arcs',
      inclinationDeg: phi,
      crownHeightMm: 1,
      crownRadiusMm: m / METRES_PER_MM,
      gumRadiusMm: 10,
      gumInclinationDeg: -10,
    };
    const built = buildProfile(crown, true);
    const middleOffset = built.crownD + built.crownRadius * Math.cos(toRadians(phi));
    const [away] = meridianPoint(phi);
    const radiusMm = away - middleOffset;
    const surface = singleSurface({ kind: 'circle', radiusMm }, crown);
    for (const arcMm of [-0.7 * radiusMm, 0, 0.3 * radiusMm]) {
      const { horizontal, vertical } = surface.curvaturesAt(arcMm, 0.5);
      expectWithin(METRES_PER_MM / horizontal, n, { rel: METRES_PART }, 'N');
      expectWithin(METRES_PER_MM / vertical, m, { rel: ROUNDING_PART }, 'M');
      expectWithin(toDegrees(Math.asin(surface.normalAt(arcMm, 0.5)[1])), phi, { abs: NORMAL_DEG }, 'latitude');
      // A point over the mid-crown along the normal finds its way back, through both feet.
      const [nx, ny, nz] = surface.normalAt(arcMm, 0.5);
      const [x, y, z] = surface.pointAt(arcMm, 0.5);
      const foot = surface.closest([x + 4 * nx, y + 4 * ny, z + 4 * nz]);
      expectWithin(foot.gapMm, 4, { abs: 1e-11 }, 'gap');
      expectWithin(foot.normal[1], ny, { abs: 1e-12 }, 'normal');
      if (phi === 0 || phi === 45) {
        const [gauss, mean] = phi === 0 ? [2.47473910157e-14, 1.5731392229e-7] : [2.45819998383e-14, 1.56786700289e-7];
        expectWithin((horizontal * vertical) / METRES_PER_MM ** 2, gauss, { rel: 5e-11 }, 'K (metres)');
        expectWithin((horizontal + vertical) / 2 / METRES_PER_MM, mean, { rel: 5e-11 }, 'H (metres)');
      }
    }
  });
});

/** (R + r cos v) carried round: κ = cos v/(R + r cos v) and 1/r (any text on differential geometry; read). Outward convex is +. */
describe('torus', () => {
  // R, r, v in degrees, K, H by the table (outer normal).
  const outer = [
    [3, 1, 0, 0.25, 0.625],
    [3, 1, 60, 0.1428571429, 0.5714285714],
    [3, 1, 90, 0, 0.5],
    [10.875, 2.625, 0, 0.02821869489, 0.2275132275],
  ] as const;
  // Past 90° the tube is hollow seen from the form: the concave gum arc, whose outward normal points the other way.
  const inner = [
    [3, 1, 120, -0.2, 0.4],
    [3, 1, 180, -0.5, 0.25],
    [10.875, 2.625, 180, -0.04617604618, 0.1298701299],
  ] as const;
  /** At v = 90° the height's arc sine has an infinite slope: rounding of 1e-16 there is 1e-8 in the angle. */
  const AT_THE_TOP = 3e-8;

  it.each(outer)('R %d, r %d, v %d°: one arc round a circle', (bigR, r, vDeg, gauss, mean) => {
    const surface = singleSurface({ kind: 'circle', radiusMm: bigR + r }, { kind: 'arc', radiusMm: r });
    for (const side of [1, -1]) {
      const { horizontal, vertical } = surface.curvaturesAt(1, side * r * Math.sin(toRadians(vDeg)));
      expectWithin(horizontal * vertical, gauss, { rel: PRINTED_PART, abs: AT_THE_TOP });
      expectWithin((horizontal + vertical) / 2, mean, { rel: PRINTED_PART, abs: vDeg === 90 ? AT_THE_TOP : 0 });
    }
  });

  it.each(inner)('R %d, r %d, v %d°: the concave arc between crown and gum', (bigR, r, vDeg, gauss, mean) => {
    const profile: ProfileSpec = {
      kind: 'arcs', inclinationDeg: 30, crownHeightMm: 0.8 * r, crownRadiusMm: r, gumRadiusMm: r, gumInclinationDeg: -30,
    };
    const built = buildProfile(profile, true);
    const surface = singleSurface({ kind: 'circle', radiusMm: bigR - built.gumD }, profile);
    // Slope 180° − v, reached below the height of the tube's centre.
    const { horizontal, vertical } = surface.curvaturesAt(0, built.gumH - r * Math.sin(toRadians(180 - vDeg)));
    expectWithin(horizontal * vertical, gauss, { rel: PRINTED_PART });
    expectWithin((horizontal + vertical) / 2, -mean, { rel: PRINTED_PART });
  });

  it('closest points lie along the normal from the tube’s centre circle', () => {
    const [bigR, r] = [30, 12];
    const surface = singleSurface({ kind: 'circle', radiusMm: bigR + r }, { kind: 'arc', radiusMm: r });
    for (const [u, v, gap] of [[0, 0, 5], [0.6, 0.9, 7], [-1.1, -1.2, 3], [0.3, 0.4, -4]] as const) {
      const reach = bigR + (r + gap) * Math.cos(v);
      const foot = surface.closest([reach * Math.sin(u), (r + gap) * Math.sin(v), reach * Math.cos(u) - bigR - r]);
      expectWithin(foot.gapMm, gap, { abs: 1e-12 });
      expectWithin(foot.arcMm, (bigR + r) * u, { abs: 1e-11 });
      expectWithin(foot.normal[1], Math.sin(v), { abs: 1e-13 });
    }
  });
});

/** Perimeter 4a·E(k) (value from memory; worked out to 16 digits). Half of it is the whole form. */
describe('length of half an ellipse', () => {
  it.each([
    [2, 1, 9.688448220547676],
    [5, 1, 21.010044539689],
    [10, 1, 40.63974180100896],
    [30, 26, 176.1536597236927],
    [40, 27, 212.4724926973398],
  ])('semi-axes %d and %d, either in front', (long, short, perimeter) => {
    for (const [half, depth] of [[long, short], [short, long]] as const) {
      const [from, to] = singleSurface({ kind: 'power', widthMm: 2 * half, depthMm: depth, exponent: 0.5 }).arcRange;
      expectWithin(to - from, perimeter / 2, { rel: 1e-11 });
      expectWithin(to, -from, { rel: 1e-12 });
    }
  });

  it.each([[30, 45, 20, 67.5]])('vertex radii of semi-axes %d and %d', (half, depth, apex, side) => {
    const curve = buildCurve({ kind: 'power', widthMm: 2 * half, depthMm: depth, exponent: 0.5 });
    expectWithin(1 / at(curve, 0).curvature, apex, { rel: CURVATURE_PART });
    expectWithin(1 / at(curve, curve.high).curvature, side, { rel: CURVATURE_PART });
  });
});

/**
 * Y = D(1 − (2X/W)²)^e: half an ellipse, the published beta form (Braun S, Hnat WP, Fender DE, Legan HL, Angle Orthod 1998;68:29–36; its
 * constant a value from memory), a parabola. Lengths and areas worked out from the formula to ten digits.
 */
describe('power forms', () => {
  // W, D, e, arc length, apex radius, area.
  const table = [
    [60, 45, 0.5, 118.9907969, 20.0, 2120.575041],
    [60, 45, 0.8, 114.7034344, 12.5, 1910.177572],
    [60, 45, 1.0, 113.0527944, 10.0, 1800],
    [55, 40, 0.5, 106.939743, 18.90625, 1727.875959],
    [55, 40, 0.8, 103.0179899, 11.81640625, 1556.440985],
    [55, 40, 1.0, 101.5090944, 9.453125, 1466.666667],
    [50, 35, 0.8, 91.34998675, 11.16071429, 1238.078056],
  ] as const;

  it.each(table)('W %d, D %d, e %d: length, apex radius, area', (widthMm, depthMm, exponent, arc, apex, area) => {
    const curve = buildCurve({ kind: 'power', widthMm, depthMm, exponent });
    const [from, to] = createArcLength(curve).range;
    const end = at(curve, curve.high);
    // Beyond the part of the width that is used, the formula itself: by Y, along which it is smooth to its end.
    const tip = end.z + depthMm;
    const x = (y: number): number => (widthMm / 2) * Math.sqrt(1 - (y / depthMm) ** (1 / exponent));
    const slope = (y: number): number =>
      ((widthMm / 4) * (y / depthMm) ** (1 / exponent - 1)) / (exponent * depthMm * Math.sqrt(1 - (y / depthMm) ** (1 / exponent)));
    const lost = tip > 1e-9 ? 2 * integrate((y) => Math.hypot(1, slope(y)), 0, tip) : 0;
    expectWithin(to - from + lost, arc, { rel: PRINTED_PART }, 'length');
    expectWithin(1 / at(curve, 0).curvature, apex, { rel: CURVATURE_PART }, 'apex radius');
    // Area between the curve and the line joining its ends: ∫ (z + D) dx = ∫ (z + D)·x′ du, and the tips.
    const out = new Float64Array(CURVE_OUT);
    const inside = integrate((u) => {
      evaluateCurve(curve, u, out);
      return (out[1]! + depthMm) * out[2]!;
    }, curve.low, curve.high);
    const tips = tip > 1e-9 ? 2 * (integrate(x, 0, tip) - tip * end.x) : 0;
    expectWithin(inside + tips, area, { rel: PRINTED_PART }, 'area');
  });

  it.each(table)('W %d, D %d, e %d: the apex radius is W²/(8eD)', (widthMm, depthMm, exponent) => {
    const curve = buildCurve({ kind: 'power', widthMm, depthMm, exponent });
    expectWithin(at(curve, 0).curvature, (8 * exponent * depthMm) / widthMm ** 2, { rel: CURVATURE_PART });
  });

  it.each([
    [0, 45, 0, 0.08],
    [5, 43.9971909, -0.402260031, 0.0649781997],
    [10, 40.9534502, -0.819069004, 0.0398193554],
    [15, 35.7488046, -1.27106861, 0.0227025461],
    [20, 28.1186528, -1.79959378, 0.0136111347],
    [25, 17.4294893, -2.53519844, 0.00956440927],
  ])('the beta form 60 wide and 45 deep at X %d', (x, y, slope, curvature) => {
    const curve = buildCurve({ kind: 'power', widthMm: 60, depthMm: 45, exponent: 0.8 });
    const point = at(curve, Math.asin(x / 30));
    const printed = { rel: 2e-9, abs: 1e-12 }; // nine digits
    expectWithin(point.x, x, { abs: 1e-10 });
    expectWithin(point.z + 45, y, printed, 'Y');
    expectWithin(point.slope, slope, printed, 'dY/dX');
    expectWithin(point.curvature, curvature, { rel: CURVATURE_PART }, 'curvature');
    const left = at(curve, -Math.asin(x / 30));
    expectWithin(left.curvature, curvature, { rel: CURVATURE_PART }, 'curvature on the other side');
  });

  it('the parabola’s length in closed form: (W/2)√(1 + u²) + (W²/8D)·asinh u, u = 4D/W', () => {
    const curve = buildCurve({ kind: 'power', widthMm: 60, depthMm: 45, exponent: 1 });
    const half = at(curve, curve.high).x;
    // The same closed form for the part that is used: a parabola of that width and of the depth it has there.
    const depth = 45 * (half / 30) ** 2;
    const u = (4 * depth) / (2 * half);
    const [from, to] = createArcLength(curve).range;
    expectWithin(to - from, half * Math.hypot(1, u) + ((2 * half) ** 2 / (8 * depth)) * Math.asinh(u), { rel: 1e-11 });
  });
});

/**
 * Y = A·X⁶ + B·X² through canine and molar (Noroozi H, Hosseinzadeh Nik T, Saeeda R, Angle Orthod 2001;71:386–389). The inputs are
 * invented and the coefficients worked exactly: this holds the code to the algebra and is no truth from outside.
 */
describe('sextic form, worked exactly (not an outside truth)', () => {
  it.each([
    [34, 8, 54, 40, 6.069839168e-8, 0.02261207053, 22.112084],
    [26, 5, 50, 36, 7.737361677e-8, 0.02737593095, 18.264219],
  ])('canines %d wide, %d deep, molars %d wide, %d deep', (canineW, canineD, molarW, molarD, a, b, apex) => {
    const curve = buildCurve({ kind: 'sextic', a, b });
    for (const side of [1, -1]) {
      expectWithin(at(curve, (side * canineW) / 2).z, -canineD, { rel: PRINTED_PART });
      expectWithin(at(curve, (side * molarW) / 2).z, -molarD, { rel: PRINTED_PART });
    }
    expectWithin(1 / at(curve, 0).curvature, apex, { rel: 3e-8 });
  });
});

/** y = a·cosh(x/a): s = a·sinh(x/a), κ = a/y², radius a in front (value from memory; worked out to 12 digits). */
describe('catenary', () => {
  it.each([
    [50, 30, 13.6658807982, 82.9446284672],
    [55, 40, 13.3236408468, 103.264539272],
    [60, 45, 14.2704187686, 115.053686411],
  ])('width %d, depth %d: parameter, length, front radius, ends', (widthMm, depthMm, a, arc) => {
    const curve = buildCurve({ kind: 'catenary', widthMm, depthMm });
    const [from, to] = createArcLength(curve).range;
    expectWithin(catenaryParameter(widthMm, depthMm), a, { rel: 1e-11 });
    expectWithin(to - from, arc, { rel: 1e-11 });
    expectWithin(1 / at(curve, 0).curvature, a, { rel: CURVATURE_PART });
    const end = at(curve, curve.high);
    expectWithin(end.x, widthMm / 2, { rel: 1e-12 });
    expectWithin(end.z, -depthMm, { rel: 1e-12 });
  });

  it('a = x = 1: y, arc length and curvature', () => {
    const curve = buildCurve({ kind: 'catenary', widthMm: 4, depthMm: Math.cosh(2) - 1 });
    const surface = singleSurface({ kind: 'catenary', widthMm: 4, depthMm: Math.cosh(2) - 1 });
    const point = at(curve, 1.17520119364); // s = sinh 1
    expectWithin(point.x, 1, { abs: 1e-11 });
    expectWithin(1 - point.z, 1.54308063482, { abs: 1e-11 });
    expectWithin(point.curvature, 0.419974341614, { rel: CURVATURE_PART });
    expectWithin(surface.closest(surface.pointAt(1.17520119364, 0)).arcMm, 1.17520119364, { abs: 1e-9 });
  });
});

/** Elementary geometry: on these the closest point is known in closed form. */
describe('sphere, cylinder, cone and flat plate', () => {
  it('sphere: both curvatures 1/R, gap = distance from the centre − R, normal along the radius', () => {
    const R = 27;
    const surface = singleSurface({ kind: 'circle', radiusMm: R }, { kind: 'arc', radiusMm: R });
    for (const [s, h] of [[0, 0], [9, -13], [-20, 20], [3, 25]] as const) {
      const { horizontal, vertical } = surface.curvaturesAt(s, h);
      expectWithin(horizontal, 1 / R, { rel: ROUNDING_PART });
      expectWithin(vertical, 1 / R, { rel: ROUNDING_PART });
    }
    for (const point of [[4, 5, 6], [-11, 17, 3], [1, -20, -2], [0, 0, -4]] as const) {
      const fromCentre = [point[0], point[1], point[2] + R] as const;
      const reach = length(fromCentre);
      const foot = surface.closest(point);
      expectWithin(foot.gapMm, reach - R, { abs: 1e-12 });
      foot.normal.forEach((part, axis) => expectWithin(part, fromCentre[axis]! / reach, { abs: 1e-13 }));
    }
  });

  it('cylinders: upright (circle, straight) and lying (line, arc)', () => {
    const upright = singleSurface({ kind: 'circle', radiusMm: 25 });
    const lying = singleSurface({ kind: 'line' }, { kind: 'arc', radiusMm: 25 });
    expect(upright.curvaturesAt(7, 3)).toEqual({ horizontal: 1 / 25, vertical: 0 });
    expect(lying.curvaturesAt(7, 3)).toEqual({ horizontal: 0, vertical: 1 / 25 });
    expectWithin(upright.closest([9, 4, 3]).gapMm, Math.hypot(9, 28) - 25, { abs: 1e-13 });
    expectWithin(lying.closest([9, 4, 3]).gapMm, Math.hypot(4, 28) - 25, { abs: 1e-13 });
  });

  it('cone (circle, inclined straight line): κ = cos β/(R + d) across, 0 along', () => {
    const inclinationDeg = 20;
    const beta = toRadians(inclinationDeg);
    const surface = singleSurface({ kind: 'circle', radiusMm: 25 }, { kind: 'straight', inclinationDeg });
    const height = 8;
    const { horizontal, vertical } = surface.curvaturesAt(3, height);
    expectWithin(horizontal, Math.cos(beta) / (25 - height * Math.tan(beta)), { rel: ROUNDING_PART });
    expect(vertical).toBe(0);
    const [away, up] = [31, 6];
    const foot = surface.closest([away * Math.sin(0.4), up, away * Math.cos(0.4) - 25]);
    expectWithin(foot.gapMm, (away - 25) * Math.cos(beta) + up * Math.sin(beta), { abs: 1e-12 });
  });

  it('flat plate: gap = z, normal straight forward', () => {
    const foot = singleSurface({ kind: 'line' }).closest([-12, 30, 4.5]);
    expect([foot.gapMm, ...foot.normal]).toEqual([4.5, 0, 0, 1]);
  });
});
