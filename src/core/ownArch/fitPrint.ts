/**
 * Arch forms fitted to the points of a bite print, at least orthogonal distances, the card's place and turn left free; how far the points lie off,
 * which family to prefer, and how unlike both sides are. Points come in millimetres (measure/bitePrint.ts). docs/numerics.md §25.
 */
import { FOOT_OUT, curveScratch, footOnCurve } from '../curveFoot';
import { tooTight } from '../formChecks';
import { CURVE_OUT, buildCurve, evaluateCurve } from '../planarForm';
import { scaledForm } from '../scaled';
import type { ArchFamily, BitePrintSpec, FormSpec, PrintPointSpec } from '../specs';
import { sayCore } from '../../words/core';
import { aiccFitted } from './aicc';
import { type CurveFit, type NoCurveFit, fitCurve } from './dampedLeastSquares';
import { FAMILIES, type Family, familyOf } from './families';

/** Where a printed point lies about the fitted form, mm: x to the player's left, z forward, the form's front at (0, 0). */
export interface PrintPlace {
  readonly xMm: number;
  readonly zMm: number;
  /** Out of the form; inside it, below 0. */
  readonly offMm: number;
  /** How far past the end of a form that ends at the molars. */
  readonly beyondMm: number;
}

/** The card's frame to the form's: mirrored (y the other way) where `mirrored`, then moved by −(xMm, zMm), then turned. */
export interface PrintPose {
  readonly mirrored: boolean;
  readonly xMm: number;
  readonly zMm: number;
  readonly turnRad: number;
}

export interface PrintFit {
  readonly kind: 'fitted';
  readonly family: ArchFamily;
  readonly form: FormSpec;
  /** What the points tell of the form (`shapeOf`), with its covariance: of their scatter, and of the card's size. */
  readonly shape: readonly number[];
  readonly covariance: readonly (readonly number[])[];
  readonly frontRadiusMm: number;
  /** One deviation of the front radius, mm. */
  readonly frontRadiusSdMm: number;
  readonly pose: PrintPose;
  readonly places: readonly PrintPlace[];
  /** Root mean square distance of the points, mm. */
  readonly rmsMm: number;
  /** Up to a constant that all families share. */
  readonly aicc: number;
  /** The fit itself: unknowns are the shape, where the front lies, and the turn. */
  readonly curve: CurveFit;
}

export interface NoPrintFit {
  readonly kind: 'not-fitted';
  /** few: fewer than `FEWEST_PRINT_POINTS`. line: they lie on no arch. one-side: on one side of the front only. */
  readonly reason: NoCurveFit['reason'] | 'few' | 'line' | 'one-side';
}

/** A form of two unknowns, its place, its turn and one deviation, and two to spare: below that nothing is told of how well it fits. */
export const FEWEST_PRINT_POINTS = 8;
/** More than any hand puts. */
export const MOST_PRINT_POINTS = 60;
/** How far a tooth's edge stands off a smooth form, and its print in the card off the edge, one deviation, mm: our judgement. What is left of the fit counts where it is more. */
export const TOOTH_SD_MM = 0.5;
/** An arch is at least so deep beside its width, and its shorter side so long beside the other, as parts: our judgement. */
const LEAST_DEPTH_PART = 0.06;
const LEAST_SIDE_PART = 0.3;
/** Where canines stand, as a part of the outermost point's half width: only the fit's start depends on it. */
const CANINE_PART = 0.6;
/** Front radii a fit begins from are held to these, mm. */
const START_RADIUS_MM = [8, 60] as const;

const known = new WeakMap<BitePrintSpec, Map<ArchFamily, PrintFit | NoPrintFit>>();

/** One family fitted. Throws RangeError for a point that is no number. The same object for the same print. */
export function fitPrint(print: BitePrintSpec, id: ArchFamily): PrintFit | NoPrintFit {
  const fits = known.get(print) ?? new Map<ArchFamily, PrintFit | NoPrintFit>();
  known.set(print, fits);
  const before = fits.get(id);
  if (before !== undefined) return before;
  const fit = fitted(print, familyOf(id));
  fits.set(id, fit);
  return fit;
}

/** All families that can be fitted, the one to prefer first; or why none can. */
export function fitPrintForms(print: BitePrintSpec): readonly PrintFit[] | NoPrintFit {
  const fits = FAMILIES.map(({ id }) => fitPrint(print, id));
  // Half an arch, turned, may pass for a whole circle or ellipse; the sextic, straight further back, tells them apart.
  const oneSided = fits.find((fit) => fit.kind === 'not-fitted' && fit.reason === 'one-side');
  if (fits[0]!.kind === 'not-fitted' && oneSided?.kind === 'not-fitted') return oneSided;
  const found = fits.filter((fit) => fit.kind === 'fitted').sort((a, b) => a.aicc - b.aicc);
  return found.length > 0 ? found : (fits.find((fit) => fit.kind === 'not-fitted') as NoPrintFit);
}

/** What points along a form can tell of a family's unknowns: all, but of a parabola, whose width and depth only say where it ends, ln(W²/D). */
export const shapeOf = (id: ArchFamily, unknowns: readonly number[]): readonly number[] =>
  id === 'parabola' ? [2 * unknowns[0]! - unknowns[1]!] : unknowns;

export interface PrintAsymmetry {
  /**
   * How much further out the arch stands on the player's left than on the right, in the front half of each side, mm, with one deviation, once the
   * card is turned and shifted so that both sides match as well as they can. A difference further back is a turn of the card to any fit.
   */
  readonly leftOutMm: number;
  readonly sdMm: number;
  /** How far the marked midline lies to the player's left of the form's own axis, mm, with one deviation; null where none is marked. */
  readonly midline: { readonly leftMm: number; readonly sdMm: number } | null;
}

/** Both sides compared, by a wave in their front halves that is out on one and in on the other: how much of it is in what the fit leaves. */
export function asymmetryOf(print: BitePrintSpec, fit: PrintFit): PrintAsymmetry {
  const { points } = print;
  const waves = alongOf(fit.places).map((part, at) => (Math.abs(part) < 1 / 2 ? Math.sin(2 * Math.PI * part) : 0) / printSdMm(points[at]!));
  const { slopes, misfits, covariance } = fit.curve;
  const square = dot(waves, waves);
  // What of the wave a shift, a turn or another form could take up is no difference of the sides.
  const taken = covariance.map((_, column) => waves.reduce((sum, wave, at) => sum + slopes[at]![column]! * wave, 0));
  const left = square - taken.reduce((sum, each, i) => sum + each * dot(covariance[i]!, taken), 0);
  const marked = points.findIndex(({ tooth }) => tooth === 'midline');
  const axis = fit.shape.length;
  return {
    leftOutMm: (2 * dot(waves, misfits)) / square,
    sdMm: (2 * Math.sqrt(spreadOf(fit.curve, points.length) * Math.max(0, left))) / square,
    midline: marked < 0 ? null : { leftMm: fit.places[marked]!.xMm, sdMm: Math.hypot(Math.sqrt(spreadOf(fit.curve, points.length) * covariance[axis]![axis]!), printSdMm(points[marked]!)) },
  };
}

const dot = (a: readonly number[], b: readonly number[]): number => a.reduce((sum, each, i) => sum + each * b[i]!, 0);

/** How far along its side each point lies, −1 at the player's right end to 1 at the left: by the lengths between the points, from the form's axis on. */
function alongOf(places: readonly PrintPlace[]): number[] {
  let sum = 0;
  const lengths = places.map(({ xMm, zMm }, at) => (sum += at === 0 ? 0 : Math.hypot(xMm - places[at - 1]!.xMm, zMm - places[at - 1]!.zMm)));
  const next = Math.max(1, places.findIndex(({ xMm }) => xMm >= 0));
  const [before, after] = [places[next - 1]!.xMm, places[next]!.xMm];
  const middle = lengths[next - 1]! + ((lengths[next]! - lengths[next - 1]!) * -before) / (after - before || 1);
  return lengths.map((length) => (length < middle ? (length - middle) / middle : (length - middle) / (sum - middle)));
}

/** From the form's frame back to the card's. */
export function onCard({ mirrored, xMm, zMm, turnRad }: PrintPose, x: number, z: number): { readonly xMm: number; readonly yMm: number } {
  const [cosine, sine] = [Math.cos(turnRad), Math.sin(turnRad)];
  const [backX, backZ] = [cosine * x + sine * z + xMm, -sine * x + cosine * z + zMm];
  return { xMm: backX, yMm: mirrored ? -backZ : backZ };
}

function fitted(print: BitePrintSpec, family: Family): PrintFit | NoPrintFit {
  const { points } = print;
  points.forEach(({ xMm, yMm, sdMm }, at) => {
    for (const [field, value] of Object.entries({ xMm, yMm, sdMm })) {
      if (!Number.isFinite(value)) throw tooTight(`points[${at}].${field}`, String(value), sayCore('finite'));
    }
  });
  if (points.length < FEWEST_PRINT_POINTS) return { kind: 'not-fitted', reason: 'few' };
  const start = startOf(print);
  if (!(start.depthMm > LEAST_DEPTH_PART * start.widthMm)) return { kind: 'not-fitted', reason: 'line' };
  const solve = solverOf(print, family, start);
  const fit = fitCurve((v) => misfitsOf(print, solve.places(v)), solve.start, solve.scales);
  if (fit.kind === 'not-fitted') return { kind: 'not-fitted', reason: fit.reason };
  const places = solve.places(fit.unknowns)!;
  const [right, left] = [-Math.min(...places.map(({ xMm }) => xMm)), Math.max(...places.map(({ xMm }) => xMm))];
  if (!(Math.min(right, left) > LEAST_SIDE_PART * Math.max(right, left))) return { kind: 'not-fitted', reason: 'one-side' };
  const shape = fit.unknowns.slice(0, solve.shapeSize);
  const unknowns = solve.unknownsOf(shape);
  const form = family.form(unknowns);
  const grown = growth(family, form, shape);
  const covariance = shape.map((_, i) => shape.map((__, j) => spreadOf(fit, points.length) * fit.covariance[i]![j]! + print.scalePart ** 2 * grown[i]! * grown[j]!));
  const slopes = shape.map((_, i) => {
    const at = (by: number): number => family.frontRadiusMm(solve.unknownsOf(shape.map((each, j) => (i === j ? each + by : each))));
    return (at(STEP) - at(-STEP)) / (2 * STEP);
  });
  return {
    kind: 'fitted',
    family: family.id,
    form,
    shape,
    covariance,
    frontRadiusMm: family.frontRadiusMm(unknowns),
    frontRadiusSdMm: Math.sqrt(slopes.reduce((sum, a, i) => sum + slopes.reduce((row, b, j) => row + a * b * covariance[i]![j]!, 0), 0)),
    pose: solve.pose(fit.unknowns),
    places,
    rmsMm: Math.sqrt(places.reduce((sum, { offMm, beyondMm }) => sum + offMm ** 2 + beyondMm ** 2, 0) / places.length),
    aicc: aiccFitted(fit.chi2, fit.unknowns.length + 1, points.length),
    curve: fit,
  };
}

/**
 * By which a covariance is multiplied where the points scatter more than was expected of them. Two fewer count than are free: few points tell
 * their own scatter badly, and this is the variance of Student's distribution.
 */
export const spreadOf = ({ chi2, unknowns }: Pick<CurveFit, 'chi2' | 'unknowns'>, points: number): number => Math.max(1, chi2 / Math.max(1, points - unknowns.length - 2));

/** What a point is expected to lie off the form, one deviation, mm. */
export const printSdMm = ({ sdMm }: PrintPointSpec): number => Math.hypot(sdMm, TOOTH_SD_MM);

const misfitsOf = ({ points }: BitePrintSpec, places: readonly PrintPlace[] | null): number[] | null =>
  places && [...places.map(({ offMm }, at) => offMm / printSdMm(points[at]!)), ...places.map(({ beyondMm }, at) => beyondMm / printSdMm(points[at]!))];

/** The points turned so that the first and the last lie level, the player's left at + and the front forward. */
interface Start {
  readonly mirrored: boolean;
  readonly turnRad: number;
  readonly middle: { readonly xMm: number; readonly zMm: number };
  readonly widthMm: number;
  readonly depthMm: number;
  readonly canine: { readonly xMm: number; readonly depthMm: number };
}

function startOf({ points }: BitePrintSpec): Start {
  const area = points.reduce((sum, a, at) => {
    const b = points[(at + 1) % points.length]!;
    return sum + a.xMm * b.yMm - b.xMm * a.yMm;
  }, 0);
  // From the player's right over the front to the left, x to the left and z forward: with the clock, so its area is below 0.
  const mirrored = area > 0;
  const all = points.map(({ xMm, yMm }) => ({ xMm, zMm: mirrored ? -yMm : yMm }));
  const [first, last] = [all[0]!, all.at(-1)!];
  const turnRad = -Math.atan2(last.zMm - first.zMm, last.xMm - first.xMm);
  const [cosine, sine] = [Math.cos(turnRad), Math.sin(turnRad)];
  const turned = all.map(({ xMm, zMm }) => ({ xMm: cosine * xMm - sine * zMm, zMm: sine * xMm + cosine * zMm }));
  const front = Math.max(...turned.map(({ zMm }) => zMm));
  const middleX = (turned[0]!.xMm + turned.at(-1)!.xMm) / 2;
  const half = Math.max(...turned.map(({ xMm }) => Math.abs(xMm - middleX)));
  const depthMm = front - Math.min(...turned.map(({ zMm }) => zMm));
  const near = [...turned].sort((a, b) => Math.abs(Math.abs(a.xMm - middleX) - CANINE_PART * half) - Math.abs(Math.abs(b.xMm - middleX) - CANINE_PART * half)).slice(0, 2);
  const canineX = near.reduce((sum, { xMm }) => sum + Math.abs(xMm - middleX), 0) / near.length;
  const canineDepth = near.reduce((sum, { zMm }) => sum + front - zMm, 0) / near.length;
  return {
    mirrored,
    turnRad,
    middle: { xMm: cosine * middleX + sine * front, zMm: -sine * middleX + cosine * front },
    widthMm: 2 * half,
    depthMm,
    canine: { xMm: canineX, depthMm: Math.min(Math.max(canineDepth, canineX ** 2 / (2 * START_RADIUS_MM[1])), canineX ** 2 / (2 * START_RADIUS_MM[0])) },
  };
}

/** What is fitted of a family: its shape, then where the front lies on the card, then the turn; a circle's turn tells nothing. */
interface Solver {
  readonly shapeSize: number;
  readonly start: readonly number[];
  readonly scales: readonly number[];
  /** The family's own unknowns. */
  unknownsOf(shape: readonly number[]): readonly number[];
  pose(v: readonly number[]): PrintPose;
  /** null where they make no form. */
  places(v: readonly number[]): readonly PrintPlace[] | null;
}

function solverOf({ points }: BitePrintSpec, family: Family, start: Start): Solver {
  const shape = shapeOf(family.id, family.start(start.canine, { xMm: start.widthMm / 2, depthMm: start.depthMm }));
  const shapeSize = shape.length;
  const logWidth = Math.log(PARABOLA_REACH * start.widthMm);
  const unknownsOf = (v: readonly number[]): readonly number[] => (family.id === 'parabola' ? [logWidth, 2 * logWidth - v[0]!] : v);
  const turns = family.id !== 'circle';
  const scratch = curveScratch();
  const foot = new Float64Array(FOOT_OUT);
  const there = new Float64Array(CURVE_OUT);
  const pose = (v: readonly number[]): PrintPose => {
    // Along the start's own axes, so that x is the axis' place whatever the card's turn.
    const [cosine, sine] = [Math.cos(start.turnRad), Math.sin(start.turnRad)];
    const [x, z] = [v[shapeSize]!, v[shapeSize + 1]!];
    return {
      mirrored: start.mirrored,
      xMm: start.middle.xMm + cosine * x + sine * z,
      zMm: start.middle.zMm - sine * x + cosine * z,
      turnRad: start.turnRad + (turns ? v[shapeSize + 2]! : 0),
    };
  };
  return {
    shapeSize,
    start: [...shape, 0, 0, ...(turns ? [0] : [])],
    scales: [...shape.map(() => 1), 1, 1, ...(turns ? [0.1] : [])],
    unknownsOf,
    pose,
    places: (v) => {
      if (!v.slice(0, shapeSize).every((each) => Math.abs(each) < MOST_LOG)) return null;
      const curve = buildCurve(family.form(unknownsOf(v.slice(0, shapeSize))));
      const { mirrored, xMm, zMm, turnRad } = pose(v);
      const [cosine, sine] = [Math.cos(turnRad), Math.sin(turnRad)];
      return points.map((point) => {
        const [dx, dz] = [point.xMm - xMm, (mirrored ? -point.yMm : point.yMm) - zMm];
        const [x, z] = [cosine * dx - sine * dz, sine * dx + cosine * dz];
        const at = footOnCurve(curve, x, z, NaN, scratch, foot);
        if (foot[4] === 0) return { xMm: x, zMm: z, offMm: foot[0]!, beyondMm: 0 };
        evaluateCurve(curve, at, there);
        const speed = Math.hypot(there[2]!, there[3]!);
        const [alongX, alongZ] = [x - there[0]!, z - there[1]!];
        return {
          xMm: x,
          zMm: z,
          offMm: (alongX * -there[3]! + alongZ * there[2]!) / speed,
          beyondMm: Math.abs(alongX * there[2]! + alongZ * there[3]!) / speed,
        };
      });
    },
  };
}

/** Logarithms of lengths that are still lengths of a mouth, by far. */
const MOST_LOG = 30;

/** A parabola is drawn so much wider than the points lie. */
const PARABOLA_REACH = 1.5;

/** Derivatives of the shape by the logarithm of the form's size. */
function growth(family: Family, form: FormSpec, shape: readonly number[]): number[] {
  const larger = shapeOf(family.id, family.unknownsOf(scaledForm(form, 1 + STEP))!);
  return shape.map((each, i) => (larger[i]! - each) / STEP);
}

/** Step of the differences, as a part: the answers are smooth logarithms. */
const STEP = 1e-6;
