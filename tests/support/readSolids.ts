/** Printed bodies read back by programs that had no part in writing them. */
import { NodeIO } from '@gltf-transform/core';
import { deserialize } from '@jscad/stl-deserializer';
import { validateBytes } from 'gltf-validator';
import type { Corner, Triangle } from './soup';

/** The triangles of a binary STL file, in its own numbers. */
export function readStl(bytes: Uint8Array): Triangle[] {
  const [body] = deserialize({ output: 'geometry', filename: 'read.stl' }, bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength));
  return body!.polygons.map(({ vertices }) => vertices as unknown as Triangle);
}

export interface ReadGlb {
  readonly bodies: readonly { readonly name: string; readonly triangles: readonly Triangle[]; readonly worldMetres: readonly Triangle[] }[];
  readonly scale: Corner;
}

/** Meshes in their own numbers, and as the scene puts them, metres. */
export async function readGlb(bytes: Uint8Array): Promise<ReadGlb> {
  const document = await new NodeIO().readBinary(bytes);
  const scene = document.getRoot().getDefaultScene() ?? document.getRoot().listScenes()[0]!;
  const bodies: { name: string; triangles: Triangle[]; worldMetres: Triangle[] }[] = [];
  scene.traverse((node) => {
    const mesh = node.getMesh();
    if (mesh === null) return;
    const matrix = node.getWorldMatrix();
    for (const part of mesh.listPrimitives()) {
      const place = part.getAttribute('POSITION')!;
      const index = part.getIndices()!;
      const corner = (at: number): Corner => place.getElement(index.getScalar(at), [0, 0, 0]) as unknown as Corner;
      const put = ([x, y, z]: Corner): Corner => [0, 1, 2].map((row) => matrix[row]! * x + matrix[row + 4]! * y + matrix[row + 8]! * z + matrix[row + 12]!) as unknown as Corner;
      const triangles: Triangle[] = [];
      for (let at = 0; at < index.getCount(); at += 3) triangles.push([corner(at), corner(at + 1), corner(at + 2)]);
      bodies.push({ name: node.getName(), triangles, worldMetres: triangles.map(([a, b, c]) => [put(a), put(b), put(c)]) });
    }
  });
  return { bodies, scale: scene.listChildren()[0]!.getScale() };
}

/** What the validator of the format's keepers finds: messages of errors and warnings. */
export async function validateGlb(bytes: Uint8Array): Promise<{ readonly errors: readonly string[]; readonly warnings: readonly string[] }> {
  const { issues } = await validateBytes(bytes);
  const of = (severity: number): string[] => issues.messages.filter((one) => one.severity === severity).map(({ code, message }) => `${code}: ${message}`);
  return { errors: of(0), warnings: of(1) };
}
