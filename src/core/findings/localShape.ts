/**
 * The horn's answer to travel near home, from the readings alone: K in (Δelevation, Δlateral) = K·(up, right), by weighted least squares
 * with errors in travel and angles, beside the model's own. docs/numerics.md §13.
 */
import type { Analysis, HornAngles } from '../analysis';
import { toDegrees } from '../frame';
import { type MouthMoves, computeMoves, isHome } from '../mouthMoves';
import { createSeatSession, stateOf } from '../session';
import { chiSquareTail, NORMAL_95 } from './distributions';
import type { CannotTell, Estimate, Finding, LocalShape, Matrix2 } from './findings';
import { SMALLEST_HORN_SD_DEG, hornsIn } from './followRatio';
import { weightedLeastSquares } from './weightedLeastSquares';

/** Readings further from home than this are left out, mm: over 4 mm up and down the answer differs by almost half (docs/model.md). */
const NEAR_HOME_MM = 4;
/** Half the step of the model's own differences, mm: well above the net's grain, well below the bend of an arch. */
const MODEL_STEP_MM = 0.5;
/** An answer less sure than this tells nothing, degrees per mm: the model's own is about 0.7. */
const MOST_SD_DEG_PER_MM = 0.5;
const FEWEST_NOTES = 3;
const MOST_TAKES_ASKED = 20;
/** K has come to rest when no number moves by more, degrees per mm. */
const REST_DEG_PER_MM = 1e-10;
const MOST_ITERATIONS = 200;

interface Point {
  readonly travel: Pair;
  readonly angles: Pair;
  readonly sdsDeg: Pair;
  /** Of travel up and to the right. */
  readonly sdsMm: Pair;
  /** Covariance of what an unseen jaw adds: elevation, both, lateral. */
  readonly jaw: readonly [number, number, number];
}
type Pair = readonly [number, number];

/**
 * From every reading near home with travel and a horn angle. An intercept takes up the error of the home angle. A jaw that was not seen
 * widens its elevation; one that was seen to move with the travel is part of the answer. Cannot tell where travel along its main
 * direction is too little for the deviations; where it is enough only along that, tells the answer along it and nothing across.
 */
export function localShape(analysis: Analysis, moves?: MouthMoves): Finding<LocalShape> {
  const { home } = analysis;
  const near = analysis.readings.flatMap((reading, index) =>
    reading.measured && Math.hypot(reading.travel.upMm, reading.travel.rightMm) <= NEAR_HOME_MM ? [{ reading, index }] : [],
  );
  const notes = [...new Map(near.map(({ reading }) => [reading.midi, reading.note])).entries()].sort(([a], [b]) => a - b).map(([, note]) => note);
  if (near.length === 0) return cannot('no-horn-angles', { notes: [], takes: 1, moreNotes: FEWEST_NOTES, of: 'horn' });
  if (!home.measured) return cannot('no-home-angle', { notes: home.note === null ? [] : [home.note], takes: 1, of: 'horn' });
  if (notes.length < FEWEST_NOTES) return cannot('too-few-notes', { notes: [], takes: 1, moreNotes: FEWEST_NOTES - notes.length, of: 'horn' });
  const homeAngles = home.measured;
  const own = (moves ?? computeMoves(analysis)).own;
  const points = near.map(({ reading, index }): Point => {
    const jaw = own[index]!.flatMap(({ name, change }) => (change && !name.startsWith('travel') ? [change] : []));
    const sum = (of: (change: HornAngles) => number): number => jaw.reduce((total, change) => total + of(change), 0);
    return {
      travel: [reading.travel.upMm, reading.travel.rightMm],
      angles: [reading.measured!.elevationDeg - homeAngles.elevationDeg, reading.measured!.lateralDeg - homeAngles.lateralDeg],
      sdsDeg: [Math.max(reading.measured!.sdDeg, SMALLEST_HORN_SD_DEG), Math.max(reading.measured!.lateralSdDeg, SMALLEST_HORN_SD_DEG)],
      sdsMm: isHome(analysis, reading) ? [0, 0] : [reading.travel.sdMm, reading.travel.rightSdMm],
      jaw: [sum((c) => c.elevationDeg ** 2), sum((c) => c.elevationDeg * c.lateralDeg), sum((c) => c.lateralDeg ** 2)],
    };
  });
  const model = modelAtHome(analysis);
  const main = mainDirection(points);
  if (!model || !(expectedSd(points, main, 1) <= MOST_SD_DEG_PER_MM)) {
    for (let takes = 2; takes <= MOST_TAKES_ASKED; takes++) {
      if (expectedSd(points, main, takes) <= MOST_SD_DEG_PER_MM) return cannot('too-unsure', { notes, takes: takes - 1, of: 'horn' });
    }
    return cannot('too-little-travel', { notes: [], takes: 1, moreNotes: 2, of: 'travel' });
  }
  const whole = expectedSd(points, [-main[1], main[0]], 1) <= MOST_SD_DEG_PER_MM;
  const fit = fitAnswer(points, model, whole ? null : main);
  if (!fit) return cannot('too-unsure', { notes, takes: 1, of: 'horn' });
  const { k, covariance } = fit;
  const alongOf = (row: 0 | 1): Estimate => {
    const value = k[row][0] * main[0] + k[row][1] * main[1];
    const gradient = whole ? [0, 1, 2, 3].map((at) => (Math.floor(at / 2) === row ? main[at % 2]! : 0)) : [row === 0 ? 1 : 0, row === 1 ? 1 : 0];
    const sd = Math.sqrt(gradient.reduce((sum, a, i) => sum + gradient.reduce((inner, b, j) => inner + a * b * covariance[i]![j]!, 0), 0));
    return { value, sd, low: value - NORMAL_95 * sd, high: value + NORMAL_95 * sd };
  };
  return {
    kind: 'told',
    evidence: { notes: notes.length, readings: near.reduce((sum, { reading }) => sum + hornsIn(analysis, reading), 0) },
    degPerMm: whole ? k : null,
    covariance: whole ? covariance : null,
    along: {
      fromUpDeg: toDegrees(Math.atan2(main[1], main[0])),
      elevation: alongOf(0),
      lateral: alongOf(1),
      modelElevation: model[0][0] * main[0] + model[0][1] * main[1],
      modelLateral: model[1][0] * main[0] + model[1][1] * main[1],
    },
    modelDegPerMm: model,
    fitP: chiSquareTail(fit.chi2, 2 * points.length - (whole ? 6 : 4)),
  };
}

const cannot = (reason: CannotTell['reason'], need: CannotTell['needs'][number]): CannotTell => ({ kind: 'cannot-tell', reason, needs: [need] });

/** The model's K at home by central differences on the full net; null where a step finds no seat. */
export function modelAtHome({ record, home, readings }: Analysis): Matrix2 | null {
  const session = createSeatSession(record);
  const atHome = readings.find(({ midi }) => midi === home.midi);
  const at = (upMm: number, rightMm: number): Pair | null => {
    const request = { upMm: home.upMm + upMm, rightMm: home.rightMm + rightMm, forceN: atHome?.forceN ?? record.force.newtons, jaw: atHome?.jaw ?? null };
    const seat = session.followAngles(request, stateOf(home.follow.pose));
    return seat.found ? [toDegrees(seat.elevation), toDegrees(seat.lateral)] : null;
  };
  const [up, down, right, left] = [at(MODEL_STEP_MM, 0), at(-MODEL_STEP_MM, 0), at(0, MODEL_STEP_MM), at(0, -MODEL_STEP_MM)];
  if (!up || !down || !right || !left) return null;
  const slope = (high: Pair, low: Pair, row: 0 | 1): number => (high[row] - low[row]) / (2 * MODEL_STEP_MM);
  return [[slope(up, down, 0), slope(right, left, 0)], [slope(up, down, 1), slope(right, left, 1)]];
}

const meanOf = (points: readonly Point[], of: (point: Point) => number): number => points.reduce((sum, point) => sum + of(point), 0) / points.length;

/** Unit vector (up, right) along which travel spreads most, pointing up. */
function mainDirection(points: readonly Point[]): Pair {
  const [up, right] = [meanOf(points, ({ travel }) => travel[0]), meanOf(points, ({ travel }) => travel[1])];
  const [upUp, upRight, rightRight] = [[0, 0], [0, 1], [1, 1]].map(([a, b]) =>
    meanOf(points, ({ travel }) => (travel[a as 0 | 1] - [up, right][a!]!) * (travel[b as 0 | 1] - [up, right][b!]!)),
  ) as [number, number, number];
  const angle = Math.atan2(2 * upRight, upUp - rightRight) / 2;
  return [Math.cos(angle), Math.sin(angle)];
}

/** Expected deviation of the answer along a direction, degrees per mm, were each note taken so often; the spread of seeing is taken off. */
function expectedSd(points: readonly Point[], [up, right]: Pair, takes: number): number {
  const along = ({ travel }: Point): number => travel[0] * up + travel[1] * right;
  const middle = meanOf(points, along);
  const information = points.reduce((sum, point) => sum + ((along(point) - middle) ** 2 - (up * point.sdsMm[0]) ** 2 - (right * point.sdsMm[1]) ** 2) / (point.sdsDeg[0] ** 2 + point.jaw[0]), 0) * takes;
  return information > 0 ? 1 / Math.sqrt(information) : Infinity;
}

/** York's way in two dimensions: the answer is fitted at the places on it that go with the misfits. `only`: along this, the model's across. */
function fitAnswer(points: readonly Point[], model: Matrix2, only: Pair | null): { k: Matrix2; covariance: number[][]; chi2: number } | null {
  let k = model;
  let shift: Pair = [0, 0];
  const across = only && rowsOf(model, (row) => {
    const along = row[0] * only[0] + row[1] * only[1];
    return [row[0] - along * only[0], row[1] - along * only[1]];
  });
  for (let iteration = 0; iteration < MOST_ITERATIONS; iteration++) {
    const size = only ? 4 : 6;
    const whitened: number[][] = [];
    const values: number[] = [];
    let chi2 = 0;
    for (const point of points) {
      const weight = weightOf(point, k);
      const misfit = minus(minus(point.angles, shift), times(k, point.travel));
      const pull = times(weight, misfit);
      chi2 += misfit[0] * pull[0] + misfit[1] * pull[1];
      const step = times(rowsOf([[k[0][0], k[1][0]], [k[0][1], k[1][1]]], (row) => row), pull);
      const place: Pair = [point.travel[0] + point.sdsMm[0] ** 2 * step[0], point.travel[1] + point.sdsMm[1] ** 2 * step[1]];
      const moved = times(k, minus(place, point.travel));
      const known: Pair = across ? times(across, place) : [0, 0];
      const value: Pair = [point.angles[0] + moved[0] - known[0], point.angles[1] + moved[1] - known[1]];
      const columns = only ? [only[0] * place[0] + only[1] * place[1]] : place;
      const rows = [0, 1].map((row) => [...[0, 1].flatMap((of) => columns.map((each) => (of === row ? each : 0))), row === 0 ? 1 : 0, row === 1 ? 1 : 0]);
      // A root of the weight turns the pair into two numbers of deviation 1 that know nothing of each other.
      for (const [first, second] of rootOf(weight)) {
        whitened.push(rows[0]!.map((each, at) => first * each + second * rows[1]![at]!));
        values.push(first * value[0] + second * value[1]);
      }
    }
    // With errors as large as the travel across the main direction the answer runs off without end, and its weight with it.
    if (!whitened.every((row) => row.every(Number.isFinite)) || !values.every(Number.isFinite)) return null;
    const fit = weightedLeastSquares(whitened, values);
    if (fit.kind === 'not-fitted') return null;
    const answer = fit.coefficients;
    const next: Matrix2 =
      only && across
        ? [[across[0][0] + answer[0]! * only[0], across[0][1] + answer[0]! * only[1]], [across[1][0] + answer[1]! * only[0], across[1][1] + answer[1]! * only[1]]]
        : [[answer[0]!, answer[1]!], [answer[2]!, answer[3]!]];
    const change = Math.max(...[0, 1].flatMap((i) => [0, 1].map((j) => Math.abs(next[i as 0 | 1][j as 0 | 1] - k[i as 0 | 1][j as 0 | 1]))));
    k = next;
    shift = [answer[size - 2]!, answer[size - 1]!];
    if (change > REST_DEG_PER_MM) continue;
    const covariance = fit.covariance.slice(0, size - 2).map((row) => row.slice(0, size - 2));
    return { k, covariance, chi2 };
  }
  return null;
}

const times = (matrix: Matrix2, by: Pair): Pair => [matrix[0][0] * by[0] + matrix[0][1] * by[1], matrix[1][0] * by[0] + matrix[1][1] * by[1]];
const minus = (a: Pair, b: Pair): Pair => [a[0] - b[0], a[1] - b[1]];
const rowsOf = (matrix: Matrix2, change: (row: Pair) => Pair): Matrix2 => [change(matrix[0]), change(matrix[1])];

/** U of W = UᵀU, upper triangular. */
function rootOf([[a, b], [, c]]: Matrix2): readonly [Pair, Pair] {
  const root = Math.sqrt(a);
  return [[root, b / root], [0, Math.sqrt(c - (b * b) / a)]];
}

/** Inverse of the misfit's covariance: angles, unseen jaw, and travel through the answer. */
function weightOf({ sdsDeg, sdsMm, jaw }: Point, k: Matrix2): Matrix2 {
  const [up, right] = [sdsMm[0] ** 2, sdsMm[1] ** 2];
  const a = sdsDeg[0] ** 2 + jaw[0] + up * k[0][0] ** 2 + right * k[0][1] ** 2;
  const b = jaw[1] + up * k[0][0] * k[1][0] + right * k[0][1] * k[1][1];
  const c = sdsDeg[1] ** 2 + jaw[2] + up * k[1][0] ** 2 + right * k[1][1] ** 2;
  const determinant = a * c - b * b;
  return [[c / determinant, -b / determinant], [-b / determinant, a / determinant]];
}
