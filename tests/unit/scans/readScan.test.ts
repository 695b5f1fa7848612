import { describe, expect, it } from 'vitest';
import { OBJLoader } from 'three/examples/jsm/loaders/OBJLoader.js';
import { PLYLoader } from 'three/examples/jsm/loaders/PLYLoader.js';
import { STLLoader } from 'three/examples/jsm/loaders/STLLoader.js';
import type { BufferGeometry, Mesh } from 'three';
import { type ScanRead, readScan } from '../../../src/scans/readScan';
import { MOST_BYTES, type ScanRefusalReason } from '../../../src/scans/scanRefusals';
import { numberBetween } from '../../../src/scans/textCursor';
import { expectWithin } from '../../support/expectWithin';
import { SCAN_FILES, type ScanFile, scanFile } from '../../support/scanFiles';
import { cutBall } from '../../support/scannedShapes';

const ball = cutBall(20, 12, [1, 2, 3]);
const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);

function read(bytes: Uint8Array): ScanRead {
  const scan = readScan(bytes);
  if (scan.kind === 'refused') throw new Error(scan.words);
  return scan;
}

/** The corners of all triangles, one after the other. */
const spelledOut = ({ mesh }: ScanRead): number[] =>
  [...mesh.triangles].flatMap((corner) => [...mesh.points.subarray(3 * corner, 3 * corner + 3)]);

/** The same by three's own loaders. */
function byThree(bytes: Uint8Array, kind: ScanFile): number[] {
  const whole = bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength) as ArrayBuffer;
  let geometry: BufferGeometry;
  if (kind.startsWith('stl')) geometry = new STLLoader().parse(whole);
  else if (kind.startsWith('ply')) geometry = new PLYLoader().parse(whole);
  else geometry = (new OBJLoader().parse(new TextDecoder().decode(bytes)).children[0] as Mesh).geometry;
  const places = geometry.index === null ? geometry : geometry.toNonIndexed();
  return [...places.getAttribute('position').array];
}

describe('A good file', () => {
  it.each(SCAN_FILES)('%s: the same triangles as by another reader', (kind) => {
    const bytes = scanFile(ball, kind);
    const ours = spelledOut(read(bytes));
    const theirs = byThree(bytes, kind);
    expect(ours.length).toBe(theirs.length);
    expect(ours.length).toBe(3 * ball.triangles.length);
    // Theirs are single floats.
    for (const [index, place] of ours.entries()) expectWithin(place, theirs[index]!, { abs: 1e-6, rel: 1e-6 });
  });

  it('is known by its content and not by a name', () => {
    expect(SCAN_FILES.map((kind) => read(scanFile(ball, kind)).format)).toEqual(['stl', 'stl-text', 'ply', 'ply', 'ply', 'obj']);
  });

  it('may be a binary STL that begins with “solid”', () => {
    const bytes = scanFile(ball, 'stl');
    bytes.set(bytesOf('solid scan'));
    expect(read(bytes).format).toBe('stl');
  });

  it('may begin with a byte-order mark, as text of every kind; in a binary STL these are bytes of its remark', () => {
    const mark = [0xef, 0xbb, 0xbf];
    for (const kind of SCAN_FILES) {
      const bytes = scanFile(ball, kind);
      const plain = read(bytes);
      const marked = Uint8Array.from([...mark, ...bytes]);
      if (kind === 'stl') marked.set([...mark, ...bytes.subarray(3)]);
      expect(read(kind === 'stl' ? marked.subarray(0, bytes.length) : marked), kind).toEqual(plain);
    }
  });

  it('may have faces of more corners, corners counted from the end, normals, colours, blank lines and joined ones', () => {
    const text = '# a square\r\nmtllib x.mtl\no square\nv 0 0 0 0.5 0.5 0.5\nv 1 0 0\n\nv 1 1 \\\n 0\nv 0 1 0\nvn 0 0 1\nf 1//1 2//1 3//1 -1//1\n';
    expect([...read(bytesOf(text)).mesh.triangles]).toEqual([0, 1, 2, 0, 2, 3]);
    const ply =
      'ply\nformat ascii 1.0\ncomment square\nelement vertex 4\nproperty float x\nproperty float y\nproperty float z\nproperty uchar red\n' +
      'element face 1\nproperty uchar flags\nproperty list uchar int vertex_index\nelement edge 1\nproperty int vertex1\nend_header\n' +
      '0 0 0 9\n1 0 0 9\n1 1 0 9\n0 1 0 9\n7 4 0 1 2 3\n5\n';
    expect([...read(bytesOf(ply)).mesh.triangles]).toEqual([0, 1, 2, 0, 2, 3]);
  });
});

describe('A file that cannot be used is refused in words', () => {
  const reasonOf = (bytes: Uint8Array): ScanRefusalReason | 'read' => {
    const scan = readScan(bytes);
    if (scan.kind === 'read') return 'read';
    expect(scan.words).toMatch(/^[A-Z].*\.$/);
    return scan.reason;
  };
  const stl = scanFile(ball, 'stl');
  const announcing = (count: number): Uint8Array => {
    const bytes = stl.slice();
    new DataView(bytes.buffer).setUint32(80, count, true);
    return bytes;
  };
  const notNumber = (): Uint8Array => {
    const bytes = stl.slice();
    new DataView(bytes.buffer).setFloat32(84 + 12, NaN, true);
    return bytes;
  };
  const text = (kind: ScanFile): string => new TextDecoder().decode(scanFile(ball, kind));

  it.each<readonly [string, Uint8Array, ScanRefusalReason]>([
    ['nothing', new Uint8Array(0), 'empty'],
    ['more than 100 MB', new Uint8Array(MOST_BYTES + 1), 'too-large'],
    ['a letter', bytesOf('Dear colleague, here is the scan: it is attached.'), 'other-kind'],
    ['a packed file', Uint8Array.from({ length: 5000 }, (_, i) => (i < 4 ? [0x50, 0x4b, 3, 4][i]! : (i * 7919) % 251)), 'other-kind'],
    ['a cut STL', stl.subarray(0, stl.length - 700), 'cut-short'],
    ['a cut STL of text', bytesOf(text('stl-text').slice(0, 5000)), 'cut-short'],
    ['a cut PLY of text', bytesOf(text('ply-text').slice(0, -300)), 'cut-short'],
    ['a cut binary PLY', scanFile(ball, 'ply-big').slice(0, -300), 'cut-short'],
    ['an STL that announces fewer', announcing(100), 'count-untrue'],
    ['an STL that announces more', announcing(100_000), 'cut-short'],
    ['a PLY that holds more', bytesOf(`${text('ply-text')}\n1 2 3\n`), 'count-untrue'],
    ['a PLY that announces a hundred million', bytesOf(text('ply-text').replace(/element vertex \d+/, 'element vertex 100000000')), 'cut-short'],
    ['an STL with a place that is no number', notNumber(), 'not-a-number'],
    ['an OBJ with such a place', bytesOf('v 0 0 0\nv 1 nan 0\nv 0 1 0\nf 1 2 3\n'), 'not-a-number'],
    ['a place beyond every mouth', bytesOf('v 0 0 0\nv 1e30 0 0\nv 0 1 0\nf 1 2 3\n'), 'not-a-number'],
    ['a triangle of corners that are not there', bytesOf('v 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 9\n'), 'missing-corner'],
    ['points alone', bytesOf('v 0 0 0\nv 1 0 0\nv 0 1 0\n'), 'no-triangles'],
    ['words pretending to be an STL', bytesOf('solid '.repeat(200_000)), 'cut-short'],
    ['facets that never end', bytesOf(`solid x\n${'facet '.repeat(200_000)}`), 'damaged'],
  ])('%s', (_, bytes, reason) => {
    expect(reasonOf(bytes)).toBe(reason);
  });

  it('parts that hold nothing are passed over, however many are announced', () => {
    const nothing = 'element nothing 199999999\n'.repeat(100);
    const from = performance.now();
    expect(reasonOf(bytesOf(text('ply-text').replace('element vertex', `${nothing}element vertex`)))).toBe('read');
    // Counted one by one they take most of a minute.
    expect(performance.now() - from).toBeLessThan(3000);
  });

  it('names the line', () => {
    const scan = readScan(bytesOf('v 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 3\nbanana\n'));
    expect(scan.kind === 'refused' && scan.words).toContain('line 5');
  });
});

describe('numberBetween', () => {
  it.each(['0', '-0.5', '+12.25e-3', '1e5', '.5', '5.', '123456789012345678', '3.4028234663852886e+38', '-1.17549435e-38'])('%s as the language reads it', (word) => {
    expectWithin(numberBetween(bytesOf(word), 0, word.length), Number(word), { rel: 1e-15 });
  });

  it.each(['', '-', '.', 'e5', '1e', '1e+', '0x10', 'nan', 'Infinity', '1,5', '1.2.3', '--1'])('“%s” is none', (word) => {
    expect(numberBetween(bytesOf(word), 0, word.length)).toBeNaN();
  });
});
