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
