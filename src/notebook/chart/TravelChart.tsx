/**
 * Travel up and to the right against pitch. The squares are measured values and can be moved: dragged up and down, or with
 * the arrow keys; left and right go to the neighbouring note.
 */
import { useMemo, useRef, type KeyboardEvent } from 'react';
import { useFrame } from '../../hooks/useFrame';
import { sayChart } from '../../words/chart';
import { ErrorSquare, fallingClass } from './AngleTraces';
import './chart.css';
import { DragHandle } from './DragHandle';
import { PanelFrame, PitchAxis } from './PanelFrame';
import { layoutPanels, pairOfDomains, type PanelLayout } from './panels';
import type { TravelChartProps, TravelPoint } from './props';
import { fromPixels, linePath, toPixels } from './scale';
import { DEFAULT_LIMIT_MM, keySteps } from './travelEdit';
import { usePitchPlayhead } from './usePlayhead';
import { useTravelDrag } from './useTravelDrag';
import { WayLegend } from './WayLegend';
import { noteLabel, pointName, pointTravelWords, sided } from './words';

const LEAST_SPAN_MM = 4;
/** Room above and below the points to drag them into. */
const AIR_MM = 1;

const SIDES = [
  { key: 'upMm', sd: 'sdMm', title: 'travelUp', along: 'up' },
  { key: 'rightMm', sd: 'rightSdMm', title: 'travelRight', along: 'right' },
] as const;

export function TravelChart(props: TravelChartProps) {
  const { points, ways, live, selected, limitMm = DEFAULT_LIMIT_MM } = props;
  const [frame, { widthPx: width, zoom }] = useFrame<HTMLDivElement>();
  const area = useRef<HTMLDivElement>(null);
  const domains = useMemo(
    () => pairOfDomains(reach(points, ways, SIDES[0]), reach(points, ways, SIDES[1]), LEAST_SPAN_MM),
    [points, ways],
  );
  const drag = useTravelDrag({
    limitMm,
    selected,
    onSelect: props.onSelect,
    onTravel: props.onTravel,
    onTravelEnd: props.onTravelEnd,
    scales: domains,
  });
  const found = points.findIndex((point) => point.readingIndex === selected);
  const selectedIndex = found < 0 ? null : found;
  const layout = useMemo(
    () => layoutPanels(width, drag.scales, points.map(({ midi, label }) => ({ midi, label: noteLabel(label) })), selectedIndex),
    [width, drag.scales, points, selectedIndex],
  );
  const playhead = usePitchPlayhead(live, layout.pitch);

  if (points.length === 0) {
    return (
      <div className="chart" ref={frame}>
        <p className="chart-message">{sayChart('noNotes')}</p>
      </div>
    );
  }
  const onKeyDown = (event: KeyboardEvent, side: number, index: number): void => {
    const key = (SIDES[side] as (typeof SIDES)[number]).key;
    const steps = keySteps(event.key, event.shiftKey);
    const neighbour = event.key === 'Home' ? 0 : event.key === 'End' ? points.length - 1 : index + Math.sign(steps?.acrossMm ?? 0);
    if (steps && steps.upMm !== 0) drag.nudge(points[index] as TravelPoint, { [key]: steps.upMm });
    else if (neighbour !== index && points[neighbour]) {
      drag.select(points[neighbour]);
      area.current?.querySelector<HTMLElement>(`[data-side="${side}"][data-index="${neighbour}"]`)?.focus();
    } else if (!steps) return;
    event.preventDefault();
  };
  const shown = selectedIndex === null ? undefined : points[selectedIndex];

  return (
    <div className="chart" ref={frame}>
      {ways.length > 1 && <WayLegend />}
      {width > 0 && (
        <div className="chart-area" style={{ height: layout.heightPx, zoom }} ref={area}>
          <svg width={layout.widthPx} height={layout.heightPx} role="img" aria-label={summary(points)}>
            <PitchAxis layout={layout} labels={points.map(({ label }) => noteLabel(label))} selectedIndex={selectedIndex} />
            {SIDES.map(({ key, sd, title }, side) => {
              const panel = layout.panels[side] as PanelLayout;
              return (
                <PanelFrame key={key} layout={layout} panel={panel} title={sayChart(title)} unit={sayChart('mmFromHome')}>
                  {ways.map(({ direction, curve }) => (
                    <path
                      key={direction}
                      className={fallingClass('chart-travel-line', 'chart-falling', direction)}
                      d={linePath(curve.map((at) => [toPixels(layout.pitch, at.midi), toPixels(panel.scale, at[key])]))}
                    />
                  ))}
                  {points.map((point, index) => (
                    <ErrorSquare
                      key={point.readingIndex}
                      x={layout.noteXs[index] as number}
                      y={toPixels(panel.scale, point[key])}
                      high={toPixels(panel.scale, point[key] + (point[sd] ?? 0))}
                      low={toPixels(panel.scale, point[key] - (point[sd] ?? 0))}
                    />
                  ))}
                </PanelFrame>
              );
            })}
            <g ref={playhead} visibility="hidden">
              {layout.panels.map(({ topPx, bottomPx }) => (
                <line key={topPx} className="chart-playhead" y1={topPx} y2={bottomPx} />
              ))}
            </g>
          </svg>
          {SIDES.map(({ key, title, along }, side) =>
            points.map((point, index) => {
              const { scale } = layout.panels[side] as PanelLayout;
              const mmPerPx = fromPixels(scale, 0) - fromPixels(scale, 1);
              return (
                <DragHandle
                  zoom={zoom}
                  key={`${key}-${point.readingIndex}`}
                  xPx={layout.noteXs[index] as number}
                  yPx={toPixels(scale, point[key])}
                  onTop={index === selectedIndex}
                  tabIndex={index === (selectedIndex ?? 0) ? 0 : -1}
                  spoken={{
                    role: 'slider',
                    'aria-label': sayChart('travelHandle', { travel: sayChart(title), point: pointName(point) }),
                    'aria-orientation': 'vertical',
                    'aria-valuemin': -limitMm,
                    'aria-valuemax': limitMm,
                    'aria-valuenow': point[key],
                    'aria-valuetext': sided(point[key], '\u00a0mm', along),
                    ...{ 'data-side': side, 'data-index': index },
                  }}
                  onStart={() => drag.start(point)}
                  onDrag={(_across, downPx) => drag.drag(point, { [key]: -downPx * mmPerPx })}
                  onEnd={drag.end}
                  onKeyDown={(event) => onKeyDown(event, side, index)}
                />
              );
            }),
          )}
        </div>
      )}
      <p className="chart-readout">
        {shown ? `${pointTravelWords(shown)}. ` : ''}
        <span className="chart-hint">{sayChart('dragUp')}</span>
      </p>
    </div>
  );
}

function reach(points: readonly TravelPoint[], ways: TravelChartProps['ways'], { key, sd }: (typeof SIDES)[number]): number[] {
  const air = points.flatMap((point) => {
    const room = Math.max(AIR_MM, point[sd] ?? 0);
    return [point[key] - room, point[key] + room];
  });
  return [...air, ...ways.flatMap(({ curve }) => curve.map((at) => at[key]))];
}

function summary(points: readonly TravelPoint[]): string {
  return sayChart('travelSummary', { points: points.map(pointTravelWords).join('; ') });
}
