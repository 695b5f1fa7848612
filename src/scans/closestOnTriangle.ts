/** The closest point of a triangle, by the part of space that the place lies in (Ericson 2005, Real-Time Collision Detection, §5.1.5; value from memory). */

/** Writes the closest point and the squared distance, four numbers, to `out`. */
export function closestOnTriangle(
  points: Float64Array, triangles: Uint32Array, triangle: number, place: Float64Array, out: Float64Array,
): void {
  const a = 3 * triangles[3 * triangle]!;
  const b = 3 * triangles[3 * triangle + 1]!;
  const c = 3 * triangles[3 * triangle + 2]!;
  const ax = points[a]!;
  const ay = points[a + 1]!;
  const az = points[a + 2]!;
  const ux = points[b]! - ax;
  const uy = points[b + 1]! - ay;
  const uz = points[b + 2]! - az;
  const vx = points[c]! - ax;
  const vy = points[c + 1]! - ay;
  const vz = points[c + 2]! - az;
  const px = place[0]! - ax;
  const py = place[1]! - ay;
  const pz = place[2]! - az;
  const alongU = ux * px + uy * py + uz * pz;
  const alongV = vx * px + vy * py + vz * pz;
  // Parts of the second and third corner; the first has the rest.
  let second = 0;
  let third = 0;
  if (alongU > 0 || alongV > 0) {
    const uu = ux * ux + uy * uy + uz * uz;
    const uv = ux * vx + uy * vy + uz * vz;
    const vv = vx * vx + vy * vy + vz * vz;
    const secondU = alongU - uu;
    const secondV = alongV - uv;
    const thirdU = alongU - uv;
    const thirdV = alongV - vv;
    const ofThird = alongU * secondV - secondU * alongV;
    const ofSecond = thirdU * alongV - alongU * thirdV;
    const ofFirst = secondU * thirdV - thirdU * secondV;
    if (secondU >= 0 && secondV <= secondU) second = 1;
    else if (thirdV >= 0 && thirdU <= thirdV) third = 1;
    else if (ofThird <= 0 && alongU >= 0 && secondU <= 0) second = alongU / (alongU - secondU);
    else if (ofSecond <= 0 && alongV >= 0 && thirdV <= 0) third = alongV / (alongV - thirdV);
    else if (ofFirst <= 0 && secondV - secondU >= 0 && thirdU - thirdV >= 0) {
      third = (secondV - secondU) / (secondV - secondU + thirdU - thirdV);
      second = 1 - third;
    } else {
      const whole = ofFirst + ofSecond + ofThird;
      second = ofSecond / whole;
      third = ofThird / whole;
    }
  }
  const x = second * ux + third * vx;
  const y = second * uy + third * vy;
  const z = second * uz + third * vz;
  out[0] = ax + x;
  out[1] = ay + y;
  out[2] = az + z;
  out[3] = (px - x) ** 2 + (py - y) ** 2 + (pz - z) ** 2;
}
