/** What the own shape is fitted by: measured swings, their covariance, and one Gauss–Newton step through the seat. docs/numerics.md §14. */
import type { Analysis, HornAngles } from '../analysis';
import type { Deviations } from '../deviations';
import { type MouthMoves, seats } from '../mouthMoves';
import { fitBehind } from '../ownArch/ownArch';
import { scannedJaw } from '../ownArch/scannedArch';
import { isAngleSeen } from '../readings';
import { solveSymmetric } from '../smallSystem';
import type { PlayerRecord } from '../specs';
import { type Pair, crownMm, firstJaw, shaped } from './archRadii';
import { chiSquareTail } from './distributions';
import type { OwnShape } from './findings';
import { SMALLEST_HORN_SD_DEG } from './followRatio';

/** Half step of the differences, in prior deviations. */
const STEP = 0.5;
/** So wide that nothing of the offsets is said, so narrow that the covariance keeps its digits, degrees. */
const FREE_OFFSET_DEG = 100;

export interface Stepped {
  readonly next: Pair;
  /** Of the logarithms after, in prior deviations. */
  readonly sds: Pair;
  readonly residualDeg: number;
  predictions(): OwnShape['predictions'];
}

/** Deviation of the front radius, as a part: an arch that was measured says how sure it is. */
function frontPart({ arch }: PlayerRecord, by: Deviations): number {
  const fit = fitBehind(arch);
  // What was measured by hand says nothing of a jaw that was scanned.
  return fit === null || scannedJaw(arch, 'upper') !== null ? by.formPart : fit.frontRadiusPart;
}

const meanOf = (list: readonly number[]): number => (list.length === 0 ? 0 : list.reduce((sum, each) => sum + each, 0) / list.length);

/** The data, their covariance, and one Gauss–Newton step. Numbers run elevation, lateral, reading by reading. */
export function modelOf(whole: Analysis, moves: MouthMoves, by: Deviations) {
  const sds: Pair = [firstJaw(whole.record).form.kind === 'line' ? 0 : frontPart(whole.record, by), Number.isFinite(crownMm(whole.record)) ? by.crownRadiusPart : 0];
  const flat = (changes: readonly (HornAngles | null)[]): number[] => changes.flatMap((each) => [each?.elevationDeg ?? 0, each?.lateralDeg ?? 0]);
  const plain = flat(whole.readings.map(({ changeFromHome }) => changeFromHome));
  const coarse = seats(whole, whole.record);
  /** Changes of a shape: the full net's, moved as the coarse net moves. */
  const changes = (theta: Pair): number[] | null => {
    const found = seats(whole, shaped(whole.record, sds, theta));
    if (!found || !coarse || found.changes.includes(null)) return null;
    const base = flat(coarse.changes);
    return flat(found.changes).map((value, i) => plain[i]! + value - base[i]!);
  };
  const others = moves.shared.filter(({ name }) => !/arch form|crown's roundness/.test(name)).map(({ readings }) => flat(readings));
  const own = moves.own.map((each) => each.flatMap(({ change }) => change ?? []));
  const used = whole.readings.flatMap(({ measured }, index) => (measured ? [2 * index, 2 * index + 1] : []));
  const data = used.map((at) => {
    const { measured } = whole.readings[at >> 1]!;
    return at % 2 === 0 ? measured!.elevationDeg - whole.home.measured!.elevationDeg : measured!.lateralDeg - whole.home.measured!.lateralDeg;
  });
  const sdOf = (at: number): number => whole.readings[at >> 1]!.measured![at % 2 === 0 ? 'sdDeg' : 'lateralSdDeg'];
  const ownBetween = (a: number, b: number): number =>
    a >> 1 !== b >> 1 ? 0 : own[a >> 1]!.reduce((sum, change) => sum + (a % 2 ? change.lateralDeg : change.elevationDeg) * (b % 2 ? change.lateralDeg : change.elevationDeg), 0);
  const covariance = used.map((a) =>
    used.map((b) => {
      const horn = a === b ? Math.max(sdOf(a), SMALLEST_HORN_SD_DEG) ** 2 : 0;
      // Home's own angle is in every swing alike: an offset of each axis that nothing is known of.
      const offset = a % 2 === b % 2 ? FREE_OFFSET_DEG ** 2 : 0;
      return horn + offset + ownBetween(a, b) + others.reduce((sum, move) => sum + move[a]! * move[b]!, 0);
    }),
  );
  const derivative = (theta: Pair): readonly [number[], number[]] | null => {
    const column = (axis: 0 | 1): number[] | null => {
      if (sds[axis] === 0) return plain.map(() => 0);
      const at = (by: number): number[] | null => changes(axis === 0 ? [theta[0] + by, theta[1]] : [theta[0], theta[1] + by]);
      const [high, low] = [at(STEP), at(-STEP)];
      return high && low && high.map((value, i) => (value - low[i]!) / (2 * STEP));
    };
    const [front, vertical] = [column(0), column(1)];
    return front && vertical && [front, vertical];
  };
  const dot = (a: readonly number[], b: readonly number[]): number => a.reduce((sum, each, i) => sum + each * b[i]!, 0);
  const step = (theta: Pair): Stepped | null => {
    const [now, slopes] = [changes(theta), derivative(theta)];
    if (!now || !slopes) return null;
    const at = slopes.map((column) => used.map((i) => column[i]!));
    const misfit = used.map((i, k) => data[k]! - now[i]! + at[0]![k]! * theta[0] + at[1]![k]! * theta[1]);
    const gains = at.map((column) => solveSymmetric(covariance, column));
    if (!gains[0] || !gains[1]) return null;
    const normal = gains.map((gain, i) => at.map((column, j) => dot(gain!, column) + (i === j ? 1 : 0)));
    const inverse = [[1, 0], [0, 1]].map((unit) => solveSymmetric(normal, unit)!);
    const pull = gains.map((gain) => dot(gain!, misfit));
    const next: Pair = [dot(inverse[0]!, pull), dot(inverse[1]!, pull)];
    // An angle that nobody saw is no misfit.
    const left = used.flatMap((i, k) => (isAngleSeen(sdOf(i)) ? [{ axis: i % 2, by: data[k]! - now[i]! }] : []));
    const middle = [0, 1].map((axis) => meanOf(left.filter((each) => each.axis === axis).map(({ by }) => by)));
    return {
      next,
      sds: [Math.sqrt(inverse[0]![0]!), Math.sqrt(inverse[1]![1]!)],
      residualDeg: Math.sqrt(meanOf(left.map(({ axis, by }) => (by - middle[axis]!) ** 2))),
      predictions: () => {
        // Errors of what is shown: the radii's own, and the other unknowns both directly and through what they did to the radii.
        const gain = [0, 1].map((i) => used.map((_, k) => inverse[i]![0]! * gains[0]![k]! + inverse[i]![1]! * gains[1]![k]!));
        const after = (i: number): number => {
          const slope: Pair = [slopes[0][i]!, slopes[1][i]!];
          const answer = used.map((_, k) => slope[0] * gain[0]![k]! + slope[1] * gain[1]![k]!);
          const radii = [0, 1].map((j) => slope[j]! - dot(answer, at[j]!));
          const rest = others.map((move) => move[i]! - dot(answer, used.map((a) => move[a]!)));
          const noise = used.reduce((sum, a, k) => sum + answer[k]! * dot(answer, used.map((b) => ownBetween(a, b) + (a === b ? sdOf(a) ** 2 : 0))), 0);
          return Math.sqrt(dot(radii, radii) + dot(rest, rest) + noise + ownBetween(i, i));
        };
        const before = (i: number): number => Math.hypot(slopes[0][i]!, slopes[1][i]!, ...others.map((move) => move[i]!), Math.sqrt(ownBetween(i, i)));
        return whole.readings
          .map(({ note, midi, direction, measured }, r) => ({
            note,
            midi,
            direction,
            measured: measured !== null,
            before: { elevationDeg: plain[2 * r]!, lateralDeg: plain[2 * r + 1]!, elevationSdDeg: before(2 * r), lateralSdDeg: before(2 * r + 1) },
            after: { elevationDeg: now[2 * r]!, lateralDeg: now[2 * r + 1]!, elevationSdDeg: after(2 * r), lateralSdDeg: after(2 * r + 1) },
          }))
          .sort((a, b) => a.midi - b.midi);
      },
    };
  };
  const first = derivative([0, 0]);
  const total = covariance.map((row, i) => row.map((each, j) => each + (first ? first[0][used[i]!]! * first[0][used[j]!]! + first[1][used[i]!]! * first[1][used[j]!]! : 0)));
  const misfit = used.map((i, k) => data[k]! - plain[i]!);
  const weighed = solveSymmetric(total, misfit);
  return { sds, step, fitP: weighed ? chiSquareTail(Math.max(0, dot(weighed, misfit)), Math.max(1, used.length - 2)) : 0 };
}
