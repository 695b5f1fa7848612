/** Small dense symmetric systems by Cholesky, for fits of a few unknowns. */

/** Solves A·x = b for a symmetric positive definite A (rows of rows); null where A is not, to rounding. */
export function solveSymmetric(matrix: readonly (readonly number[])[], right: readonly number[]): number[] | null {
  const size = right.length;
  const lower = lowerRoot(matrix);
  if (lower === null) return null;
  const answer = [...right];
  for (let row = 0; row < size; row++) {
    for (let k = 0; k < row; k++) answer[row]! -= lower[row]![k]! * answer[k]!;
    answer[row]! /= lower[row]![row]!;
  }
  for (let row = size - 1; row >= 0; row--) {
    for (let k = row + 1; k < size; k++) answer[row]! -= lower[k]![row]! * answer[k]!;
    answer[row]! /= lower[row]![row]!;
  }
  return answer;
}

/** x with L·x = b, for a lower triangle. */
export function solveLower(lower: readonly (readonly number[])[], right: readonly number[]): number[] {
  const answer: number[] = [];
  right.forEach((value, row) => answer.push((value - answer.reduce((sum, each, k) => sum + lower[row]![k]! * each, 0)) / lower[row]![row]!));
  return answer;
}

/** L with L·Lᵀ = A, below its diagonal; what stands above it means nothing. Null where A is not symmetric positive definite, to rounding. */
export function lowerRoot(matrix: readonly (readonly number[])[]): number[][] | null {
  const size = matrix.length;
  const lower: number[][] = matrix.map((row) => [...row]);
  const largest = Math.max(...matrix.map((row, index) => Math.abs(row[index]!)));
  for (let column = 0; column < size; column++) {
    for (let row = column; row < size; row++) {
      let sum = matrix[row]![column]!;
      for (let k = 0; k < column; k++) sum -= lower[row]![k]! * lower[column]![k]!;
      if (row === column) {
        if (!(sum > 1e-14 * largest)) return null;
        lower[column]![column] = Math.sqrt(sum);
      } else lower[row]![column] = sum / lower[column]![column]!;
    }
  }
  return lower;
}
