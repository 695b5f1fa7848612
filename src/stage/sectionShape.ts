/**
 * The cut through the middle of the mouth as flat outlines (y, z in mm): one tooth with its root and the gum with the bone behind
 * it, for each jaw. Labial outlines are the model's own; what lies behind them is drawn after the table, roots are only hinted.
 */
import { crownSpot } from './crownShape';
import type { PlacedTooth } from './dentition';
import { gumEnd } from './gumShape';
import type { JawFace } from './jawFaces';

export type Outline = readonly (readonly [y: number, z: number])[];

export interface JawSection {
  readonly crown: Outline;
  readonly root: Outline;
  readonly gum: Outline;
}

const ROOT_MM = 10;
const GUM_BODY_MM = 11;

/** The section of the tooth nearest the midline, moved to arc length `arcMm`. */
export function jawSection(face: JawFace, teeth: readonly PlacedTooth[], arcMm: number): JawSection {
  const tooth = teeth.reduce((a, b) => (Math.abs(b.arcMm - arcMm) < Math.abs(a.arcMm - arcMm) ? b : a));
  const at = (heightMm: number, inMm: number): [number, number] => {
    const point = face.pointAt(arcMm, heightMm);
    return [point[1], point[2] - inMm];
  };
  const parts = [0, 0.01, 0.03, 0.06, ...Array.from({ length: 12 }, (_, index) => (index + 1) / 12)];
  const labial = parts.map((part) => crownSpot(tooth, part, Math.PI / 2));
  const lingual = parts.map((part) => crownSpot(tooth, part, (Math.PI * 3) / 2));
  const neck = labial[labial.length - 1]!.heightMm;
  const neckThick = lingual[lingual.length - 1]!.inMm;
  const crown = [
    ...labial.map((spot) => at(spot.heightMm, spot.inMm)),
    ...lingual.toReversed().map((spot) => at(spot.heightMm - 1.2 * (spot.heightMm / neck), spot.inMm)),
  ];

  const root = [0, 0.25, 0.5, 0.75, 0.92, 1].map((part) => {
    const height = Math.min(face.heightLimitMm, neck + ROOT_MM * part);
    const width = neckThick * Math.sqrt(1 - part ** 2.4) * (1 - 0.35 * part);
    return { height, front: 0.4 + (neckThick - width) * 0.55, width };
  });
  const rootOutline = [
    ...root.map(({ height, front }) => at(height, front)),
    ...root.toReversed().map(({ height, front, width }) => at(height, front + width)),
  ];

  const end = Math.min(gumEnd(face) + 3, face.heightLimitMm);
  const margin = tooth.marginMm;
  const gumFront = Array.from({ length: 14 }, (_, index) => margin + ((end - margin) * index) / 13);
  const gum: [number, number][] = [
    at(margin + 0.6, 1),
    ...gumFront.map((height, index) => at(height, index === 0 ? 0.05 : -0.15)),
    at(end, GUM_BODY_MM),
    at(margin + 4, GUM_BODY_MM),
    at(margin + 1.2, neckThick + 1.6),
    at(margin - 0.4, neckThick + 0.4),
    at(margin + 0.6, neckThick - 0.6),
  ];
  return { crown, root: rootOutline, gum };
}

/** An outline as an SVG path, z to the right and y up. */
export const closedPath = (outline: Outline): string => `M${outline.map(([y, z]) => `${z.toFixed(2)},${(-y).toFixed(2)}`).join('L')}Z`;
