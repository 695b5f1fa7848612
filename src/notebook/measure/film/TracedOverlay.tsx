/** What was followed into the frame that is shown, and the path of the take laid over it. */
import type { ReactNode } from 'react';
import type { Point } from '../../../measure/picture';
import type { TracedFrame } from '../../../measure/traces';
import { type Viewport, toFrame } from '../viewport';

export interface PathPoint {
  readonly key: number;
  readonly name: string;
  readonly at: Point;
  readonly isChosen: boolean;
}

export interface TracedOverlayProps {
  readonly view: Viewport;
  readonly traced: TracedFrame | null;
  /** The rim's centre at each note, in the order of pitch. */
  readonly path: readonly PathPoint[];
}

export function TracedOverlay({ view, traced, path }: TracedOverlayProps): ReactNode {
  const places = traced === null ? [] : Object.values(traced.points);
  const [horn, level] = traced === null ? [null, null] : [lineOf(traced, 'horn-near', 'horn-far'), lineOf(traced, 'level-back', 'level-front')];
  const drawn = path.map((one) => ({ ...one, at: toFrame(view, one.at) }));
  return (
    <g>
      {traced?.rim == null ? null : (
        <ellipse
          className="traced-line"
          rx={traced.rim.semiMajorPx * view.scale}
          ry={traced.rim.semiMinorPx * view.scale}
          transform={placed(toFrame(view, traced.rim.centre), traced.rim.angleRad)}
        />
      )}
      {[horn, level].map((line, index) => (line === null ? null : <path key={index} className="traced-line" d={pathOf(line.map((point) => toFrame(view, point)))} />))}
      {places.map((point, index) => {
        const { x, y } = toFrame(view, point);
        return <circle key={index} className="traced-line" cx={x} cy={y} r={4} />;
      })}
      {drawn.length < 2 ? null : (
        <>
          <path className="mark-halo" d={pathOf(drawn.map(({ at }) => at))} />
          <path className="film-path" d={pathOf(drawn.map(({ at }) => at))} />
        </>
      )}
      {drawn.map(({ key, name, at, isChosen }) => (
        <g key={key} transform={`translate(${at.x} ${at.y})`}>
          <rect className="film-path__mark" x={-4} y={-4} width={8} height={8} data-chosen={isChosen || undefined} />
          {isChosen ? (
            <text className="film-path__name" x={8} dy="0.35em">
              {name}
            </text>
          ) : null}
        </g>
      ))}
    </g>
  );
}

function lineOf({ points }: TracedFrame, from: 'horn-near' | 'level-back', to: 'horn-far' | 'level-front'): readonly Point[] | null {
  const [start, end] = [points[from], points[to]];
  return start === undefined || end === undefined ? null : [start, end];
}

const pathOf = (points: readonly Point[]): string => points.map(({ x, y }, index) => `${index === 0 ? 'M' : 'L'}${x} ${y}`).join('');

const placed = ({ x, y }: Point, angleRad: number): string => `translate(${x} ${y}) rotate(${(angleRad * 180) / Math.PI})`;
