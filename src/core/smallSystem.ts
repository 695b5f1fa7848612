/** Small dense symmetric systems by Cholesky, for fits of a few unknowns. */

/** Solves A·x = b for a symmetric positive definite A (rows of rows); null where A is not, to rounding. */
export function solveSymmetric(matrix: readonly (readonly number[])[], right: readonly number[]): number[] | null {
  const size = right.length;
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
