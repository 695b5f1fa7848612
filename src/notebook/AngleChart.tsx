/**
 * The angle chart: elevation and lateral against pitch as changes from home; predicted (line, round marks, band), held
 * still (dashed) and measured (squares with error bars). One slider over the drawing picks a note by mouse, touch or keys.
 */
import { useMemo, useState, type KeyboardEvent, type MouseEvent } from 'react';
import { NINETY_FIVE_PERCENT } from '../core/bands';
import { isAngleSeen } from '../core/readings';
import { useFrame } from '../hooks/useFrame';
import { sayChart } from '../words/chart';
import { MovingText } from './Moving';
import { AngleLegend } from './chart/AngleLegend';
import { AngleTable } from './chart/AngleTable';
import { AngleTraces } from './chart/AngleTraces';
import './chart/chart.css';
import { PanelFrame, PitchAxis } from './chart/PanelFrame';
import { layoutPanels, pairOfDomains } from './chart/panels';
import type { AngleChartProps, AnglePoint } from './chart/props';
import { nearest } from './chart/scale';
import { useLivePoint } from './chart/useLivePoint';
import { usePitchPlayhead } from './chart/usePlayhead';
import { angleSentence, angleTitle, noteLabel, signed } from './chart/words';

/** A panel that shows less than this would blow noise up to the size of news. */
const LEAST_SPAN_DEG = 4;
const HOME = { elevationDeg: 0, lateralDeg: 0 };

export function AngleChart(props: AngleChartProps) {
  const { points, ways, held = HOME, words = heldTitles(), live, home, selected, onSelect } = props;
  const [frame, { widthPx: width, zoom }] = useFrame<HTMLDivElement>();
  const [hovered, setHovered] = useState<number | null>(null);
  const selectedIndex = indexOf(points, selected);
  const layout = useMemo(() => {
    const domains = pairOfDomains(
      [...reach(points, 'elevation'), ...ways.flatMap(({ curve }) => curve.map((at) => at.elevationDeg)), held.elevationDeg],
      [...reach(points, 'lateral'), ...ways.flatMap(({ curve }) => curve.map((at) => at.lateralDeg)), held.lateralDeg],
      LEAST_SPAN_DEG,
    );
    const notes = points.map(({ midi, label }) => ({ midi, label: noteLabel(label) }));
    return layoutPanels(width, domains, notes, selectedIndex);
  }, [width, points, ways, held, selectedIndex]);
  const playhead = usePitchPlayhead(live, layout.pitch);

  if (points.length === 0) {
    return (
      <div className="chart" ref={frame}>
        <p className="chart-message">{sayChart('noNotes')}</p>
      </div>
    );
  }
  const shownIndex = hovered !== null && hovered < points.length ? hovered : selectedIndex;
  const shown = shownIndex === null ? undefined : points[shownIndex];
  const choose = (index: number | null): void => {
    const point = index === null ? undefined : points[index];
    if (point && point.readingIndex !== selected) onSelect(point.readingIndex);
  };
  const indexUnder = (event: MouseEvent<HTMLElement>): number | null => {
    const px = (event.clientX - event.currentTarget.getBoundingClientRect().left) / zoom + layout.plotLeftPx;
    const found = nearest(px, layout.noteXs);
    // Of two notes at one pitch, the one on the way that is being read.
    const direction = selectedIndex === null ? null : points[selectedIndex]?.direction;
    const beside = points.findIndex((point) => found !== null && point.midi === points[found]?.midi && point.direction === direction);
    return beside < 0 ? found : beside;
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    const next = stepped(event.key, selectedIndex, points.length);
    if (next === null) return;
    event.preventDefault();
    setHovered(null);
    choose(next);
  };
  const [upper, lower] = layout.panels;

  return (
    <div className="chart" ref={frame}>
      <AngleLegend
        band={points.some((point) => point.band)}
        measured={points.some(({ measured }) => measured && (isAngleSeen(measured.sdDeg) || isAngleSeen(measured.lateralSdDeg)))}
        twoWays={ways.length > 1}
      />
      {width > 0 && (
        <div className="chart-area" style={{ height: layout.heightPx, zoom }}>
          <svg width={layout.widthPx} height={layout.heightPx} role="img" aria-label={summary(points, words)}>
            <PitchAxis
              layout={layout}
              labels={points.map((point) => noteLabel(point.label))}
              selectedIndex={shownIndex}
            />
            <PanelFrame layout={layout} panel={upper} title={words.elevation} unit={sayChart('degFromHome')}>
              <AngleTraces {...{ layout, points, ways, live, home, selected }} panel={upper} angle="elevation" held={held.elevationDeg} shownIndex={shownIndex} />
            </PanelFrame>
            <PanelFrame layout={layout} panel={lower} title={words.lateral} unit={sayChart('degFromHome')}>
              <AngleTraces {...{ layout, points, ways, live, home, selected }} panel={lower} angle="lateral" held={held.lateralDeg} shownIndex={shownIndex} />
            </PanelFrame>
            <g ref={playhead} visibility="hidden">
              <line className="chart-playhead" y1={upper.topPx} y2={upper.bottomPx} />
              <line className="chart-playhead" y1={lower.topPx} y2={lower.bottomPx} />
            </g>
          </svg>
          <div
            className="chart-slider"
            role="slider"
            tabIndex={0}
            aria-label={sayChart('angleSlider')}
            aria-valuemin={1}
            aria-valuemax={points.length}
            aria-valuenow={(selectedIndex ?? 0) + 1}
            aria-valuetext={selectedIndex === null ? sayChart('noneChosen') : angleSentence(points[selectedIndex] as AnglePoint)}
            style={{
              left: layout.plotLeftPx,
              top: upper.topPx,
              width: layout.plotRightPx - layout.plotLeftPx,
              height: layout.heightPx - upper.topPx,
            }}
            onKeyDown={onKeyDown}
            onPointerMove={(event) => event.pointerType === 'mouse' && setHovered(indexUnder(event))}
            onPointerLeave={() => setHovered(null)}
            onClick={(event) => choose(indexUnder(event))}
          />
        </div>
      )}
      <p className="chart-readout">
        {shown === undefined ? sayChart('choose') : <Readout point={shown} live={live} home={home} />}
      </p>
      <AngleTable points={points} words={words} />
    </div>
  );
}

function Readout({ point, live, home }: Pick<AngleChartProps, 'live' | 'home'> & { readonly point: AnglePoint }) {
  return <MovingText of={useLivePoint(live, point, home)} words={angleSentence} />;
}

function indexOf(points: readonly AnglePoint[], readingIndex: number | null): number | null {
  const index = points.findIndex((point) => point.readingIndex === readingIndex);
  return index < 0 ? null : index;
}

/** Everything that has to fit into a panel: predictions with bands, measurements with error bars. */
function reach(points: readonly AnglePoint[], angle: 'elevation' | 'lateral'): number[] {
  return points.flatMap(({ predicted, band, measured }) => {
    const value = predicted[`${angle}Deg`];
    const margin = (band?.[`${angle}SdDeg`] ?? 0) * NINETY_FIVE_PERCENT;
    const sd = measured?.[angle === 'elevation' ? 'sdDeg' : 'lateralSdDeg'] ?? 0;
    const error = sd * NINETY_FIVE_PERCENT;
    const seen = measured && isAngleSeen(sd) ? [measured[`${angle}Deg`] - error, measured[`${angle}Deg`] + error] : [];
    return [value - margin, value + margin, ...seen];
  });
}

function summary(points: readonly AnglePoint[], words: { readonly elevation: string; readonly lateral: string }): string {
  const [first, last] = [points[0] as AnglePoint, points[points.length - 1] as AnglePoint];
  return sayChart('angleSummary', {
    ...words,
    first: noteLabel(first.label),
    last: noteLabel(last.label),
    upFirst: signed(first.predicted.elevationDeg),
    upLast: signed(last.predicted.elevationDeg),
    rightFirst: signed(first.predicted.lateralDeg),
    rightLast: signed(last.predicted.lateralDeg),
  });
}

const heldTitles = () => ({ elevation: angleTitle('held', 'elevation'), lateral: angleTitle('held', 'lateral') });

function stepped(key: string, current: number | null, count: number): number | null {
  if (key === 'Home') return 0;
  if (key === 'End') return count - 1;
  if (key === 'ArrowRight' || key === 'ArrowUp') return current === null ? 0 : Math.min(count - 1, current + 1);
  if (key === 'ArrowLeft' || key === 'ArrowDown') return current === null ? count - 1 : Math.max(0, current - 1);
  return null;
}
