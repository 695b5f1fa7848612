/** Teeth and gums of the flat drawing. Their outlines are long: drawn when the mouth changes, not when the rim moves. */
import { memo } from 'react';
import { crownSpot } from './crownShape';
import type { PlacedTooth } from './dentition';
import { gumEnd, marginAt } from './gumShape';
import type { JawFace } from './jawFaces';
import type { StagePalette } from './palette';
import { closedPath, jawSection } from './sectionShape';

interface FlatJaw {
  readonly face: JawFace;
  readonly teeth: readonly PlacedTooth[];
}

interface FlatMouthProps {
  readonly jaws: readonly FlatJaw[];
  readonly palette: StagePalette;
}

/** The cut through the middle of both jaws. */
export const MouthFromSide = memo(function MouthFromSide({ jaws, palette }: FlatMouthProps) {
  return jaws.map((jaw) => {
    const section = jawSection(jaw.face, jaw.teeth, 0);
    return (
      <g key={jaw.face.upper ? 'upper' : 'lower'} stroke={palette.sectionLine} strokeWidth="0.25">
        <path d={closedPath(section.gum)} fill={palette.gum} />
        <path d={closedPath(section.root)} fill={palette.ivoryNeck} />
        <path d={closedPath(section.crown)} fill={palette.ivory} />
      </g>
    );
  });
});

export const MouthFromFront = memo(function MouthFromFront({ jaws, palette }: FlatMouthProps) {
  return jaws.map((jaw) => (
    <g key={jaw.face.upper ? 'upper' : 'lower'} stroke={palette.sectionLine} strokeWidth="0.2">
      <path d={gumFromFront(jaw.teeth)} fill={palette.gum} />
      {jaw.teeth.map((tooth) => (
        <path key={tooth.fdi} d={crownFromFront(tooth)} fill={palette.ivory} />
      ))}
    </g>
  ));
});

/**
 * A level cut through the upper crowns, seen from above: forward to the right, the player's left up. Each crown and the lip lie on the
 * model's own face; how deep crowns and gum go behind it is drawn after the table, as in the cut from the side. The lip is drawn at rest.
 */
export const MouthFromAbove = memo(function MouthFromAbove({ jaws, lipMm, palette }: FlatMouthProps & { readonly lipMm: number | null }) {
  const upper = jaws.find(({ face }) => face.upper);
  if (upper === undefined) return null;
  const { face, teeth } = upper;
  const end = lastArc(teeth);
  return (
    <g stroke={palette.sectionLine} strokeWidth="0.25">
      <path d={bandFromAbove(face, end, 0, -GUM_DEPTH_MM)} fill={palette.gum} />
      {teeth.map((tooth) => (
        <path key={tooth.fdi} d={crownFromAbove(tooth)} fill={palette.ivory} />
      ))}
      {lipMm === null ? null : <path d={bandFromAbove(face, Math.min(end, LIP_ARC_MM), 0, lipMm)} fill={palette.lipCut} fillOpacity="0.85" />}
    </g>
  );
});

/** How far the gum reaches behind the face, and the lip along it from the midline, mm. */
const GUM_DEPTH_MM = 11;
const LIP_ARC_MM = 22;
/** Where between edge and neck the crowns are cut: at their contacts, where they are widest. */
const CUT_PART = 0.35;
const BAND_STEPS = 60;

const lastArc = (teeth: readonly PlacedTooth[]): number => Math.max(...teeth.map(({ arcMm, measures }) => Math.abs(arcMm) + measures.widthMm / 2));

/** Between two distances from the face (+ in front of it, mm), along it to `endMm` on both sides. */
function bandFromAbove(face: JawFace, endMm: number, nearMm: number, farMm: number): string {
  const arcs = Array.from({ length: BAND_STEPS + 1 }, (_, step) => -endMm + (2 * endMm * step) / BAND_STEPS);
  const line = (outMm: number): string[] => arcs.map((arc) => placeFromAbove(face, arc, 0, outMm));
  return `M${[...line(nearMm), ...line(farMm).toReversed()].join('L')}Z`;
}

function crownFromAbove(tooth: PlacedTooth): string {
  const steps = 32;
  const outline = Array.from({ length: steps }, (_, step) => {
    const spot = crownSpot(tooth, CUT_PART, (2 * Math.PI * step) / steps);
    return placeFromAbove(tooth.face, tooth.arcMm + spot.acrossMm * tooth.distal, spot.heightMm, -spot.inMm);
  });
  return `M${outline.join('L')}Z`;
}

function placeFromAbove(face: JawFace, arcMm: number, heightMm: number, outMm: number): string {
  const [x, , z] = face.pointAt(arcMm, heightMm);
  const [nx, , nz] = face.normalAt(arcMm, heightMm);
  const level = Math.hypot(nx, nz) || 1;
  return `${(z + (nz / level) * outMm).toFixed(2)},${(-(x + (nx / level) * outMm)).toFixed(2)}`;
}

function crownFromFront(tooth: PlacedTooth): string {
  const steps = 24;
  const at = (part: number, around: number): string => {
    const spot = crownSpot(tooth, part, around);
    const [x, y] = tooth.face.pointAt(tooth.arcMm + spot.acrossMm * tooth.distal, spot.heightMm);
    return `${x.toFixed(2)},${(-y).toFixed(2)}`;
  };
  const edge = Array.from({ length: steps + 1 }, (_, step) => at(0, (Math.PI * step) / steps));
  const distal = Array.from({ length: 8 }, (_, step) => at((step + 1) / 9, Math.PI));
  const neck = Array.from({ length: steps + 1 }, (_, step) => at(1, Math.PI * (1 - step / steps)));
  const mesial = Array.from({ length: 8 }, (_, step) => at((8 - step) / 9, 0));
  return `M${[...edge, ...distal, ...neck, ...mesial].join('L')}Z`;
}

function gumFromFront(teeth: readonly PlacedTooth[]): string {
  const first = teeth[0]!;
  const last = teeth[teeth.length - 1]!;
  const from = first.arcMm - first.measures.widthMm / 2;
  const to = last.arcMm + last.measures.widthMm / 2;
  const steps = 120;
  const margin: string[] = [];
  const end: string[] = [];
  for (let step = 0; step <= steps; step++) {
    const arc = from + ((to - from) * step) / steps;
    const low = first.face.pointAt(arc, marginAt(teeth, arc));
    const high = first.face.pointAt(arc, gumEnd(first.face));
    margin.push(`${low[0].toFixed(2)},${(-low[1]).toFixed(2)}`);
    end.unshift(`${high[0].toFixed(2)},${(-high[1]).toFixed(2)}`);
  }
  return `M${[...margin, ...end].join('L')}Z`;
}
