/** Eigenvalues and eigenvectors of small symmetric matrices by Jacobi's rotations (Golub & Van Loan, Matrix Computations, §8.5; value from memory). */

export interface SymmetricEigen {
  /** Rising. */
  readonly values: readonly number[];
  /** `vectors[i]` is the unit vector of `values[i]`. */
  readonly vectors: readonly (readonly number[])[];
}

/** Sweeps after which a matrix of up to six rows is diagonal to the last bit; convergence is quadratic, six are usual. */
const SWEEPS = 30;

/** Of a real symmetric matrix (rows of rows, finite); values to about 1e-15 of the largest. */
export function symmetricEigen(matrix: readonly (readonly number[])[]): SymmetricEigen {
  const size = matrix.length;
  const a = matrix.map((row) => [...row]);
  const v = a.map((_, row) => a.map((__, column) => (row === column ? 1 : 0)));
  for (let sweep = 0; sweep < SWEEPS && offDiagonal(a) > 0; sweep++) {
    for (let p = 0; p < size - 1; p++) for (let q = p + 1; q < size; q++) rotate(a, v, p, q);
  }
  const order = a.map((_, index) => index).sort((one, other) => a[one]![one]! - a[other]![other]!);
  return {
    values: order.map((index) => a[index]![index]!),
    vectors: order.map((index) => v.map((row) => row[index]!)),
  };
}

function offDiagonal(a: readonly (readonly number[])[]): number {
  let sum = 0;
  for (let row = 0; row < a.length; row++) for (let column = 0; column < row; column++) sum += a[row]![column]! ** 2;
  return sum;
}

/** Makes a[p][q] zero by a turn in the plane of p and q, and turns v along. */
function rotate(a: number[][], v: number[][], p: number, q: number): void {
  const off = a[p]![q]!;
  if (off === 0) return;
  const ratio = (a[q]![q]! - a[p]![p]!) / (2 * off);
  const tangent = Math.sign(ratio || 1) / (Math.abs(ratio) + Math.hypot(1, ratio));
  const cosine = 1 / Math.hypot(1, tangent);
  const sine = tangent * cosine;
  for (const row of a) turn(row, p, q, cosine, sine);
  const [rowP, rowQ] = [a[p]!, a[q]!];
  for (let k = 0; k < a.length; k++) {
    const [atP, atQ] = [rowP[k]!, rowQ[k]!];
    rowP[k] = cosine * atP - sine * atQ;
    rowQ[k] = sine * atP + cosine * atQ;
  }
  a[p]![q] = 0;
  a[q]![p] = 0;
  for (const row of v) turn(row, p, q, cosine, sine);
}

function turn(row: number[], p: number, q: number, cosine: number, sine: number): void {
  const [atP, atQ] = [row[p]!, row[q]!];
  row[p] = cosine * atP - sine * atQ;
  row[q] = sine * atP + cosine * atQ;
}
