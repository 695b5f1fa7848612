/**
 * The one door to three's exporters: bodies as an STL file for printing and as a GLB file for looking at. Needs `FileReader`, which pages and
 * workers have.
 */
import { BufferAttribute, BufferGeometry, Group, Mesh, MeshStandardMaterial } from 'three';
import { GLTFExporter } from 'three/examples/jsm/exporters/GLTFExporter.js';
import { STLExporter } from 'three/examples/jsm/exporters/STLExporter.js';
import type { NamedSolid } from './solid';

/** Binary STL. The format has no unit; as every printing program does, it is to be read in mm. Flat backs lie at z = `backMm` → 0. */
export function stlFile(solids: readonly NamedSolid[], backMm: number): Uint8Array<ArrayBuffer> {
  const group = groupOf(solids);
  group.position.z = -backMm;
  group.updateMatrixWorld(true);
  const view = new STLExporter().parse(group, { binary: true });
  return new Uint8Array(view.buffer, view.byteOffset, view.byteLength);
}

/** The name of the node whose scale turns millimetres into the metres of glTF. */
const MILLIMETRES_NODE = 'millimetres';
export const METRES_A_MM = 0.001;

/**
 * glTF 2.0, binary. Its unit is the metre (glTF 2.0 specification, 3.4 Coordinate System and Units), so the corners stay in mm, as they were
 * computed, under one node scaled by 0.001: every reader that follows the specification shows true size. Its axes are those of the player's
 * frame: y up, z forward, x to the left.
 */
export async function glbFile(solids: readonly NamedSolid[]): Promise<Uint8Array<ArrayBuffer>> {
  const group = groupOf(solids);
  group.name = MILLIMETRES_NODE;
  group.scale.setScalar(METRES_A_MM);
  const made = await new GLTFExporter().parseAsync(group, { binary: true });
  if (!(made instanceof ArrayBuffer)) throw new Error('glbFile: the exporter answered with JSON');
  return new Uint8Array(made);
}

function groupOf(solids: readonly NamedSolid[]): Group {
  const group = new Group();
  for (const { name, solid, colour } of solids) {
    const geometry = new BufferGeometry();
    // No normals: without them a reader shades each triangle flat (specification, 3.7.2.1), which is what is printed.
    geometry.setAttribute('position', new BufferAttribute(Float32Array.from(solid.positions), 3));
    geometry.setIndex(new BufferAttribute(solid.index, 1));
    const mesh = new Mesh(geometry, new MeshStandardMaterial({ color: colour, roughness: 0.7, metalness: 0 }));
    mesh.name = name;
    group.add(mesh);
  }
  return group;
}
