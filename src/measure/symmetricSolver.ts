/** Symmetric positive definite systems in flat row-major arrays, for the inner loops of the fits over many frames. */

/** A diagonal left this small beside what it was is a combination of the others: rounding of doubles times some hundred. */
const RANK_REL = 1e-13;

/** Factors A = L·Lᵀ in place (lower half; the upper is left as it was); false where A is not positive definite to rounding. */
export function factor(matrix: Float64Array, size: number): boolean {
  for (let column = 0; column < size; column++) {
    const own = column * size;
    let sum = matrix[own + column]!;
    const before = sum;
    for (let k = 0; k < column; k++) sum -= matrix[own + k]! * matrix[own + k]!;
    if (!(sum > RANK_REL * before)) return false;
    const pivot = Math.sqrt(sum);
    matrix[own + column] = pivot;
    for (let row = column + 1; row < size; row++) {
      let rest = matrix[row * size + column]!;
      for (let k = 0; k < column; k++) rest -= matrix[row * size + k]! * matrix[own + k]!;
      matrix[row * size + column] = rest / pivot;
    }
  }
  return true;
}

/** Solves L·Lᵀ·x = b in place for each of `columns` right-hand sides, which lie as a size × columns array. */
export function solveFactored(lower: Float64Array, size: number, right: Float64Array, columns = 1): void {
  for (let row = 0; row < size; row++) {
    for (let k = 0; k < row; k++) subtractRow(right, row, k, lower[row * size + k]!, columns);
    scaleRow(right, row, 1 / lower[row * size + row]!, columns);
  }
  for (let row = size - 1; row >= 0; row--) {
    for (let k = row + 1; k < size; k++) subtractRow(right, row, k, lower[k * size + row]!, columns);
    scaleRow(right, row, 1 / lower[row * size + row]!, columns);
  }
}

/** The inverse of a symmetric positive definite matrix (a new array), or null. */
export function invertSymmetric(matrix: Float64Array, size: number): Float64Array | null {
  const lower = matrix.slice();
  if (!factor(lower, size)) return null;
  const inverse = new Float64Array(size * size);
  for (let i = 0; i < size; i++) inverse[i * size + i] = 1;
  solveFactored(lower, size, inverse, size);
  return inverse;
}

/** S·C·Sᵀ for a rows × size S and a size × size symmetric C: how errors of C come through S. */
export function sandwich(s: Float64Array, rows: number, c: Float64Array, size: number): Float64Array {
  const half = new Float64Array(rows * size);
  for (let i = 0; i < rows; i++) {
    for (let k = 0; k < size; k++) {
      const each = s[i * size + k]!;
      if (each === 0) continue;
      for (let j = 0; j < size; j++) half[i * size + j]! += each * c[k * size + j]!;
    }
  }
  const result = new Float64Array(rows * rows);
  for (let i = 0; i < rows; i++) {
    for (let j = 0; j < rows; j++) {
      let sum = 0;
      for (let k = 0; k < size; k++) sum += half[i * size + k]! * s[j * size + k]!;
      result[i * rows + j] = sum;
    }
  }
  return result;
}

function subtractRow(right: Float64Array, row: number, other: number, times: number, columns: number): void {
  if (times === 0) return;
  for (let j = 0; j < columns; j++) right[row * columns + j]! -= times * right[other * columns + j]!;
}

function scaleRow(right: Float64Array, row: number, by: number, columns: number): void {
  for (let j = 0; j < columns; j++) right[row * columns + j]! *= by;
}
