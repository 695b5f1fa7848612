/**
 * Between readings travel runs along a shape-preserving cubic over pitch: no overshoot, so that a turn-back in the drawing is one
 * in the data. Fritsch FN, Carlson RE, SIAM J Numer Anal 1980;17:238–246; slopes by Fritsch & Butland 1984 (values from memory).
 */
import { tooTight } from './formChecks';

export interface ShapeCurve {
  /** Value at x; outside the knots the end value is kept. */
  at(x: number): number;
}

/** Throws RangeError unless the knots rise strictly. One knot gives a constant. */
export function shapePreserving(knots: readonly number[], values: readonly number[]): ShapeCurve {
  const count = knots.length;
  if (count === 0 || values.length !== count) throw tooTight('knots', `${count}`, 'as many as values, at least one');
  for (let i = 1; i < count; i++) {
    if (!(knots[i]! > knots[i - 1]!)) throw tooTight(`knots[${i}]`, String(knots[i]), `more than ${knots[i - 1]}`);
  }
  const slopes = count > 1 ? monotoneSlopes(knots, values) : [0];
  return {
    at(x) {
      if (x <= knots[0]!) return values[0]!;
      if (x >= knots[count - 1]!) return values[count - 1]!;
      let left = 0;
      let right = count - 1;
      while (right - left > 1) {
        const middle = (left + right) >> 1;
        if (knots[middle]! <= x) left = middle;
        else right = middle;
      }
      const width = knots[right]! - knots[left]!;
      const t = (x - knots[left]!) / width;
      const rest = 1 - t;
      // Written from the left value, so that between equal values it is that value to the last bit.
      return (
        values[left]! +
        (values[right]! - values[left]!) * t * t * (3 - 2 * t) +
        width * (slopes[left]! * t * rest * rest - slopes[right]! * t * t * rest)
      );
    },
  };
}

function monotoneSlopes(knots: readonly number[], values: readonly number[]): number[] {
  const count = knots.length;
  const widths = knots.slice(1).map((knot, i) => knot - knots[i]!);
  const secants = widths.map((width, i) => (values[i + 1]! - values[i]!) / width);
  if (count === 2) return [secants[0]!, secants[0]!];
  const inner = widths.slice(1).map((after, i) => {
    const before = widths[i]!;
    const left = secants[i]!;
    const right = secants[i + 1]!;
    if (left * right <= 0) return 0;
    // Weighted harmonic mean of the neighbours' slopes.
    const w1 = 2 * after + before;
    const w2 = after + 2 * before;
    return (w1 + w2) / (w1 / left + w2 / right);
  });
  return [
    endSlope(widths[0]!, widths[1]!, secants[0]!, secants[1]!),
    ...inner,
    endSlope(widths[count - 2]!, widths[count - 3]!, secants[count - 2]!, secants[count - 3]!),
  ];
}

/** Three-point slope at an end, held so that the cubic keeps the end piece's shape. */
function endSlope(near: number, far: number, secant: number, next: number): number {
  const slope = ((2 * near + far) * secant - near * next) / (near + far);
  if (slope * secant <= 0) return 0;
  if (secant * next <= 0 && Math.abs(slope) > 3 * Math.abs(secant)) return 3 * secant;
  return slope;
}
