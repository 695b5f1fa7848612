/** The notes' places on the plane across the face, with the fitted line and its way. Drawn as seen face to face, or as in a mirror. */
import { type ReactNode, useMemo } from 'react';
import type { LineOfTravel } from '../../core/findings/findings';
import type { PlacedNote } from '../../core/findings/readingsOfWay';
import { useFrame } from '../../hooks/useFrame';
import { sayChart } from '../../words/chart';
import { saySays } from '../../words/says';
import { type Box, faceScales, faceTicks, placeFaceLabels, placeOnFace } from '../chart/faceLayout';
import { tickText, toPixels } from '../chart/scale';
import { HiddenTable } from './PlotFrame';
import type { NoteNamer } from './saysWords';
import { plotBox } from './smallPlot';
import { formatFixed } from '../numberText';

export interface TravelFaceProps {
  readonly notes: readonly PlacedNote[];
  /** Null where no line could be told: the places alone are drawn. */
  readonly line: LineOfTravel | null;
  readonly mirror: boolean;
  readonly name: NoteNamer;
  /** The finding in one sentence: what the picture is called. */
  readonly label: string;
}

const PLOT_HEIGHT_PX = 210;
const AXIS_PX = 42;
const ARROW_PX = 9;

export function TravelFace({ notes, line, mirror, name, label }: TravelFaceProps): ReactNode {
  const [frame, { widthPx, zoom }] = useFrame<HTMLDivElement>();
  const box = useMemo(() => plotBox({ widthPx, plotHeightPx: PLOT_HEIGHT_PX }), [widthPx]);
  const ends = line === null ? null : lineEnds(notes, line);
  const scales = faceScales([...notes, ...(ends ?? [])], box, mirror);
  const lines = faceTicks(scales);
  const places = notes.map((note) => placeOnFace(scales, note));
  const labels = placeFaceLabels(
    notes.map((note, index) => ({
      at: places[index]!,
      text: name(note.note),
      priority: index === 0 || index === notes.length - 1 ? 1 : 2,
    })),
    box,
  );
  const [leftSide, rightSide] = mirror ? (['playersLeft', 'playersRight'] as const) : (['playersRight', 'playersLeft'] as const);
  const heightPx = box.bottomPx + AXIS_PX;
  return (
    <figure className="says-picture" ref={frame}>
      {widthPx > 0 && (
        <div className="chart-area" style={{ height: heightPx, zoom }}>
          <svg width={widthPx} height={heightPx} role="img" aria-label={label}>
            <text className="chart-title" x={0} y={box.topPx - 12}>
              {saySays(mirror ? 'asInMirror' : 'faceToFace')}
              <tspan className="chart-unit">{`, ${sayChart('mmFromHome')}`}</tspan>
            </text>
            <FaceGrid box={box} scales={scales} ticks={lines} />
            <text className="chart-side" x={box.leftPx} y={box.bottomPx + 34}>{sayChart(leftSide)}</text>
            <text className="chart-side" x={box.rightPx} y={box.bottomPx + 34} textAnchor="end">{sayChart(rightSide)}</text>
            {ends !== null && <Arrow from={placeOnFace(scales, ends[0])} to={placeOnFace(scales, ends[1])} />}
            {places.map(([x, y], index) => (
              <rect key={notes[index]!.midi} className="chart-measured-mark" x={x - 4} y={y - 4} width={8} height={8} />
            ))}
            {labels.map(({ index, xPx, yPx, anchor }) => (
              <text key={index} className="chart-name" x={xPx} y={yPx} dy="0.35em" textAnchor={anchor}>
                {name(notes[index]!.note)}
              </text>
            ))}
          </svg>
        </div>
      )}
      <HiddenTable
        caption={saySays('travelCaption')}
        head={[saySays('note'), saySays('upHead'), saySays('rightHead'), saySays('deviationUpHead'), saySays('deviationRightHead')]}
        rows={notes.map(({ note, upMm, rightMm, sdMm, rightSdMm }) => [name(note), ...[upMm, rightMm, sdMm, rightSdMm].map((mm) => formatFixed(mm, 1))])}
      />
    </figure>
  );
}

interface FaceGridProps {
  readonly box: Box;
  readonly scales: ReturnType<typeof faceScales>;
  readonly ticks: ReturnType<typeof faceTicks>;
}

function FaceGrid({ box, scales, ticks: { across, up, stepMm } }: FaceGridProps): ReactNode {
  return (
    <g>
      {across.map((mm) => {
        const x = toPixels(scales.across, mm);
        return (
          <g key={mm}>
            <line className={mm === 0 ? 'chart-home' : 'chart-grid'} x1={x} x2={x} y1={box.topPx} y2={box.bottomPx} />
            <text className="chart-tick" x={x} y={box.bottomPx + 16} textAnchor="middle">
              {tickText(mm, stepMm)}
            </text>
          </g>
        );
      })}
      {up.map((mm) => {
        const y = toPixels(scales.up, mm);
        return (
          <g key={mm}>
            <line className={mm === 0 ? 'chart-home' : 'chart-grid'} x1={box.leftPx} x2={box.rightPx} y1={y} y2={y} />
            <text className="chart-tick" x={box.leftPx - 6} y={y} dy="0.35em" textAnchor="end">
              {tickText(mm, stepMm)}
            </text>
          </g>
        );
      })}
    </g>
  );
}

/** The fitted line, with a head at the end of the highest notes. */
function Arrow({ from, to }: { readonly from: readonly [number, number]; readonly to: readonly [number, number] }): ReactNode {
  const angle = (Math.atan2(to[1] - from[1], to[0] - from[0]) * 180) / Math.PI;
  return (
    <g className="says-line">
      <line x1={from[0]} y1={from[1]} x2={to[0]} y2={to[1]} />
      <path d={`M0 0L${-ARROW_PX} ${-ARROW_PX / 2}V${ARROW_PX / 2}Z`} transform={`translate(${to[0]} ${to[1]}) rotate(${angle})`} />
    </g>
  );
}

interface Place {
  readonly upMm: number;
  readonly rightMm: number;
}

/** The line as far as the notes reach along it, and a little beyond at the top, so that the head is clear of the last mark. */
function lineEnds(notes: readonly PlacedNote[], { middleMm, fromUpDeg }: LineOfTravel): readonly [Place, Place] {
  const angle = (fromUpDeg.value * Math.PI) / 180;
  const along = notes.map(({ upMm, rightMm }) => (upMm - middleMm.upMm) * Math.cos(angle) + (rightMm - middleMm.rightMm) * Math.sin(angle));
  const at = (mm: number): Place => ({ upMm: middleMm.upMm + mm * Math.cos(angle), rightMm: middleMm.rightMm + mm * Math.sin(angle) });
  return [at(Math.min(...along)), at(Math.max(...along) + BEYOND_MM)];
}

const BEYOND_MM = 0.6;
