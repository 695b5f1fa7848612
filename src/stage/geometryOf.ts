/** Typed arrays to three's buffers, and giving them back when a component lets go of them. */
import { useEffect } from 'react';
import { BufferAttribute, BufferGeometry, Color, SRGBColorSpace } from 'three';
import { mergeGeometries } from 'three/addons/utils/BufferGeometryUtils.js';

export function geometryOf(
  positions: Float32Array,
  index: Uint32Array | null,
  options: { readonly values?: Float32Array; readonly size?: 3 | 4; readonly normals?: boolean } = {},
): BufferGeometry {
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(positions, 3));
  if (index) geometry.setIndex(new BufferAttribute(index, 1));
  if (options.values) geometry.setAttribute('color', new BufferAttribute(options.values, options.size ?? 3));
  // Shapes in one flat colour have no use for normals.
  if (options.normals ?? true) geometry.computeVertexNormals();
  return geometry;
}

/** One geometry of several of a kind, at least one, which are given back: so that they are a single draw. */
export function joinedGeometry(pieces: readonly BufferGeometry[]): BufferGeometry {
  const joined = mergeGeometries([...pieces]);
  for (const piece of pieces) piece.dispose();
  return joined;
}

/** Linear red, green, blue of a CSS colour, as vertex colours want them. */
export function linear(color: string): readonly [number, number, number] {
  const { r, g, b } = new Color().setStyle(color, SRGBColorSpace);
  return [r, g, b];
}

export const mixed = (
  a: readonly [number, number, number],
  b: readonly [number, number, number],
  part: number,
): [number, number, number] => [a[0] + (b[0] - a[0]) * part, a[1] + (b[1] - a[1]) * part, a[2] + (b[2] - a[2]) * part];

/** Frees what was made for a component once it is replaced or gone; `things` is one memoised list. */
export function useDisposal(things: readonly { dispose(): void }[]): void {
  useEffect(() => () => things.forEach((thing) => thing.dispose()), [things]);
}
