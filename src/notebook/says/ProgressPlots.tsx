/** Travel, follow ratio and ease over the player's lessons: small plots, with 95 % bands where they are known. */
import type { ReactNode } from 'react';
import type { Estimate } from '../../core/findings/findings';
import type { ProgressPoint } from '../../core/findings/progress';
import { useFrame } from '../../hooks/useFrame';
import { dayWords, shortDayWords } from '../../words/days';
import { saySays } from '../../words/says';
import { linePath, toPixels } from '../chart/scale';
import { formatFixed } from '../numberText';
import { HiddenTable, PlotFrame } from './PlotFrame';
import { estimateWords } from './saysWords';
import { layoutPlot } from './smallPlot';
import './says.css';

export interface ProgressPlotsProps {
  readonly points: readonly ProgressPoint[];
}

export function ProgressPlots({ points }: ProgressPlotsProps): ReactNode {
  if (points.length < 2) return <p className="note">{saySays('oneLesson')}</p>;
  const undated = points.some(({ date }) => date === null);
  return (
    <>
      {undated && <p className="note">{saySays('undated')}</p>}
      <div className="progress-plots">
        <OverLessons title={saySays('travel')} unit={saySays('mmAnOctave')} places={1} leastSpan={2} values={of(points, ({ travelMmPerOctave }) => shown(travelMmPerOctave))} />
        <OverLessons title={saySays('ratioSideways')} unit={saySays('ratioUnit')} places={2} leastSpan={1.5} values={of(points, ({ followLateral }) => shown(followLateral))} />
        {points.some(({ followElevation }) => followElevation !== null) && (
          <OverLessons title={saySays('ratioUpAndDown')} unit={saySays('ratioUnit')} places={2} leastSpan={1.5} values={of(points, ({ followElevation }) => shown(followElevation))} />
        )}
        <OverLessons title={saySays('ease')} unit={saySays('easeUnit')} places={1} leastSpan={4} yDomain={EASE_DOMAIN} values={of(points, ({ ease }) => (ease === null ? null : { value: ease.value, low: null, high: null }))} />
      </div>
    </>
  );
}

interface Shown {
  readonly value: number;
  readonly low: number | null;
  readonly high: number | null;
}

interface At {
  readonly point: ProgressPoint;
  /** "Lesson 2". */
  readonly name: string;
  readonly shown: Shown | null;
}

interface OverLessonsProps {
  readonly title: string;
  readonly unit: string;
  readonly places: number;
  readonly leastSpan: number;
  readonly yDomain?: readonly [number, number];
  readonly values: readonly At[];
}

const EASE_DOMAIN = [1, 5] as const;

const PLOT_HEIGHT_PX = 110;
const AXIS_PX = 24;

function OverLessons({ title, unit, places, leastSpan, yDomain, values }: OverLessonsProps): ReactNode {
  const [frame, { widthPx, zoom }] = useFrame<HTMLDivElement>();
  const known = values.flatMap(({ point, name, shown: one }) => (one === null ? [] : [{ point, name, ...one }]));
  const ats = values.map(({ point }) => point.at);
  const layout = layoutPlot(
    { widthPx, plotHeightPx: PLOT_HEIGHT_PX, yDomain },
    [Math.min(...ats), Math.max(...ats)],
    known.flatMap(({ value, low, high }) => [value, low ?? value, high ?? value]),
    leastSpan,
  );
  const x = ({ at }: ProgressPoint): number => toPixels(layout.x, at);
  const y = (value: number): number => toPixels(layout.y, value);
  const inTime = known.toSorted((a, b) => a.point.at - b.point.at);
  const [first, last] = [values[0], values.at(-1)];
  return (
    <figure className="says-picture" ref={frame}>
      {widthPx > 0 && (
        <div className="chart-area" style={{ height: layout.box.bottomPx + AXIS_PX, zoom }}>
          <svg width={widthPx} height={layout.box.bottomPx + AXIS_PX} role="img" aria-label={progressWords(title, unit, places, values)}>
            <PlotFrame layout={layout} title={title} unit={unit}>
              <path className="says-joined" d={linePath(inTime.map(({ point, value }) => [x(point), y(value)] as const))} />
              {known.map(({ point, value, low, high }) => (
                <g key={point.id}>
                  {low !== null && high !== null && <line className="chart-error" x1={x(point)} x2={x(point)} y1={y(low)} y2={y(high)} />}
                  <rect className={point.date === null ? 'says-undated' : 'chart-measured-mark'} x={x(point) - 4} y={y(value) - 4} width={8} height={8} />
                </g>
              ))}
              {known.length === 0 && (
                <text className="chart-tick" x={(layout.box.leftPx + layout.box.rightPx) / 2} y={layout.box.topPx + 22} textAnchor="middle">
                  {saySays('toldInNone')}
                </text>
              )}
              {first !== undefined && (
                <text className="chart-tick" x={layout.box.leftPx} y={layout.box.bottomPx + 18}>
                  {first.point.date === null ? first.name : shortDayWords(first.point.date)}
                </text>
              )}
              {last !== undefined && (
                <text className="chart-tick" x={layout.box.rightPx} y={layout.box.bottomPx + 18} textAnchor="end">
                  {last.point.date === null ? last.name : shortDayWords(last.point.date)}
                </text>
              )}
            </PlotFrame>
          </svg>
        </div>
      )}
      <HiddenTable
        caption={saySays('overLessons', { title, unit })}
        head={[saySays('lesson'), title]}
        rows={values.map(({ point, name, shown: one }) => [point.date === null ? saySays('noDate', { lesson: name }) : dayWords(point.date), valueWords(one, places)])}
      />
    </figure>
  );
}

/** "Travel, mm an octave, over 3 lessons: 1.9 at first, 2.3 at last." */
function progressWords(title: string, unit: string, places: number, values: readonly { readonly shown: Shown | null }[]): string {
  const known = values.flatMap(({ shown: one }) => (one === null ? [] : [one]));
  const [first, last] = [known[0], known.at(-1)];
  const over = { title, unit, count: values.length };
  if (first === undefined || last === undefined) return saySays('progressNone', over);
  if (known.length === 1) return saySays('progressOne', { ...over, value: formatFixed(first.value, places) });
  return saySays('progress', { ...over, first: formatFixed(first.value, places), last: formatFixed(last.value, places) });
}

function valueWords(one: Shown | null, places: number): string {
  if (one === null) return saySays('notTold');
  const { value, low, high } = one;
  return low === null || high === null ? formatFixed(value, places) : estimateWords({ value, low, high }, '', places);
}

const shown = (estimate: Estimate | null): Shown | null => estimate;

function of(points: readonly ProgressPoint[], value: (point: ProgressPoint) => Shown | null): At[] {
  return points.map((point, index) => ({ point, name: saySays('lessonNumber', { number: index + 1 }), shown: value(point) }));
}
