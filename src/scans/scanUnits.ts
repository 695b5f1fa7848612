/** In which unit a scan was saved: files of triangles do not say. Guessed by the size of a dental arch, to be confirmed by a person. */
import { type ScanMesh, boxOf } from './mesh';

export type ScanUnit = 'mm' | 'cm' | 'm' | 'inch';

export const MM_PER: Readonly<Record<ScanUnit, number>> = { mm: 1, cm: 10, m: 1000, inch: 25.4 };

export interface UnitGuess {
  readonly unit: ScanUnit;
  /** The scan's longest side in that unit, mm. */
  readonly longestMm: number;
  /** True where in no other unit the scan would be as large as an arch. */
  readonly sure: boolean;
  /** All units in which it would be, the likeliest first. */
  readonly possible: readonly ScanUnit[];
}

/**
 * The longest side of an upright box round an arch or the front of one, with or without a cast's base, mm. First molars' faces lie
 * 54 to 58 mm apart and 28 to 32 mm behind the incisors (Mina et al. 2017); the margins are our judgement.
 */
export const ARCH_LEAST_MM = 25;
export const ARCH_MOST_MM = 120;
const ARCH_USUAL_MM = 65;

/** Null where the scan is as large as an arch in no unit. */
export function guessUnit(mesh: ScanMesh): UnitGuess | null {
  const { low, high } = boxOf(mesh.points);
  const longest = Math.max(high[0] - low[0], high[1] - low[1], high[2] - low[2]);
  const offUsual = (unit: ScanUnit): number => Math.abs(Math.log((longest * MM_PER[unit]) / ARCH_USUAL_MM));
  const possible = (Object.keys(MM_PER) as ScanUnit[])
    .filter((unit) => longest * MM_PER[unit] >= ARCH_LEAST_MM && longest * MM_PER[unit] <= ARCH_MOST_MM)
    .sort((one, two) => offUsual(one) - offUsual(two));
  const [unit] = possible;
  return unit === undefined ? null : { unit, longestMm: longest * MM_PER[unit], sure: possible.length === 1, possible };
}
