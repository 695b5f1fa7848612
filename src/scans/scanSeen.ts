/** A file opened as far as that goes without a person: read, put right, its unit guessed. In a worker, as a large one takes a second or two. */
import { type MendedScan, type ScanReport, mendScan } from './mendScan';
import type { ScanMesh } from './mesh';
import type { Progress } from './progress';
import { type ScanFormat, readScan } from './readScan';
import { MOST_BYTES, type ScanRefused, scanRefusals } from './scanRefusals';
import { type UnitGuess, guessUnit } from './scanUnits';

export interface ScanSeen {
  readonly kind: 'seen';
  readonly format: ScanFormat;
  /** Put right, in the file's own unit and axes. */
  readonly mesh: ScanMesh;
  readonly across: Int32Array;
  readonly report: ScanReport;
  /** Null where the scan is as large as an arch in no unit. */
  readonly unit: UnitGuess | null;
}

/** How much of the time reading takes, the rest goes into putting right. */
const READING_PART = 0.6;

export function scanSeen(bytes: Uint8Array, progress: Progress = () => {}): ScanSeen | ScanRefused {
  const read = readScan(bytes, (part) => progress(READING_PART * part));
  if (read.kind === 'refused') return read;
  progress(READING_PART);
  const mended: MendedScan | null = mendScan(read.mesh);
  if (mended === null) return scanRefusals.noTriangles();
  progress(1);
  return { kind: 'seen', format: read.format, ...mended, unit: guessUnit(mended.mesh) };
}

/** Never rejects: a file that is gone is refused like one that cannot be read, and one too large is not read at all. */
export async function scanOfFile(file: Blob, progress?: Progress): Promise<ScanSeen | ScanRefused> {
  if (file.size > MOST_BYTES) return scanRefusals.tooLarge(file.size);
  let bytes: Uint8Array;
  try {
    bytes = new Uint8Array(await file.arrayBuffer());
  } catch {
    return scanRefusals.unreadable();
  }
  return scanSeen(bytes, progress);
}
