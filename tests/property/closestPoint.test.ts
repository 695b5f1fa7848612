/** The two-step closest point against a dense search of form × profile that shares no code with it but the curves themselves. */
import * as fc from 'fast-check';
import { it } from 'vitest';
import { buildArch } from '../../src/core/arch';
import { gapRoom } from '../../src/core/gapFace';
import { AT_END, GAP, GAP_OUT, type Jaw, NORMAL, REGION, TIGHTNESS, gapOfJaw } from '../../src/core/jawGap';
import { CURVE_OUT, curvatureOf, evaluateCurve } from '../../src/core/planarForm';
import { REGION_FACE, profileAt } from '../../src/core/profile';
import { FORM_TIGHTEST } from '../../src/core/seat';
import { expectWithin } from '../support/expectWithin';
import { mouthlikeArch } from '../support/recordArbitrary';
import { propertySeed, seedWords } from '../support/seed';

/** The search ends with steps of 1e-7 mm, across which the distance errs by their square. */
const DISTANCE_MM = 1e-9;
const LAST_STEP_MM = 1e-7;
const DRAWN_MM = 30;
const ALONG = 240;
const UP = 120;

interface Place {
  readonly distance: number;
  readonly u: number;
  readonly h: number;
}

/** Least distance from a point in the jaw's own directions (hinge, opening and offset undone) to the labial face. */
function densestSearch(jaw: Jaw, x: number, y: number, z: number): Place & { readonly outward: number; readonly tightest: number } {
  const { curve, profile } = jaw;
  const out = new Float64Array(CURVE_OUT);
  const low = Math.max(profile.lowMm, -DRAWN_MM * 4);
  const high = Math.min(profile.highMm, DRAWN_MM * 4);
  const from = Math.max(curve.low, -150);
  const to = Math.min(curve.high, 150);
  let tightest = Infinity;
  const faceAt = (u: number, h: number) => {
    evaluateCurve(curve, u, out);
    const speed = Math.hypot(out[2]!, out[3]!);
    const { offsetMm, slope } = profileAt(profile, h);
    const [nx, nz] = [-out[3]! / speed, out[2]! / speed];
    tightest = Math.min(tightest, 1 + offsetMm * curvatureOf(out));
    return { x: out[0]! + offsetMm * nx, z: out[1]! + offsetMm * nz, h, nx: nx * Math.cos(slope), nz: nz * Math.cos(slope), nh: Math.sin(slope) };
  };
  const away = (u: number, h: number): number => {
    const face = faceAt(u, h);
    return Math.hypot(x - face.x, y - h, z - face.z);
  };
  const seeds: Place[] = [];
  const stepU = (to - from) / ALONG;
  const stepH = (high - low) / UP;
  for (let i = 0; i <= ALONG; i++) {
    let best: Place = { distance: Infinity, u: 0, h: 0 };
    for (let k = 0; k <= UP; k++) {
      const place = { u: Math.min(from + i * stepU, to), h: Math.min(low + k * stepH, high) };
      const distance = away(place.u, place.h);
      if (distance < best.distance) best = { distance, ...place };
    }
    seeds.push(best);
  }
  // Valleys of the columns' least distances, each walked to its bottom by compass search.
  const starts = seeds
    .filter((seed, i) => seed.distance <= (seeds[i - 1]?.distance ?? Infinity) && seed.distance <= (seeds[i + 1]?.distance ?? Infinity))
    .sort((a, b) => a.distance - b.distance)
    .slice(0, 4);
  let nearest: Place = { distance: Infinity, u: 0, h: 0 };
  for (const start of starts) {
    let at = start;
    let [du, dh] = [stepU, stepH];
    evaluateCurve(curve, at.u, out);
    const speed = Math.max(1, Math.hypot(out[2]!, out[3]!));
    while (du * speed > LAST_STEP_MM || dh > LAST_STEP_MM) {
      let moved = false;
      for (const [su, sh] of [[1, 0], [-1, 0], [0, 1], [0, -1]] as const) {
        const u = Math.min(Math.max(at.u + su * du, from), to);
        const h = Math.min(Math.max(at.h + sh * dh, low), high);
        const distance = away(u, h);
        if (distance < at.distance) {
          at = { distance, u, h };
          moved = true;
        }
      }
      if (!moved) {
        du /= 2;
        dh /= 2;
      }
    }
    if (at.distance < nearest.distance) nearest = at;
  }
  const face = faceAt(nearest.u, nearest.h);
  return { ...nearest, outward: (x - face.x) * face.nx + (y - face.h) * face.nh + (z - face.z) * face.nz, tightest };
}

const point = fc.record({
  x: fc.double({ min: -26, max: 26, noNaN: true }),
  y: fc.double({ min: -24, max: 24, noNaN: true }),
  out: fc.double({ min: -1, max: 25, noNaN: true }),
});

it(`closest points equal a dense search, form by form and profile by profile ${seedWords}`, () => {
  const room = gapRoom();
  const out = new Float64Array(GAP_OUT);
  const warm = new Float64Array(1);
  let compared = 0;
  fc.assert(
    fc.property(mouthlikeArch, fc.array(point, { minLength: 2, maxLength: 2 }), (spec, points) => {
      const arch = buildArch(spec);
      for (const surface of arch.lower ? [arch.upper, arch.lower] : [arch.upper]) {
        const jaw = surface.placed;
        for (const { x, y, out: stand } of points) {
          // A place `stand` in front of the face at that height of the form, more or less.
          warm[0] = NaN;
          gapOfJaw(jaw, x, y, 200, warm, 0, room, out);
          const z = 200 - out[GAP]! + stand;
          warm[0] = NaN;
          gapOfJaw(jaw, x, y, z, warm, 0, room, out);
          if (out[AT_END] === 1 || out[TIGHTNESS]! < FORM_TIGHTEST) return;
          const reach = z + jaw.armMm;
          const localY = jaw.gumward * (y * jaw.hingeCos + reach * jaw.hingeSin + jaw.openingMm);
          const localZ = reach * jaw.hingeCos - y * jaw.hingeSin - jaw.armMm - jaw.forwardMm;
          const truth = densestSearch(jaw, x, localY, localZ);
          // A form that crosses itself where the profile carries it inward has no one closest point there.
          if (truth.tightest < FORM_TIGHTEST) return;
          compared++;
          const gap = out[GAP]!;
          if (out[REGION] === REGION_FACE) expectWithin(gap, truth.outward, { abs: DISTANCE_MM }, 'gap to the face');
          // Right on the face the distance errs by the search's step itself.
          expectWithin(Math.abs(gap), truth.distance, { abs: truth.distance < 1e-3 ? 2 * LAST_STEP_MM : DISTANCE_MM }, 'distance');
          expectWithin(Math.hypot(out[NORMAL]!, out[NORMAL + 1]!, out[NORMAL + 2]!), 1, { abs: 1e-12 }, 'normal');
          // From the other side of the arch a warm start must come to the same foot.
          warm[0] = jaw.curve.low + 0.8 * (jaw.curve.high - jaw.curve.low);
          gapOfJaw(jaw, x, y, z, warm, 0, room, out);
          expectWithin(out[GAP]!, gap, { abs: DISTANCE_MM }, 'gap from a warm start');
        }
      }
    }),
    { seed: propertySeed, numRuns: 100 },
  );
  if (compared < 100) throw new Error(`only ${compared} comparisons`);
});
