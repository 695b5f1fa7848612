/** The rim's path on the plane across the face, seen face to face or as in a mirror; its points can be moved both ways. */
import { useCallback, useMemo, type KeyboardEvent } from 'react';
import type { LiveFrame } from '../../core/analysis';
import { useFrame } from '../../hooks/useFrame';
import { sayChart } from '../../words/chart';
import { fallingClass } from './AngleTraces';
import './chart.css';
import { DragHandle } from './DragHandle';
import {
  faceScales,
  faceTicks,
  placeFaceLabels,
  placeOnFace,
  rightward,
  travelForMove,
  type Box,
} from './faceLayout';
import type { FacePlotProps, TravelPoint } from './props';
import { linePath, tickText, toPixels } from './scale';
import { DEFAULT_LIMIT_MM, keySteps } from './travelEdit';
import { usePlayhead } from './usePlayhead';
import { useTravelDrag } from './useTravelDrag';
import { HomeWord } from './PanelFrame';
import { WayLegend } from './WayLegend';
import { homeRoomPx, noteLabel, pointTravelWords } from './words';

const HEIGHT_PX = 280;
const LEFT_PX = 36;
const TOP_PX = 24;
const BOTTOM_PX = 44;

export function FacePlot(props: FacePlotProps) {
  const { points, ways, live, selected, mirror = false, limitMm = DEFAULT_LIMIT_MM } = props;
  const [frame, { widthPx: width, zoom }] = useFrame<HTMLDivElement>();
  const box: Box = useMemo(
    () => ({ leftPx: LEFT_PX, rightPx: Math.max(LEFT_PX + 40, width - homeRoomPx()), topPx: TOP_PX, bottomPx: HEIGHT_PX - BOTTOM_PX }),
    [width],
  );
  const fresh = useMemo(() => faceScales([...points, ...ways.flatMap(({ curve }) => curve)], box, mirror), [points, ways, box, mirror]);
  const drag = useTravelDrag({
    limitMm,
    selected,
    onSelect: props.onSelect,
    onTravel: props.onTravel,
    onTravelEnd: props.onTravelEnd,
    scales: fresh,
  });
  const { scales } = drag;
  const playhead = usePlayhead(
    live,
    useCallback((live: LiveFrame) => placeOnFace(scales, live.travel), [scales]),
  );
  if (points.length === 0) {
    return (
      <div className="chart" ref={frame}>
        <p className="chart-message">{sayChart('noNotes')}</p>
      </div>
    );
  }

  const places = points.map((point) => placeOnFace(scales, point));
  const homeY = toPixels(scales.up, 0);
  const labels = placeFaceLabels(
    points.map((point, index) => ({
      at: places[index] as readonly [number, number],
      text: noteLabel(point.label),
      priority: point.readingIndex === selected ? 0 : index === 0 || index === points.length - 1 ? 1 : 2,
    })),
    box,
  );
  const lines = faceTicks(scales);
  const shown = points.find((point) => point.readingIndex === selected);
  const onKeyDown = (event: KeyboardEvent, point: TravelPoint): void => {
    const steps = keySteps(event.key, event.shiftKey);
    if (!steps) return;
    event.preventDefault();
    drag.nudge(point, steps.upMm !== 0 ? { upMm: steps.upMm } : { rightMm: steps.acrossMm * rightward(scales) });
  };
  const [leftSide, rightSide] = mirror ? (['playersLeft', 'playersRight'] as const) : (['playersRight', 'playersLeft'] as const);
  const seen = mirror ? 'mirror' : 'facing';

  return (
    <div className="chart" ref={frame}>
      {ways.length > 1 && <WayLegend />}
      {width > 0 && (
        <div className="chart-area" style={{ height: HEIGHT_PX, zoom }}>
          <svg width={width} height={HEIGHT_PX} role="img" aria-label={summary(points, seen)}>
            <text className="chart-title" x={LEFT_PX} y={TOP_PX - 8}>
              {sayChart('pathTitle', { seen })}
              <tspan className="chart-unit">{`, ${sayChart('mmFromHome')}`}</tspan>
            </text>
            {lines.across.map((mm) => {
              const x = toPixels(scales.across, mm);
              return (
                <g key={mm}>
                  <line className={mm === 0 ? 'chart-home' : 'chart-grid'} x1={x} x2={x} y1={box.topPx} y2={box.bottomPx} />
                  <text className="chart-tick" x={x} y={box.bottomPx + 16} textAnchor="middle">
                    {tickText(mm, lines.stepMm)}
                  </text>
                </g>
              );
            })}
            {lines.up.map((mm) => {
              const y = toPixels(scales.up, mm);
              return (
                <g key={mm}>
                  <line className={mm === 0 ? 'chart-home' : 'chart-grid'} x1={box.leftPx} x2={box.rightPx} y1={y} y2={y} />
                  <text className="chart-tick" x={box.leftPx - 6} y={y} dy="0.35em" textAnchor="end">
                    {tickText(mm, lines.stepMm)}
                  </text>
                </g>
              );
            })}
            <text className="chart-side" x={box.leftPx} y={box.bottomPx + 36}>{sayChart(leftSide)}</text>
            <text className="chart-side" x={box.rightPx} y={box.bottomPx + 36} textAnchor="end">{sayChart(rightSide)}</text>
            {ways.map(({ direction, curve }) => (
              <path
                key={direction}
                className={fallingClass('chart-travel-line', 'chart-falling', direction)}
                d={linePath(curve.map((at) => placeOnFace(scales, at)))}
              />
            ))}
            <HomeWord xPx={box.rightPx + 6} yPx={homeY} />
            {places.map(([x, y], index) => (
              <rect key={points[index]?.readingIndex} className="chart-measured-mark" x={x - 4.5} y={y - 4.5} width={9} height={9} />
            ))}
            {labels.map(({ index, xPx, yPx, anchor }) => (
              <text
                key={index}
                className={points[index]?.readingIndex === selected ? 'chart-name chart-name-selected' : 'chart-name'}
                x={xPx}
                y={yPx}
                dy="0.35em"
                textAnchor={anchor}
              >
                {noteLabel(points[index]?.label ?? '')}
              </text>
            ))}
            <g ref={playhead} visibility="hidden">
              <circle className="chart-playhead-mark" r={8} />
            </g>
          </svg>
          {points.map((point, index) => {
            const [x, y] = places[index] as readonly [number, number];
            return (
              <DragHandle
                zoom={zoom}
                key={point.readingIndex}
                xPx={x}
                yPx={y}
                onTop={point.readingIndex === selected}
                tabIndex={0}
                spoken={{
                  role: 'button',
                  'aria-roledescription': sayChart('movablePoint'),
                  'aria-label': pointTravelWords(point),
                }}
                onStart={() => drag.start(point)}
                onDrag={(acrossPx, downPx) => drag.drag(point, travelForMove(scales, acrossPx, downPx))}
                onEnd={drag.end}
                onKeyDown={(event) => onKeyDown(event, point)}
              />
            );
          })}
        </div>
      )}
      <p className="chart-readout">
        {shown ? `${pointTravelWords(shown)}. ` : ''}
        <span className="chart-hint">{sayChart('drag')}</span>
      </p>
    </div>
  );
}

function summary(points: readonly TravelPoint[], seen: 'mirror' | 'facing'): string {
  return sayChart('pathSummary', { seen, points: points.map(pointTravelWords).join('; ') });
}
