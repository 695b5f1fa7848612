/** A bite print from pixels to forms, against closed forms, another solver, published fits, and its own stated deviations. */
import { solve } from 'numeric';
import { describe, expect, it } from 'vitest';
import { NINETY_FIVE_PERCENT } from '../../src/core/bands';
import { familyOf } from '../../src/core/ownArch/families';
import { type PrintFit, TOOTH_SD_MM, asymmetryOf, fitPrint, fitPrintForms } from '../../src/core/ownArch/fitPrint';
import { createRandom } from '../../src/core/random';
import type { ArchFamily, BitePrintSpec, FormSpec } from '../../src/core/specs';
import { printInMm } from '../../src/measure/bitePrint';
import { focalFromEquivalent } from '../../src/measure/camera';
import { HAND_SD_PX } from '../../src/measure/ellipseFit';
import { type Corners, inverseMap, mapOfCorners, mapSlopes, mapped } from '../../src/measure/homography';
import type { Point } from '../../src/measure/picture';
import { cardSeen, onCardAt, pointsOn, printOf } from '../support/drawnPrint';
import { expectWithin } from '../support/expectWithin';

const SIZE = { widthMm: 105, heightMm: 74 };
const camera = { width: 4000, height: 3000, focalPx: focalFromEquivalent(26, 4000, 3000), focalRelativeSd: 0 };
const cornersOf = (seen: (point: Point) => Point): Corners => [seen({ x: 0, y: 0 }), seen({ x: SIZE.widthMm, y: 0 }), seen({ x: SIZE.widthMm, y: SIZE.heightMm }), seen({ x: 0, y: SIZE.heightMm })];
/** Rounding of pixels and millimetres of some thousands. */
const ROUNDING = { abs: 1e-8 };

/** A common arch: through canines and first molars as they usually stand (the ready-made average's numbers, rounded). */
const COMMON: FormSpec = { kind: 'sextic', a: 2.3e-8, b: 0.0206 };

describe('the map of a card', () => {
  it.each([[0, 0], [0.4, 0.2], [-0.5, 0.7], [0.1, -0.9]] as const)('through a known camera, tilted by %f and %f: millimetres back', (about, over) => {
    const seen = cardSeen(camera, SIZE, 260, [about, over]);
    const map = found(cornersOf(seen));
    for (const point of [{ x: 10, y: 12 }, { x: 52.5, y: 37 }, { x: 99, y: 3 }]) {
      const back = mapped(map, seen(point));
      expectWithin(back.x, point.x, ROUNDING);
      expectWithin(back.y, point.y, ROUNDING);
      const there = mapped(inverseMap(map), point);
      expectWithin(there.x, seen(point).x, { abs: 1e-6 });
      expectWithin(there.y, seen(point).y, { abs: 1e-6 });
    }
  });

  it('as eight linear equations solved by another library (numeric, LU with pivoting)', () => {
    const random = createRandom(11);
    for (let card = 0; card < 50; card++) {
      const at = (x: number, y: number): Point => ({ x: x + 200 * random.normal(), y: y + 200 * random.normal() });
      const corners: Corners = [at(500, 500), at(3500, 600), at(3400, 2500), at(600, 2400)];
      const targets = [[0, 0], [SIZE.widthMm, 0], [SIZE.widthMm, SIZE.heightMm], [0, SIZE.heightMm]] as const;
      const rows = corners.flatMap(({ x, y }, i) => {
        const [u, v] = targets[i]!;
        return [[x, y, 1, 0, 0, 0, -u * x, -u * y], [0, 0, 0, x, y, 1, -v * x, -v * y]];
      });
      const solved = [...solve(rows, targets.flatMap(([u, v]) => [u, v])), 1];
      const map = found(corners);
      map.forEach((value, i) => expectWithin(value / map[8], solved[i]!, { rel: 1e-8, abs: 1e-12 }, `card ${card}, number ${i}`));
    }
  });

  it('keeps the cross-ratio of four points on a line, as every such map does', () => {
    const map = found([{ x: 120, y: 90 }, { x: 900, y: 40 }, { x: 1100, y: 700 }, { x: 60, y: 800 }]);
    const line = [0, 0.2, 0.55, 1].map((part) => ({ x: 200 + 600 * part, y: 150 + 450 * part }));
    const ratio = ([a, b, c, d]: readonly number[]): number => ((c! - a!) * (d! - b!)) / ((c! - b!) * (d! - a!));
    expectWithin(ratio(line.map((point) => mapped(map, point).x)), ratio([0, 0.2, 0.55, 1]), { rel: 1e-10 });
  });

  it('has slopes that are its differences', () => {
    const map = found(cornersOf(cardSeen(camera, SIZE, 240, [0.3, -0.4])));
    const [at, by] = [{ x: 1900, y: 1400 }, 1e-3];
    const [xx, xy, yx, yy] = mapSlopes(map, at);
    const [right, left] = [mapped(map, { x: at.x + by, y: at.y }), mapped(map, { x: at.x - by, y: at.y })];
    const [down, up] = [mapped(map, { x: at.x, y: at.y + by }), mapped(map, { x: at.x, y: at.y - by })];
    expectWithin(xx, (right.x - left.x) / (2 * by), { rel: 1e-6 });
    expectWithin(yx, (right.y - left.y) / (2 * by), { abs: 1e-8 });
    expectWithin(xy, (down.x - up.x) / (2 * by), { abs: 1e-8 });
    expectWithin(yy, (down.y - up.y) / (2 * by), { rel: 1e-6 });
  });
});

describe('a print in millimetres', () => {
  const places = pointsOn(COMMON, 14, 46);

  it('by the corners of a card photographed from the side: the form comes back to the digits it went in with', () => {
    const seen = cardSeen(camera, SIZE, 260, [0.45, -0.3]);
    const teeth = onCardAt(places, { x: 50, y: 20 }, 0.2);
    const got = converted({ by: 'card', corners: cornersOf(seen), ...SIZE }, teeth.map(seen));
    const fit = fitted(specOf(got), 'sextic');
    if (fit.form.kind !== 'sextic' || COMMON.kind !== 'sextic') throw new Error('no sextic');
    expectWithin(fit.form.b, COMMON.b, { rel: 1e-6 });
    expectWithin(fit.form.a, COMMON.a, { rel: 1e-5 });
    expectWithin(fit.rmsMm, 0, { abs: 1e-6 });
  });

  it('by a coin beside it, from far above: nearly so, and a ruler\'s stretch takes the tilt for the arch', () => {
    const far = { ...camera, focalPx: 20 * camera.focalPx };
    const seen = cardSeen(far, SIZE, 20 * 260, [0.45, 0]);
    const teeth = onCardAt(places, { x: 50, y: 15 }, 0).map(seen);
    const rim = Array.from({ length: 12 }, (_, at) => seen({ x: 90 + 11.625 * Math.cos(at / 1.9), y: 55 + 11.625 * Math.sin(at / 1.9) }));
    const coin = fitted(specOf(converted({ by: 'circle', points: rim, diameterMm: 23.25 }, teeth)), 'sextic');
    expectWithin(coin.frontRadiusMm, 1 / (2 * 0.0206), { rel: 0.01 });
    const ruler = fitted(specOf(converted({ by: 'ruler', from: seen({ x: 5, y: 37 }), to: seen({ x: 95, y: 37 }), lengthMm: 90 }, teeth)), 'sextic');
    // Depth is shortened by the tilt's cosine, so the radius lengthened.
    expectWithin(ruler.frontRadiusMm * Math.cos(0.45), 1 / (2 * 0.0206), { rel: 0.01 });
  });

  const SEED = 3;
  const CARDS = 300;
  it(`hands' errors of ${HAND_SD_PX} px come through as stated: size and place (${CARDS} cards, seed ${SEED})`, () => {
    const random = createRandom(SEED);
    const seen = cardSeen(camera, SIZE, 420, [0.3, 0.25]);
    const teeth = onCardAt(places, { x: 50, y: 20 }, 0.2).map(seen);
    const shaken = ({ x, y }: Point): Point => ({ x: x + HAND_SD_PX * random.normal(), y: y + HAND_SD_PX * random.normal() });
    const still = converted({ by: 'card', corners: cornersOf(seen), ...SIZE }, teeth);
    let [size, off] = [0, 0];
    for (let card = 0; card < CARDS; card++) {
      const got = converted({ by: 'card', corners: cornersOf(seen).map(shaken) as unknown as Corners, ...SIZE }, teeth.map(shaken));
      const fit = similarityOf(still.points, got.points);
      size += (fit.size - 1) ** 2 / CARDS;
      off += fit.meanSquare / CARDS;
    }
    // Each point's own error adds to the common size what it adds to a mean; 300 cards tell a deviation to 4 %.
    const [x, y] = [0, 1].map((axis) => still.points.reduce((sum, { xMm, yMm }) => sum + (axis === 0 ? xMm : yMm), 0) / still.points.length) as [number, number];
    const spread = still.points.reduce((sum, { xMm, yMm }) => sum + (xMm - x) ** 2 + (yMm - y) ** 2, 0);
    expectWithin(Math.sqrt(size), Math.hypot(still.scalePart, still.points[7]!.sdMm / Math.sqrt(spread)), { rel: 0.15 });
    const stated = still.points.reduce((sum, { sdMm }) => sum + 2 * sdMm ** 2, 0) / still.points.length;
    expectWithin(Math.sqrt(off), Math.sqrt(stated), { rel: 0.1 });
  });
});

describe('forms fitted to a print', () => {
  const FORMS: readonly (readonly [ArchFamily, FormSpec, number])[] = [
    ['sextic', COMMON, 46],
    ['ellipse', { kind: 'power', widthMm: 62, depthMm: 45, exponent: 0.5 }, 45],
    ['beta', { kind: 'power', widthMm: 60, depthMm: 45, exponent: 0.8 }, 45],
    ['parabola', { kind: 'power', widthMm: 62, depthMm: 48, exponent: 1 }, 45],
    ['catenary', { kind: 'catenary', widthMm: 60, depthMm: 45 }, 45],
    ['circle', { kind: 'circle', radiusMm: 25 }, 40],
  ];

  it.each(FORMS)('%s: in any place and turn, seen from either side of the card, it comes back and is preferred', (family, form, reach) => {
    const radius = familyOf(family).frontRadiusMm(familyOf(family).unknownsOf(form)!);
    for (const [turn, mirrored] of [[0, false], [2.4, false], [-1.1, true]] as const) {
      const points = onCardAt(pointsOn(form, 15, reach), { x: 40, y: -12 }, turn).map(({ x, y }) => ({ x: mirrored ? -x : x, y }));
      const fits = fitPrintForms(printOf(points));
      if (!('length' in fits)) throw new Error(fits.reason);
      // A circle is half an ellipse as well.
      expect(fits[0]!.family).toBe(family);
      expectWithin(fits[0]!.frontRadiusMm, radius, { rel: 1e-6 });
      expectWithin(fits[0]!.rmsMm, 0, { abs: 1e-6 });
      // The player's right is at − whichever way the card lies.
      expect(fits[0]!.places[0]!.xMm).toBeLessThan(0);
    }
  });

  it('AICc prefers fewer unknowns where they do as well', () => {
    const random = createRandom(8);
    const points = onCardAt(pointsOn({ kind: 'catenary', widthMm: 60, depthMm: 45 }, 16, 40), { x: 0, y: 0 }, 0).map(({ x, y }) => ({ x: x + 0.4 * random.normal(), y: y + 0.4 * random.normal() }));
    const fits = fitPrintForms(printOf(points)) as readonly PrintFit[];
    expect(fits[0]!.family).toBe('catenary');
  });

  it('the beta form as published: r about 0.98 on whole arches, worse in front than as a whole, too pointed there by the molars alone', () => {
    // Braun et al. 1998: mean r 0.98, deviation 0.02, 40 sets of casts; Mina et al. 2017: adjusted r² 0.97 and RMS 1.49 mm of whole arches, 0.90 in front.
    const random = createRandom(21);
    let [whole, front] = [0, 0];
    const CASTS = 20;
    for (let cast = 0; cast < CASTS; cast++) {
      const form: FormSpec = { kind: 'sextic', a: 2.3e-8 * (1 + 0.2 * random.normal()), b: 1 / (2 * (24.3 + 1.9 * random.normal())) };
      const places = pointsOn(form, 15, 48).map(([x, z]) => [x + 0.7 * random.normal(), z + 0.7 * random.normal()] as const);
      const { places: about, form: beta } = fitted(printOf(onCardAt(places, { x: 0, y: 0 }, 0)), 'beta');
      if (beta.kind !== 'power') throw new Error('no power form');
      whole += rSquare(about, beta) / CASTS;
      front += rSquare(about.slice(4, -4), beta) / CASTS;
    }
    expectWithin(Math.sqrt(whole), 0.98, { abs: 0.02 });
    expect(front).toBeLessThan(whole - 0.02);
    // By the molars alone: the front radius of the same arch is 24 mm.
    const beta = familyOf('beta');
    const molars = pointsOn(COMMON, 3, 46)[2]!;
    expect(beta.frontRadiusMm(beta.start({ xMm: 17, depthMm: 6 }, { xMm: molars[0], depthMm: -molars[1] }))).toBeLessThan(0.75 * fitted(printOf(onCardAt(pointsOn(COMMON, 15, 46), { x: 0, y: 0 }, 0)), 'sextic').frontRadiusMm);
  });

  const SEED = 17;
  const PRINTS = 200;
  it.each([['sextic', 1], ['circle', 1], ['catenary', 1], ['sextic', 1.8]] as const)(`%s, teeth %f times as uneven as expected: its intervals hold the truth in 93 to 98 of 100 of ${PRINTS} prints (seed ${SEED})`, (family, times) => {
    const [, form, reach] = FORMS.find(([id]) => id === family)!;
    const radius = familyOf(family).frontRadiusMm(familyOf(family).unknownsOf(form)!);
    const random = createRandom(SEED);
    const true15 = pointsOn(form, 15, reach);
    let held = 0;
    for (let print = 0; print < PRINTS; print++) {
      const size = 1 + 0.01 * random.normal();
      const points = onCardAt(true15, { x: 0, y: 0 }, 1).map(({ x, y }) => ({ x: size * x + times * TOOTH_SD_MM * random.normal(), y: size * y + times * TOOTH_SD_MM * random.normal() }));
      const fit = fitted(printOf(points, 1e-3, 0.01), family);
      if (Math.abs(Math.log(fit.frontRadiusMm / radius)) <= (NINETY_FIVE_PERCENT * fit.frontRadiusSdMm) / fit.frontRadiusMm) held++;
    }
    // Where points scatter less than expected the expected holds, so that the intervals are rather too wide than too narrow.
    expect(held / PRINTS).toBeGreaterThanOrEqual(0.93);
    expect(held / PRINTS).toBeLessThanOrEqual(0.98);
  });

  it(`a difference of the sides is found where there is one, and none where there is none (seed ${SEED})`, () => {
    const random = createRandom(SEED);
    let [far, value, variance] = [0, 0, 0];
    const [even, odd] = [pointsOn(COMMON, 15, 46), pointsOn(COMMON, 15, 46).map(([x, z], at) => {
      const part = at / 7 - 1;
      const out = Math.abs(part) < 0.5 ? Math.sin(2 * Math.PI * part) : 0;
      const away = Math.hypot(x, z + 20);
      return [x + (out * x) / away, z + (out * (z + 20)) / away] as [number, number];
    })];
    for (let print = 0; print < PRINTS; print++) {
      const points = onCardAt(even, { x: 0, y: 0 }, 0).map(({ x, y }) => ({ x: x + TOOTH_SD_MM * random.normal(), y: y + TOOTH_SD_MM * random.normal() }));
      const print1 = printOf(points, 1e-3);
      const { leftOutMm, sdMm } = asymmetryOf(print1, fitted(print1, 'sextic'));
      if (Math.abs(leftOutMm) > NINETY_FIVE_PERCENT * sdMm) far++;
      value += leftOutMm / PRINTS;
      variance += (leftOutMm / sdMm) ** 2 / PRINTS;
    }
    // Points that scatter less than expected are told with what was expected: rather too wide than too narrow.
    expect(far / PRINTS).toBeLessThanOrEqual(0.06);
    expectWithin(value, 0, { abs: 0.03 });
    expectWithin(variance, 0.85, { abs: 0.25 });
    const told = printOf(onCardAt(odd, { x: 0, y: 0 }, 0), 1e-3);
    const { leftOutMm, sdMm } = asymmetryOf(told, fitted(told, 'sextic'));
    // Out on the left by 1 mm, in on the right: a third of the 2 mm is taken up by the card's turn and place.
    expect(leftOutMm).toBeGreaterThan(2 * sdMm);
    expectWithin(leftOutMm, 2, { rel: 0.5 });
  });
});

function found(corners: Corners) {
  const got = mapOfCorners(corners, SIZE.widthMm, SIZE.heightMm);
  if (got.kind !== 'found') throw new Error(got.reason);
  return got.map;
}

function converted(scale: Parameters<typeof printInMm>[0], teeth: readonly Point[]) {
  const got = printInMm(scale, teeth);
  if (got.kind !== 'converted') throw new Error(got.reason);
  return got;
}

const specOf = ({ points, scalePart }: ReturnType<typeof converted>): BitePrintSpec => ({ jaw: 'upper', scale: { by: 'ruler', lengthMm: 1 }, scalePart, points });

function fitted(print: BitePrintSpec, family: ArchFamily): PrintFit {
  const fit = fitPrint(print, family);
  if (fit.kind !== 'fitted') throw new Error(`${family}: ${fit.reason}`);
  return fit;
}

/** Part of the depths' variance that the form makes: of z at each point's x, as the published fits reckon. */
function rSquare(places: PrintFit['places'], { widthMm, depthMm }: Extract<FormSpec, { kind: 'power' }>): number {
  const mean = places.reduce((sum, { zMm }) => sum + zMm, 0) / places.length;
  const made = ({ xMm }: { xMm: number }): number => depthMm * (Math.max(0, 1 - ((2 * xMm) / widthMm) ** 2) ** 0.8 - 1);
  return 1 - places.reduce((sum, place) => sum + (place.zMm - made(place)) ** 2, 0) / places.reduce((sum, { zMm }) => sum + (zMm - mean) ** 2, 0);
}

/** The size of `to` beside `from`, shift and turn free, and what is left. */
function similarityOf(from: readonly { xMm: number; yMm: number }[], to: readonly { xMm: number; yMm: number }[]): { readonly size: number; readonly meanSquare: number } {
  const middle = (points: typeof from) => [points.reduce((sum, { xMm }) => sum + xMm, 0) / points.length, points.reduce((sum, { yMm }) => sum + yMm, 0) / points.length] as const;
  const [[fx, fy], [tx, ty]] = [middle(from), middle(to)];
  let [along, across, spread, all] = [0, 0, 0, 0];
  from.forEach(({ xMm, yMm }, i) => {
    const [x, y, u, v] = [xMm - fx, yMm - fy, to[i]!.xMm - tx, to[i]!.yMm - ty];
    along += x * u + y * v;
    across += x * v - y * u;
    spread += x * x + y * y;
    all += u * u + v * v;
  });
  const size = Math.hypot(along, across) / spread;
  return { size, meanSquare: (all - size * size * spread) / from.length };
}
