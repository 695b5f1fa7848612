/** How alike two rows of numbers are at every shift, by the fast Fourier transform. docs/numerics.md §21. */
import FFT from 'fft.js';

export interface Correlation {
  /** The shift of `values[0]`; at shift s, first[i + s] stands beside second[i]. */
  readonly firstShift: number;
  readonly values: Float64Array;
}

/** Sum over i of first[i + s]·second[i] for every shift at which they overlap. Throws RangeError for an empty row. */
export function crossCorrelation(first: ArrayLike<number>, second: ArrayLike<number>): Correlation {
  if (first.length === 0 || second.length === 0) throw new RangeError(`crossCorrelation: rows of ${first.length} and ${second.length} numbers; allowed: one number at least in each`);
  return summedCorrelation([first], [second]);
}

/**
 * How alike two bundles of rows are at each shift: the sum of their products over that of their squares, over what overlaps, −1 to 1
 * (rows are taken to swing about 0); 0 where fewer than `fewest` columns overlap. All rows of a bundle have one length. Throws RangeError
 * where the bundles have not as many rows.
 */
export function likeness(first: readonly ArrayLike<number>[], second: readonly ArrayLike<number>[], fewest: number): Correlation {
  if (first.length === 0 || first.length !== second.length) throw new RangeError(`likeness: ${first.length} and ${second.length} rows; allowed: as many in both, one at least`);
  const [lengthA, lengthB] = [first[0]!.length, second[0]!.length];
  const { firstShift, values } = summedCorrelation(first, second);
  const [squaresA, squaresB] = [runningSquares(first), runningSquares(second)];
  return {
    firstShift,
    values: values.map((sum, at) => {
      const shift = at + firstShift;
      const [fromA, fromB] = [Math.max(0, shift), Math.max(0, -shift)];
      const columns = Math.min(lengthA - fromA, lengthB - fromB);
      const squares = (squaresA[fromA + columns]! - squaresA[fromA]!) * (squaresB[fromB + columns]! - squaresB[fromB]!);
      return columns < fewest || !(squares > 0) ? 0 : sum / Math.sqrt(squares);
    }),
  };
}

/** Power of a row's frequencies, from 0 to half of its rate: n/2 + 1 numbers. `size`: the row's length, a power of two. */
export function powerSpectrum(size: number): (row: ArrayLike<number>) => Float64Array {
  const fft = new FFT(size);
  const out = fft.createComplexArray() as number[];
  return (row) => {
    fft.realTransform(out, row);
    const powers = new Float64Array(size / 2 + 1);
    for (let at = 0; at < powers.length; at++) {
      const real = out[2 * at]!;
      const imaginary = out[2 * at + 1]!;
      powers[at] = real * real + imaginary * imaginary;
    }
    return powers;
  };
}

function runningSquares(rows: readonly ArrayLike<number>[]): Float64Array {
  const length = rows[0]!.length;
  const sums = new Float64Array(length + 1);
  for (let at = 0; at < length; at++) sums[at + 1] = sums[at]! + rows.reduce((sum, row) => sum + row[at]! ** 2, 0);
  return sums;
}

/** Of pairs of rows, summed over the pairs: two real rows go through one complex transform, their products are summed before the way back. */
function summedCorrelation(first: readonly ArrayLike<number>[], second: readonly ArrayLike<number>[]): Correlation {
  const [lengthA, lengthB] = [first[0]!.length, second[0]!.length];
  const shifts = lengthA + lengthB - 1;
  const size = Math.max(2, 2 ** Math.ceil(Math.log2(shifts)));
  const fft = new FFT(size);
  const both = fft.createComplexArray() as number[];
  const seen = fft.createComplexArray() as number[];
  const product = fft.createComplexArray() as number[];
  product.fill(0);
  first.forEach((row, which) => {
    const other = second[which]!;
    for (let at = 0; at < size; at++) {
      both[2 * at] = at < lengthA ? row[at]! : 0;
      both[2 * at + 1] = at < lengthB ? other[at]! : 0;
    }
    fft.transform(seen, both);
    for (let at = 0; at < size; at++) {
      const here = 2 * at;
      const there = 2 * ((size - at) % size);
      const x = seen[here]!;
      const y = seen[here + 1]!;
      const u = seen[there]!;
      const v = seen[there + 1]!;
      // Four times the first row's spectrum, ((x + u) + i(y − v))/2, times the second's conjugate, ((y + v) − i(u − x))/2.
      product[here]! += (x + u) * (y + v) + (y - v) * (u - x);
      product[here + 1]! += (y - v) * (y + v) - (x + u) * (u - x);
    }
  });
  fft.inverseTransform(seen, product);
  const firstShift = 1 - lengthB;
  return { firstShift, values: Float64Array.from({ length: shifts }, (_, at) => seen[2 * ((at + firstShift + size) % size)]! / 4) };
}
