/** Files of scans damaged at random: each is read or refused in words, quickly, and what is read is sound. */
import { expect, it } from 'vitest';
import { createRandom } from '../../src/core/random';
import { mendScan } from '../../src/scans/mendScan';
import { readScan } from '../../src/scans/readScan';
import { SCAN_FILES, scanFile } from '../support/scanFiles';
import { cutBall } from '../support/scannedShapes';
import { longer, propertySeed, seedWords } from '../support/seed';

const FILES = longer(5000);
/** Changes to a file of some kilobytes. */
const MOST_CHANGES = 6;

it(`${FILES} damaged files ${seedWords}`, () => {
  const random = createRandom(propertySeed);
  const whole = (most: number): number => Math.min(most - 1, Math.floor(random.uniform() * most));
  const ball = cutBall(20, 5);
  const good = SCAN_FILES.map((kind) => scanFile(ball, kind));
  const words = ['nan', '1e999', '-', 'vertex', 'f 1 2 3\n', 'element face 999999999\n', '\0', 'solid', 'end_header\n', '4 0 1 2 3'].map((word) => new TextEncoder().encode(word));
  const outcomes = { read: 0, refused: 0 };

  const damage = (bytes: Uint8Array): Uint8Array => {
    const at = whole(bytes.length);
    switch (whole(6)) {
      case 0:
        return bytes.slice(0, at);
      case 1: {
        const changed = bytes.slice();
        changed[at] = whole(256);
        return changed;
      }
      case 2: {
        const changed = bytes.slice();
        changed[at]! ^= 1 << whole(8);
        return changed;
      }
      case 3: {
        const word = words[whole(words.length)]!;
        return together(bytes.subarray(0, at), word, bytes.subarray(at));
      }
      case 4:
        return together(bytes.subarray(0, at), bytes.subarray(Math.min(bytes.length, at + 1 + whole(40))));
      default: {
        const other = good[whole(good.length)]!;
        return together(bytes.subarray(0, at), other.subarray(whole(other.length)));
      }
    }
  };

  for (let run = 0; run < FILES; run++) {
    let bytes = good[run % good.length]!;
    for (let change = whole(MOST_CHANGES); change >= 0 && bytes.length > 0; change--) bytes = damage(bytes);
    const scan = readScan(bytes);
    outcomes[scan.kind]++;
    if (scan.kind === 'refused') {
      if (!/^[A-Z].*\.$/.test(scan.words)) expect.fail(`run ${run}: ${scan.words}`);
      continue;
    }
    const { points, triangles } = scan.mesh;
    const sound = triangles.length > 0 && triangles.every((corner) => corner < points.length / 3) && points.every(Number.isFinite);
    if (!sound) expect.fail(`run ${run}: an unsound mesh`);
    const mended = mendScan(scan.mesh);
    if (mended !== null && mended.report.shells.length === 0) expect.fail(`run ${run}: mended away`);
  }
  // Both must come up, or the damage proves nothing.
  expect(outcomes.read).toBeGreaterThan(FILES / 50);
  expect(outcomes.refused).toBeGreaterThan(FILES / 4);
}, 100_000);

function together(...parts: readonly Uint8Array[]): Uint8Array {
  const all = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}
