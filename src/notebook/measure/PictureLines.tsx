import type { ReactNode } from 'react';
import type { Point } from '../../measure/picture';
import type { TracedRim } from '../../measure/traces';
import { type DraftMarks, type MarkId, markAt, marksPut, placeOf } from './marksEdits';
import { type Size, type Viewport, toFrame } from './viewport';

export interface PictureLinesProps {
  readonly marks: DraftMarks;
  readonly ellipse: TracedRim | null;
  readonly view: Viewport;
  readonly frame: Size;
  readonly active: MarkId | null;
}

/** What is drawn over the picture: marks, lines and the rim's ellipse with its deviation. Each line lies on a light one, to be seen on skin and on brass. */
export function PictureLines({ marks, ellipse, view, frame, active }: PictureLinesProps): ReactNode {
  const lines = [
    ...lineOf(view, marks.horn.from, marks.horn.to),
    ...lineOf(view, marks.level.from, marks.level.to),
    ...marks.lipLine.slice(1).flatMap((to, index) => lineOf(view, marks.lipLine[index], to)),
  ].join(' ');
  return (
    <svg className="picture-lines" viewBox={`0 0 ${frame.width} ${frame.height}`} aria-hidden="true">
      {ellipse === null ? null : <Ellipse ellipse={ellipse} view={view} />}
      {lines === '' ? null : (
        <>
          <path className="mark-halo" d={lines} />
          <path className="mark-line" d={lines} />
        </>
      )}
      {marksPut(marks).map((id) => (
        <MarkSign key={id} id={id} at={toFrame(view, markAt(marks, id)!)} isActive={id === active} />
      ))}
    </svg>
  );
}

/** Rim points as squares on the edge, all else as a small cross that leaves its middle free. */
function MarkSign({ id, at, isActive }: { readonly id: MarkId; readonly at: Point; readonly isActive: boolean }): ReactNode {
  const { kind } = placeOf(id);
  const path = kind === 'rim' || kind === 'lip' ? 'M-3.5 -3.5H3.5V3.5H-3.5Z' : 'M-8 0H-3M3 0H8M0 -8V-3M0 3V8';
  return (
    <g transform={`translate(${at.x} ${at.y})`} data-active={isActive || undefined}>
      <path className="mark-halo" d={path} />
      <path className="mark-line" d={path} />
    </g>
  );
}

/** Two deviations either way hold the edge 19 times in 20; a band thinner than the line itself is not seen. */
const BAND_DEVIATIONS = 2;

function Ellipse({ ellipse, view }: { readonly ellipse: TracedRim; readonly view: Viewport }): ReactNode {
  const { x, y } = toFrame(view, ellipse.centre);
  const [major, minor] = [ellipse.semiMajorPx * view.scale, ellipse.semiMinorPx * view.scale];
  const band = 2 * BAND_DEVIATIONS * Math.hypot(ellipse.centreSdPx, ellipse.axesSdPx) * view.scale;
  const degrees = (ellipse.angleRad * 180) / Math.PI;
  return (
    <g transform={`translate(${x} ${y}) rotate(${degrees})`}>
      <ellipse className="rim-band" rx={major} ry={minor} strokeWidth={Math.max(4, band)} />
      <ellipse className="mark-line" rx={major} ry={minor} />
      <path className="mark-line" d="M-5 0H5M0 -5V5" />
    </g>
  );
}

function lineOf(view: Viewport, from: Point | undefined, to: Point | undefined): string[] {
  if (from === undefined || to === undefined) return [];
  const [start, end] = [toFrame(view, from), toFrame(view, to)];
  return [`M${start.x} ${start.y}L${end.x} ${end.y}`];
}
