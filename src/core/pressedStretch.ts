/** The part of a piece of a ray that presses, by the parabola through the clearances at its two ends and its middle. */

/**
 * `piece` holds the radii where it begins and ends, mm; `clearances` are over the lip there (begin, middle, end), mm. Writes the pressed
 * part's ends to `stretch`, the whole piece where it is not one stretch; false where none of it presses.
 */
export function pressedStretch(piece: Float64Array, clearances: Float64Array, stretch: Float64Array): boolean {
  const a = clearances[0]!;
  const b = clearances[1]!;
  const c = clearances[2]!;
  stretch[0] = piece[0]!;
  stretch[1] = piece[1]!;
  if (a < 0 && b < 0 && c < 0) return true;
  // Clearance ≈ b + s·v + q·s² with s from −1 (begin) to 1 (end).
  const v = (c - a) / 2;
  const q = (a + c) / 2 - b;
  const discriminant = v * v - 4 * q * b;
  if (a >= 0 && b >= 0 && c >= 0) {
    if (!(q > 0 && discriminant > 0 && Math.abs(v) < 2 * q)) return false;
  } else if (q <= 0 && a < 0 && c < 0) return true;
  const root = Math.sqrt(Math.max(0, discriminant));
  // Stable roots of q·s² + v·s + b = 0.
  const sum = -(v + (v >= 0 ? root : -root)) / 2;
  const first = q === 0 ? -b / v : sum / q;
  const second = sum === 0 ? first : b / sum;
  const low = Math.min(first, second);
  const high = Math.max(first, second);
  const centre = (piece[0]! + piece[1]!) / 2;
  const half = (piece[1]! - piece[0]!) / 2;
  if (a >= 0 && c >= 0) {
    stretch[0] = centre + half * Math.max(low, -1);
    stretch[1] = centre + half * Math.min(high, 1);
  } else {
    const cut = Math.min(Math.max(low >= -1 && low <= 1 ? low : high, -1), 1);
    if (a < 0) stretch[1] = centre + half * cut;
    else stretch[0] = centre + half * cut;
  }
  return stretch[1] > stretch[0];
}
