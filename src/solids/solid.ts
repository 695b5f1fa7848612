/** A closed body as triangles: what is printed and held. Coordinates in mm, doubles; triangles wound so that their normals point out. */
export interface Solid {
  /** Three coordinates a corner, mm. */
  readonly positions: Float64Array;
  /** Three corners a triangle. */
  readonly index: Uint32Array;
}

/** A body of a file with its name and colour; a file may hold several that do not touch. */
export interface NamedSolid {
  readonly name: string;
  readonly solid: Solid;
  readonly colour: string;
}

/** Where numbers make no body that could be printed. */
export interface NotSolid {
  readonly kind: 'refused';
  readonly why: SolidRefusal;
}

/** Why there is no body; refusalWords.ts says it, on the page, so that the worker needs no words. */
export type SolidRefusal =
  | { readonly reason: 'one-surface' | 'too-tight' | 'too-fine' | 'too-close' | 'too-open' | 'nothing-across' | 'not-closed' | 'no-notes' }
  | { readonly reason: 'too-many-pegs'; readonly most: number; readonly count: number }
  | { readonly reason: 'far-note'; readonly note: string; readonly mostMm: number }
  | { readonly reason: 'steep-note'; readonly note: string }
  | { readonly reason: 'thin-rim' | 'small-hole'; readonly leastMm: number }
  | { readonly reason: 'large-rim'; readonly mostMm: number };

export const notSolid = (why: SolidRefusal): NotSolid => ({ kind: 'refused', why });

/** Collects corners and triangles. */
export interface SolidBuilder {
  /** Number of the new corner. */
  corner(x: number, y: number, z: number): number;
  triangle(a: number, b: number, c: number): void;
  /** Four corners round a face, seen from outside against the clock, cut along a–c. */
  quad(a: number, b: number, c: number, d: number): void;
  /** The same cut along its shorter diagonal. */
  shortQuad(a: number, b: number, c: number, d: number): void;
  build(): Solid;
}

export function solidBuilder(): SolidBuilder {
  const positions: number[] = [];
  const index: number[] = [];
  const triangle = (a: number, b: number, c: number): void => void index.push(a, b, c);
  const quad = (a: number, b: number, c: number, d: number): void => void index.push(a, b, c, a, c, d);
  const square = (a: number, b: number): number => {
    let sum = 0;
    for (let axis = 0; axis < 3; axis++) sum += (positions[a * 3 + axis]! - positions[b * 3 + axis]!) ** 2;
    return sum;
  };
  return {
    corner: (x, y, z) => positions.push(x, y, z) / 3 - 1,
    triangle,
    quad,
    shortQuad: (a, b, c, d) => (square(a, c) <= square(b, d) ? quad(a, b, c, d) : quad(b, c, d, a)),
    build: () => ({ positions: Float64Array.from(positions), index: Uint32Array.from(index) }),
  };
}

/** The body moved by a vector, mm. */
export function movedSolid({ positions, index }: Solid, x: number, y: number, z: number): Solid {
  const by = [x, y, z];
  return { positions: positions.map((value, at) => value + by[at % 3]!), index };
}

/** Smallest box round bodies, mm. */
export interface Box {
  readonly low: readonly [number, number, number];
  readonly high: readonly [number, number, number];
}

export function boxOf(solids: readonly Solid[]): Box {
  const low: [number, number, number] = [Infinity, Infinity, Infinity];
  const high: [number, number, number] = [-Infinity, -Infinity, -Infinity];
  for (const { positions } of solids) {
    positions.forEach((value, at) => {
      const axis = (at % 3) as 0 | 1 | 2;
      if (value < low[axis]) low[axis] = value;
      if (value > high[axis]) high[axis] = value;
    });
  }
  return { low, high };
}
