/** The swing measured against the swing predicted, both from home, with what following and holding still would look like. */
import type { ReactNode } from 'react';
import { NINETY_FIVE_PERCENT } from '../../core/bands';
import type { FollowRatio } from '../../core/findings/findings';
import { useFrame } from '../../hooks/useFrame';
import { Legend, LegendKey, LineKey } from '../chart/Legend';
import { placeFaceLabels } from '../chart/faceLayout';
import { tickText, toPixels } from '../chart/scale';
import { angleTitle } from '../chart/words';
import type { Posture } from '../../print/instrumentWords';
import { sayChart } from '../../words/chart';
import { saySays } from '../../words/says';
import { formatFixed } from '../numberText';
import type { SwingAxis } from './followSaid';
import { HiddenTable, PlotFrame } from './PlotFrame';
import type { NoteNamer } from './saysWords';
import { type PlotLayout, layoutSquare, xTicks } from './smallPlot';

export interface FollowPlotProps {
  readonly follow: FollowRatio;
  readonly axis: SwingAxis;
  readonly posture: Posture;
  readonly name: NoteNamer;
  readonly label: string;
}

const PLOT_HEIGHT_PX = 190;
const AXIS_PX = 42;
const LEAST_SPAN_DEG = 4;

export function FollowPlot({ follow, axis, posture, name, label }: FollowPlotProps): ReactNode {
  const [frame, { widthPx, zoom }] = useFrame<HTMLDivElement>();
  const { points } = follow;
  const reach = (value: (point: Point) => number, sd: (point: Point) => number): number[] =>
    points.flatMap((point) => [value(point) - sd(point) * NINETY_FIVE_PERCENT, value(point) + sd(point) * NINETY_FIVE_PERCENT]);
  const layout = layoutSquare(
    { widthPx, plotHeightPx: PLOT_HEIGHT_PX },
    reach((point) => point.predictedDeg, (point) => point.predictedSdDeg),
    reach((point) => point.measuredDeg, (point) => point.measuredSdDeg),
    LEAST_SPAN_DEG,
  );
  const at = (point: Point): readonly [number, number] => [toPixels(layout.x, point.predictedDeg), toPixels(layout.y, point.measuredDeg)];
  const named = namedPoints(follow);
  // Those that are not named take their place all the same, so that no name covers a mark.
  const labels = placeFaceLabels(
    points.map((point, index) => ({ at: at(point), text: name(point.note), priority: named.includes(index) ? named.indexOf(index) : points.length })),
    layout.box,
  ).filter(({ index }) => named.includes(index));
  const swing = angleTitle(posture, axis);
  return (
    <figure className="says-picture" ref={frame}>
      {widthPx > 0 && (
        <div className="chart-area" style={{ height: layout.box.bottomPx + AXIS_PX, zoom }}>
          <svg width={widthPx} height={layout.box.bottomPx + AXIS_PX} role="img" aria-label={label}>
            <PlotFrame layout={layout} title={saySays('measuredTitle', { swing })} unit={sayChart('degFromHome')}>
              {xTicks(layout).map((tick) => (
                <g key={tick}>
                  <line
                    className={tick === 0 ? 'chart-home' : 'chart-grid'}
                    x1={toPixels(layout.x, tick)}
                    x2={toPixels(layout.x, tick)}
                    y1={layout.box.topPx}
                    y2={layout.box.bottomPx}
                  />
                  <text className="chart-tick" x={toPixels(layout.x, tick)} y={layout.box.bottomPx + 16} textAnchor="middle">
                    {tickText(tick, layout.yStep)}
                  </text>
                </g>
              ))}
              <text className="chart-side" x={layout.box.rightPx} y={layout.box.bottomPx + 34} textAnchor="end">
                {saySays('predictedFromHome')}
              </text>
              <RatioLine layout={layout} slope={1} offsetDeg={0} className="chart-predicted-line" />
              <RatioLine layout={layout} slope={0} offsetDeg={0} className="chart-held-line" />
              <RatioLine layout={layout} slope={follow.ratio.value} offsetDeg={follow.offsetDeg} className="says-fit" />
              {points.map((point, index) => (
                <Cross key={index} layout={layout} point={point} />
              ))}
              {labels.map(({ index, xPx, yPx, anchor }) => (
                <text key={index} className="chart-name" x={xPx} y={yPx} dy="0.35em" textAnchor={anchor}>
                  {name(points[index]!.note)}
                </text>
              ))}
            </PlotFrame>
          </svg>
        </div>
      )}
      <HiddenTable
        caption={saySays('swingCaption', { swing })}
        head={[saySays('note'), saySays('predictedHead'), saySays('measuredHead')]}
        rows={points.map((point) => [
          name(point.note),
          `${formatFixed(point.predictedDeg, 1)} ± ${formatFixed(point.predictedSdDeg * NINETY_FIVE_PERCENT, 1)}`,
          `${formatFixed(point.measuredDeg, 1)} ± ${formatFixed(point.measuredSdDeg * NINETY_FIVE_PERCENT, 1)}`,
        ])}
      />
    </figure>
  );
}

/** One legend for both angles. */
export function FollowLegend(): ReactNode {
  return (
    <Legend>
      <LineKey says={saySays('followsKey')} className="chart-predicted-line" />
      <LineKey says={saySays('heldKey')} className="chart-held-line" />
      <LineKey says={saySays('fittedKey')} className="says-fit" />
      <LegendKey says={saySays('noteKey')} widthPx={22} heightPx={18}>
        <line className="says-error says-error-across" x1="1" x2="21" y1="9" y2="9" />
        <line className="says-error chart-error" x1="11" x2="11" y1="1" y2="17" />
        <rect className="chart-measured-mark" x="7" y="5" width="8" height="8" />
      </LegendKey>
    </Legend>
  );
}

type Point = FollowRatio['points'][number];

/** The ends and the two that lie furthest from the line are named; with all of them named nothing could be read. */
function namedPoints({ points, ratio, offsetDeg }: FollowRatio): number[] {
  const order = points.map((_, index) => index);
  const byPrediction = order.toSorted((a, b) => points[a]!.predictedDeg - points[b]!.predictedDeg);
  const stray = ({ predictedDeg, measuredDeg, measuredSdDeg }: Point): number =>
    Math.abs(measuredDeg - offsetDeg - ratio.value * predictedDeg) / Math.max(measuredSdDeg, 1e-9);
  const byStray = order.toSorted((a, b) => stray(points[b]!) - stray(points[a]!));
  return [...new Set([byPrediction[0], byPrediction.at(-1), ...byStray.slice(0, 2)].filter((index) => index !== undefined))];
}

/** A line of a ratio, cut off at the plot's edges. */
function RatioLine({ layout, slope, offsetDeg, className }: {
  readonly layout: PlotLayout;
  readonly slope: number;
  readonly offsetDeg: number;
  readonly className: string;
}): ReactNode {
  const [left, right] = layout.x.from;
  const [low, high] = layout.y.from;
  const crossings = slope === 0 ? [] : [(low - offsetDeg) / slope, (high - offsetDeg) / slope];
  const from = Math.max(left, Math.min(right, slope === 0 ? left : Math.min(...crossings)));
  const to = Math.min(right, Math.max(left, slope === 0 ? right : Math.max(...crossings)));
  if (from >= to) return null;
  const y = (x: number): number => toPixels(layout.y, offsetDeg + slope * x);
  return <line className={className} x1={toPixels(layout.x, from)} x2={toPixels(layout.x, to)} y1={y(from)} y2={y(to)} />;
}

/** A note with its bands both ways. */
function Cross({ layout, point }: { readonly layout: PlotLayout; readonly point: Point }): ReactNode {
  const x = (degrees: number): number => toPixels(layout.x, degrees);
  const y = (degrees: number): number => toPixels(layout.y, degrees);
  const [across, up] = [point.predictedSdDeg * NINETY_FIVE_PERCENT, point.measuredSdDeg * NINETY_FIVE_PERCENT];
  const [middleX, middleY] = [x(point.predictedDeg), y(point.measuredDeg)];
  return (
    <g>
      <line className="says-error says-error-across" x1={x(point.predictedDeg - across)} x2={x(point.predictedDeg + across)} y1={middleY} y2={middleY} />
      <line className="says-error chart-error" x1={middleX} x2={middleX} y1={y(point.measuredDeg - up)} y2={y(point.measuredDeg + up)} />
      <rect className="chart-measured-mark" x={middleX - 4} y={middleY - 4} width={8} height={8} />
    </g>
  );
}
