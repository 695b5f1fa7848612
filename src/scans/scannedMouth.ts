/** Scans in an arch's place: each jaw that was scanned rests the rim on its own triangles, the other on the arch. */
import { type Arch, HINGE_ARM_MM, type MouthOf, mouthOfArch } from '../core/arch';
import { toRadians } from '../core/frame';
import type { GapFace } from '../core/gapFace';
import type { JawSpec } from '../core/specs';
import type { GapField } from './gapField';
import { type ScanPlace, placeScan } from './scannedFace';

export interface ScannedFields {
  readonly upper?: GapField | undefined;
  readonly lower?: GapField | undefined;
}

/** Only for arches of two jaws; a single surface stays as it is. */
export const scannedMouth = (fields: ScannedFields): MouthOf => (arch: Arch) => {
  const plain = mouthOfArch(arch);
  const { jaw } = arch;
  if (jaw === null) return plain;
  const upper = fields.upper === undefined ? arch.upper : { placed: placeScan(fields.upper) };
  const lowerAt = (at: JawSpec): GapFace => (fields.lower === undefined ? plain.lowerAt(at) : placeScan(fields.lower, placeOf(at)));
  return { at: (at) => ({ upper, lower: { placed: lowerAt(at ?? jaw) } }), lowerAt };
};

const placeOf = ({ openingMm, forwardMm, hingeDeg, hingeArmMm }: JawSpec): ScanPlace =>
  ({ openingMm, forwardMm, hinge: toRadians(hingeDeg), armMm: hingeArmMm ?? HINGE_ARM_MM });
