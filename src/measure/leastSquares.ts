/** Normal equations of a few unknowns, gathered row by row into buffers that are used again: for fits made anew in every frame. */

export interface NormalEquations {
  readonly size: number;
  /** size × size, by rows. */
  readonly matrix: Float64Array;
  readonly right: Float64Array;
  /** Filled by `solveNormal`. */
  readonly answer: Float64Array;
  /** Filled by `solveNormal`: the matrix's inverse, the answer's covariance where each row was weighted by one over its variance. */
  readonly inverse: Float64Array;
}

export function createNormalEquations(size: number): NormalEquations {
  return {
    size,
    matrix: new Float64Array(size * size),
    right: new Float64Array(size),
    answer: new Float64Array(size),
    inverse: new Float64Array(size * size),
  };
}

/** Empties them and puts a prior of this inverse variance on each unknown, about 0. */
export function startNormal(equations: NormalEquations, priors: readonly number[]): void {
  equations.matrix.fill(0);
  equations.right.fill(0);
  for (let row = 0; row < equations.size; row++) equations.matrix[row * (equations.size + 1)] = priors[row] ?? 0;
}

/** Adds one row: coefficients · unknowns = value, with this weight. */
export function addRow(equations: NormalEquations, coefficients: Float64Array, value: number, weight: number): void {
  const { size, matrix, right } = equations;
  for (let row = 0; row < size; row++) {
    const weighted = weight * coefficients[row]!;
    right[row]! += weighted * value;
    for (let column = 0; column < size; column++) matrix[row * size + column]! += weighted * coefficients[column]!;
  }
}

/** Answer and inverse by Gauss–Jordan on the diagonal (the matrix is symmetric and not negative); false where it is singular to rounding. */
export function solveNormal({ size, matrix, right, answer, inverse }: NormalEquations): boolean {
  inverse.set(matrix);
  for (let pivot = 0; pivot < size; pivot++) {
    const divisor = inverse[pivot * size + pivot]!;
    if (!(divisor > SINGULAR * matrix[pivot * size + pivot]!)) return false;
    inverse[pivot * size + pivot] = 1;
    for (let column = 0; column < size; column++) inverse[pivot * size + column]! /= divisor;
    for (let row = 0; row < size; row++) {
      if (row === pivot) continue;
      const factor = inverse[row * size + pivot]!;
      inverse[row * size + pivot] = 0;
      for (let column = 0; column < size; column++) inverse[row * size + column]! -= factor * inverse[pivot * size + column]!;
    }
  }
  for (let row = 0; row < size; row++) {
    let sum = 0;
    for (let column = 0; column < size; column++) sum += inverse[row * size + column]! * right[column]!;
    answer[row] = sum;
  }
  return true;
}

/** What is left of a pivot, as a part of the diagonal, below which the unknown hangs on the others. */
const SINGULAR = 1e-12;

/** Tukey's biweight: 1 at no residual, 0 from `reach` on. */
export function tukey(residual: number, reach: number): number {
  const part = residual / reach;
  return Math.abs(part) >= 1 ? 0 : (1 - part * part) ** 2;
}

/** The middle one of the first `count` values (which get sorted); 0 of none. */
export function medianOf(values: Float64Array, count: number): number {
  const sorted = values.subarray(0, count).sort();
  return count === 0 ? 0 : count % 2 === 1 ? sorted[count >> 1]! : (sorted[count / 2 - 1]! + sorted[count / 2]!) / 2;
}
