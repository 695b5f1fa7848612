import type { PanelLayout, PanelsLayout } from './panels';
import type { AngleCurvePoint, AnglePoint } from './props';
import { NINETY_FIVE_PERCENT } from '../../core/bands';
import { linePath, stripPath, toPixels } from './scale';

export interface AngleTracesProps {
  readonly layout: PanelsLayout;
  readonly panel: PanelLayout;
  readonly angle: 'elevation' | 'lateral';
  readonly points: readonly AnglePoint[];
  readonly curve: readonly AngleCurvePoint[];
  readonly held: number;
  readonly shownIndex: number | null;
}

/** One panel's lines and marks, from back to front: band, held, predicted line, error bars, squares, rounds. */
export function AngleTraces({ layout, panel, angle, points, curve, held, shownIndex }: AngleTracesProps) {
  const key = `${angle}Deg` as const;
  const y = (degrees: number): number => toPixels(panel.scale, degrees);
  const x = (index: number): number => layout.noteXs[index] as number;
  // Beside the prediction, not on top of it: where the two agree both marks must still be seen.
  const aside = Math.min(MEASURED_ASIDE_PX, closest(layout.noteXs) / 3);
  const line = curve.length > 1
    ? curve.map((at) => [toPixels(layout.pitch, at.midi), y(at[key])] as const)
    : points.map((point, index) => [x(index), y(point.predicted[key])] as const);
  const edges = points.flatMap(({ predicted, band }, index) => {
    if (!band) return [];
    const margin = band[`${angle}SdDeg`] * NINETY_FIVE_PERCENT;
    return [{ x: x(index), high: y(predicted[key] + margin), low: y(predicted[key] - margin) }];
  });
  return (
    <g>
      <path className="chart-band" d={stripPath(edges)} />
      <line className="chart-held-line" x1={layout.plotLeftPx} x2={layout.plotRightPx} y1={y(held)} y2={y(held)} />
      <path className="chart-predicted-line" d={linePath(line)} />
      {points.map(({ readingIndex, measured }, index) =>
        measured ? (
          <ErrorSquare
            key={readingIndex}
            x={x(index) + aside}
            y={y(measured[key])}
            high={y(measured[key] + measured.sdDeg * NINETY_FIVE_PERCENT)}
            low={y(measured[key] - measured.sdDeg * NINETY_FIVE_PERCENT)}
          />
        ) : null,
      )}
      {points.map(({ readingIndex, predicted }, index) => (
        <circle
          key={readingIndex}
          className="chart-predicted-mark"
          cx={x(index)}
          cy={y(predicted[key])}
          r={index === shownIndex ? 6 : 4.5}
        />
      ))}
    </g>
  );
}

const MEASURED_ASIDE_PX = 7;

function closest(places: readonly number[]): number {
  return Math.min(...places.slice(1).map((place, index) => place - (places[index] as number)));
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
