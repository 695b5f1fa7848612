/**
 * Small dense weighted least squares by Householder reflections on scaled columns, which loses half as many digits to ill-conditioned
 * columns as the normal equations do. Golub and Van Loan, Matrix Computations, ch. 5 (from memory).
 */
import { tooTight } from '../formChecks';

/** Unknowns that this is made for; its plain arrays are no match for more. */
export const MOST_UNKNOWNS = 12;
/** A column this small beside what it was before reflection is a combination of the others: rounding of doubles times some hundred. */
const RANK_REL = 1e-13;

export interface LeastSquaresFit {
  readonly kind: 'fitted';
  readonly coefficients: readonly number[];
  /** From the deviations as given, not scaled by what is left. */
  readonly covariance: readonly (readonly number[])[];
  /** Sum of ((value − fit)/sd)². */
  readonly chi2: number;
  /** Rows less unknowns. */
  readonly freedom: number;
}

export interface NoLeastSquaresFit {
  readonly kind: 'not-fitted';
  readonly reason: 'too-few-rows' | 'columns-depend';
}

/** Values ≈ rows · coefficients; `sds` one deviation for each value, all 1 where left out. Exact to rounding times the condition of the scaled columns. */
export function weightedLeastSquares(
  rows: readonly (readonly number[])[], values: readonly number[], sds?: readonly number[],
): LeastSquaresFit | NoLeastSquaresFit {
  const unknowns = checked(rows, values, sds);
  if (rows.length < unknowns) return { kind: 'not-fitted', reason: 'too-few-rows' };
  const matrix = rows.map((row, i) => row.map((each) => each / (sds?.[i] ?? 1)));
  const right = values.map((value, i) => value / (sds?.[i] ?? 1));
  const scales = Array.from({ length: unknowns }, (_, column) => Math.hypot(...matrix.map((row) => row[column]!)));
  if (scales.some((scale) => scale === 0)) return { kind: 'not-fitted', reason: 'columns-depend' };
  for (const row of matrix) for (let column = 0; column < unknowns; column++) row[column]! /= scales[column]!;
  for (let column = 0; column < unknowns; column++) {
    if (!reflect(matrix, right, column)) return { kind: 'not-fitted', reason: 'columns-depend' };
  }
  const inverse = invertUpper(matrix, unknowns);
  const coefficients = inverse.map((row, i) => row.reduce((sum, each, j) => sum + each * right[j]!, 0) / scales[i]!);
  const covariance = inverse.map((row, i) =>
    inverse.map((other, j) => row.reduce((sum, each, k) => sum + each * other[k]!, 0) / (scales[i]! * scales[j]!)),
  );
  const chi2 = right.slice(unknowns).reduce((sum, each) => sum + each * each, 0);
  return { kind: 'fitted', coefficients, covariance, chi2, freedom: rows.length - unknowns };
}

function checked(rows: readonly (readonly number[])[], values: readonly number[], sds?: readonly number[]): number {
  const unknowns = rows[0]?.length ?? 0;
  if (unknowns < 1 || unknowns > MOST_UNKNOWNS) throw tooTight('unknowns', `${unknowns}`, `1 to ${MOST_UNKNOWNS}`);
  if (values.length !== rows.length) throw tooTight('values', `${values.length}`, `as many as rows, ${rows.length}`);
  if (sds && sds.length !== rows.length) throw tooTight('sds', `${sds.length}`, `as many as rows, ${rows.length}`);
  rows.forEach((row, i) => {
    if (row.length !== unknowns) throw tooTight(`rows[${i}]`, `${row.length} numbers`, `${unknowns} numbers`);
    if (![...row, values[i]!].every(Number.isFinite)) throw tooTight(`rows[${i}]`, `${row.join(', ')}: ${values[i]}`, 'finite numbers');
    if (sds && !(sds[i]! > 0 && sds[i]! < Infinity)) throw tooTight(`sds[${i}]`, String(sds[i]), 'above 0 and finite');
  });
  return unknowns;
}

/** Turns a column's part below the diagonal to zero, in place; false where nothing is left of it. */
function reflect(matrix: number[][], right: number[], column: number): boolean {
  const norm = Math.hypot(...matrix.slice(column).map((row) => row[column]!));
  // Columns have length 1: this is what earlier ones leave of it.
  if (norm <= RANK_REL) return false;
  const head = matrix[column]![column]!;
  const pivot = head > 0 ? -norm : norm;
  const mirror = matrix.map((row, i) => (i < column ? 0 : i === column ? head - pivot : row[column]!));
  const half = norm * (norm + Math.abs(head));
  const apply = (read: (i: number) => number, write: (i: number, value: number) => void): void => {
    let along = 0;
    for (let i = column; i < mirror.length; i++) along += mirror[i]! * read(i);
    for (let i = column; i < mirror.length; i++) write(i, read(i) - (along / half) * mirror[i]!);
  };
  for (let other = column; other < matrix[0]!.length; other++) {
    apply((i) => matrix[i]![other]!, (i, value) => (matrix[i]![other] = value));
  }
  apply((i) => right[i]!, (i, value) => (right[i] = value));
  return true;
}

function invertUpper(matrix: readonly (readonly number[])[], size: number): number[][] {
  const inverse = Array.from({ length: size }, () => new Array<number>(size).fill(0));
  for (let column = 0; column < size; column++) {
    inverse[column]![column] = 1 / matrix[column]![column]!;
    for (let row = column - 1; row >= 0; row--) {
      let sum = 0;
      for (let k = row + 1; k <= column; k++) sum += matrix[row]![k]! * inverse[k]![column]!;
      inverse[row]![column] = -sum / matrix[row]![row]!;
    }
  }
  return inverse;
}
