/** Files of scans, written by three's exporters, which know nothing of the readers under test. */
import { BufferAttribute, BufferGeometry, Mesh } from 'three';
import { OBJExporter } from 'three/examples/jsm/exporters/OBJExporter.js';
import { PLYExporter } from 'three/examples/jsm/exporters/PLYExporter.js';
import { STLExporter } from 'three/examples/jsm/exporters/STLExporter.js';
import type { ScanMesh } from '../../src/scans/mesh';

export type ScanFile = 'stl' | 'stl-text' | 'ply-text' | 'ply-little' | 'ply-big' | 'obj';
export const SCAN_FILES: readonly ScanFile[] = ['stl', 'stl-text', 'ply-text', 'ply-little', 'ply-big', 'obj'];

export function scanFile(mesh: ScanMesh, kind: ScanFile): Uint8Array {
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(new Float32Array(mesh.points), 3));
  geometry.setIndex(new BufferAttribute(mesh.triangles, 1));
  const object = new Mesh(geometry);
  const text = (written: string): Uint8Array => new TextEncoder().encode(written);
  // Without a callback the exporter answers at once and asks for no frame of a page.
  const noCallback = undefined as unknown as () => void;
  switch (kind) {
    case 'stl': {
      const view = new STLExporter().parse(object, { binary: true });
      return new Uint8Array(view.buffer);
    }
    case 'stl-text':
      return text(new STLExporter().parse(object));
    case 'ply-text':
      return text(new PLYExporter().parse(object, noCallback, {}) as unknown as string);
    case 'ply-little':
    case 'ply-big': {
      const written = new PLYExporter().parse(object, noCallback, { binary: true, littleEndian: kind === 'ply-little' });
      return new Uint8Array(written as unknown as ArrayBuffer);
    }
    case 'obj':
      return text(new OBJExporter().parse(object));
  }
}
