import type { ReactNode, RefObject } from 'react';
import { NINETY_FIVE_PERCENT } from '../../core/bands';
import { isAngleSeen } from '../../core/readings';
import { useMoving } from '../Moving';
import type { PanelLayout, PanelsLayout } from './panels';
import type { AngleChartProps, AngleCurvePoint, AnglePoint, Way } from './props';
import { linePath, stripPath, toPixels } from './scale';
import { useLivePoint } from './useLivePoint';

export interface AngleTracesProps extends Pick<AngleChartProps, 'live' | 'home' | 'selected'> {
  readonly layout: PanelsLayout;
  readonly panel: PanelLayout;
  readonly angle: 'elevation' | 'lateral';
  readonly points: readonly AnglePoint[];
  readonly ways: readonly Way<AngleCurvePoint>[];
  readonly held: number;
  readonly shownIndex: number | null;
}

/** One panel's lines and marks, from back to front: bands, held, predicted lines, error bars, squares, rounds. */
export function AngleTraces({ layout, panel, angle, points, ways, held, shownIndex, live, home, selected }: AngleTracesProps) {
  const key = `${angle}Deg` as const;
  const sdKey = angle === 'elevation' ? 'sdDeg' : 'lateralSdDeg';
  const y = (degrees: number): number => toPixels(panel.scale, degrees);
  const x = (index: number): number => layout.noteXs[index]!;
  const bandOf = ({ members }: Way<AngleCurvePoint>): string =>
    stripPath(
      members.flatMap((index) => {
        const { predicted, band } = points[index]!;
        if (!band) return [];
        const margin = band[`${angle}SdDeg`] * NINETY_FIVE_PERCENT;
        return [{ x: x(index), high: y(predicted[key] + margin), low: y(predicted[key] - margin) }];
      }),
    );
  const lineOf = ({ members, curve }: Way<AngleCurvePoint>): string =>
    linePath(
      curve.length > 1
        ? curve.map((at) => [toPixels(layout.pitch, at.midi), y(at[key])] as const)
        : members.map((index) => [x(index), y(points[index]!.predicted[key])] as const),
    );
  const each = (draw: (point: AnglePoint, index: number) => ReactNode): ReactNode => points.map(draw);
  // Beside the prediction, not on top of it: where the two agree both marks must still be seen. The way down stands on the other side.
  const aside = Math.min(MEASURED_ASIDE_PX, closest(layout.noteXs) / 3);
  return (
    <g>
      {ways.map((way) => (
        <path key={way.direction} className="chart-band" d={bandOf(way)} />
      ))}
      <line className="chart-held-line" x1={layout.plotLeftPx} x2={layout.plotRightPx} y1={y(held)} y2={y(held)} />
      {ways.map((way) => (
        <path key={way.direction} className={fallingClass('chart-predicted-line', 'chart-falling', way.direction)} d={lineOf(way)} />
      ))}
      {each(({ readingIndex, measured, direction }, index) =>
        measured && isAngleSeen(measured[sdKey]) ? (
          <ErrorSquare
            key={readingIndex}
            x={x(index) + (direction === 'down' ? -aside : aside)}
            y={y(measured[key])}
            high={y(measured[key] + measured[sdKey] * NINETY_FIVE_PERCENT)}
            low={y(measured[key] - measured[sdKey] * NINETY_FIVE_PERCENT)}
          />
        ) : null)}
      {each((point, index) => {
        const place = { x: x(index), panel, angle: key, radius: index === shownIndex ? 6 : 4.5 };
        return point.readingIndex === selected ? (
          <LiveMark key={point.readingIndex} point={point} live={live} home={home} {...place} />
        ) : (
          <PredictedMark key={point.readingIndex} point={point} {...place} />
        );
      })}
    </g>
  );
}

interface MarkProps {
  readonly point: AnglePoint;
  readonly x: number;
  readonly panel: PanelLayout;
  readonly angle: 'elevationDeg' | 'lateralDeg';
  readonly radius: number;
}

/** What a drag takes off the scale stays at the panel's edge, until the scale follows. */
function markY({ panel, angle }: Pick<MarkProps, 'panel' | 'angle'>, { predicted }: AnglePoint): number {
  return Math.min(panel.bottomPx, Math.max(panel.topPx, toPixels(panel.scale, predicted[angle])));
}

function PredictedMark({ mark, ...props }: MarkProps & { readonly mark?: RefObject<SVGCircleElement | null> }) {
  const { point, x, radius } = props;
  return <circle ref={mark} className={fallingClass('chart-predicted-mark', 'chart-falling-mark', point.direction)} cx={x} cy={markY(props, point)} r={radius} />;
}

function LiveMark({ live, home, ...props }: MarkProps & Pick<AngleChartProps, 'live' | 'home'>) {
  const mark = useMoving<SVGCircleElement, AnglePoint>(useLivePoint(live, props.point, home), (circle, point) =>
    circle.setAttribute('cy', String(markY(props, point))));
  return <PredictedMark mark={mark} {...props} />;
}

const MEASURED_ASIDE_PX = 7;

/** The way down is told from the way up by its shape: a dotted line, hollow marks. */
export function fallingClass(plain: string, falling: string, direction: AnglePoint['direction']): string {
  return direction === 'down' ? `${plain} ${falling}` : plain;
}

/** The least distance of two different places. */
function closest(places: readonly number[]): number {
  const apart = [...new Set(places)].sort((a, b) => a - b);
  return Math.min(...apart.slice(1).map((place, index) => place - apart[index]!));
}

/** A measured value with its error bar; no bar where it would vanish under the square. */
export function ErrorSquare({ x, y, high, low }: {
  readonly x: number;
  readonly y: number;
  readonly high: number;
  readonly low: number;
}) {
  return (
    <g>
      {low - high > 1 && (
        <path className="chart-error" d={`M${x} ${high}V${low}M${x - 4} ${high}h8M${x - 4} ${low}h8`} />
      )}
      <rect className="chart-measured-mark" x={x - 4.5} y={y - 4.5} width={9} height={9} />
    </g>
  );
}
