/** A scanned jaw ready to rest a rim on, as plain arrays: made in a worker, taken up on the page without working anything out again. */
import { type GapField, createGapField } from './gapField';
import type { LatticeParts } from './gapLattice';
import type { Box, ScanMesh } from './mesh';
import { type DistanceParts, type SignedDistance, createSignedDistance } from './signedDistance';

export interface JawParts {
  /** In the jaw's own frame, mm. */
  readonly mesh: ScanMesh;
  readonly across: Int32Array;
  /** Holds all of it. */
  readonly scanned: Box;
  readonly distance: DistanceParts;
  readonly lattice: LatticeParts;
}

/** Copies: the worker goes on with its own. */
export function jawParts(mesh: ScanMesh, across: Int32Array, distance: SignedDistance, field: GapField): JawParts {
  return {
    mesh: { points: mesh.points.slice(), triangles: mesh.triangles.slice() },
    across: across.slice(),
    scanned: field.scanned,
    distance: distance.parts(),
    lattice: field.parts(),
  };
}

/** Some milliseconds for 200,000 triangles: nothing is built. */
export function fieldOf({ mesh, across, scanned, distance, lattice }: JawParts): GapField {
  return createGapField(createSignedDistance({ mesh, across }, distance), scanned, undefined, lattice);
}

/** What is handed over to another thread instead of being copied. */
export function buffersOf({ mesh, across, distance, lattice }: JawParts): ArrayBuffer[] {
  const { roots, indirectBuffer } = distance.tree;
  return [
    mesh.points, mesh.triangles, across, distance.cornerNormals, distance.borderCorners,
    lattice.distances, lattice.coefficients, lattice.border, lattice.ready,
  ].map(({ buffer }) => buffer as ArrayBuffer).concat(roots, indirectBuffer === null ? [] : [indirectBuffer.buffer as ArrayBuffer]);
}
