/** Pictures of ellipses with known edges, each pixel the mean over its own square, for tests of measuring. */
import type { Random } from '../../src/core/random';
import type { GreyPicture } from '../../src/measure/picture';
import type { RimEllipse } from '../../src/measure/traces';

/** Places a side at which a pixel's square is read. */
const FINE = 8;

export interface DrawnRing {
  readonly ellipse: RimEllipse;
  /** Inner edge as a part of the outer; 0 is a full disc. */
  readonly innerPart: number;
  readonly ring: number;
  readonly outside: number;
  readonly inside: number;
  /** One deviation of each pixel's noise. */
  readonly noise: number;
}

export function drawnRing(width: number, height: number, drawn: DrawnRing, random: Random): GreyPicture {
  const { centre, semiMajorPx, semiMinorPx, angleRad } = drawn.ellipse;
  const [cosine, sine] = [Math.cos(angleRad), Math.sin(angleRad)];
  const shade = (x: number, y: number): number => {
    const part = partAt(x, y);
    return part > 1 ? drawn.outside : part > drawn.innerPart ? drawn.ring : drawn.inside;
  };
  const partAt = (x: number, y: number): number => {
    const [dx, dy] = [x - centre.x, y - centre.y];
    return Math.hypot((cosine * dx + sine * dy) / semiMajorPx, (cosine * dy - sine * dx) / semiMinorPx);
  };
  // Only where a pixel's corner may lie beyond an edge is the square worth reading finely.
  const near = 1 / semiMinorPx;
  const luma = new Uint8Array(width * height);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const part = partAt(x, y);
      const plain = Math.abs(part - 1) > near && Math.abs(part - drawn.innerPart) > near;
      const value = (plain ? shade(x, y) : meanOver(x, y, shade)) + drawn.noise * random.normal();
      luma[y * width + x] = Math.max(0, Math.min(255, Math.round(value)));
    }
  }
  return { width, height, luma };
}

function meanOver(x: number, y: number, shade: (x: number, y: number) => number): number {
  let sum = 0;
  for (let i = 0; i < FINE; i++) for (let j = 0; j < FINE; j++) sum += shade(x + (i + 0.5) / FINE - 0.5, y + (j + 0.5) / FINE - 0.5);
  return sum / FINE ** 2;
}
