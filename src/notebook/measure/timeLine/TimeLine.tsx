/** A film's time line: loudness, the notes, travel and angle against time. A press goes there; a note's ends can be drawn along. */
import { type PointerEvent, type ReactNode, memo, useMemo, useRef } from 'react';
import { useFrame } from '../../../hooks/useFrame';
import { fromPixels, tickText, toPixels } from '../../chart/scale';
import { formatFixed } from '../../numberText';
import { type TimeLineLayout, curvePath, layoutTimeLine, valueAt, wavePath } from './layout';
import { NoteSpans } from './NoteSpans';
import { sayFilming } from '../../../words/filming';
import { costWords, stretchWords } from '../film/lostWords';
import type { LostStretchShown, Panel, TimeLineProps } from './props';
import './timeLine.css';

export function TimeLine(props: TimeLineProps): ReactNode {
  const { span, timeS, wave, panels, lost, anchors, onTime } = props;
  const [frame, { widthPx, zoom }] = useFrame<HTMLDivElement>();
  const layout = useMemo(() => layoutTimeLine(widthPx, span, panels), [widthPx, span, panels]);
  const pressed = useRef(false);
  const timeAt = (event: PointerEvent<SVGSVGElement>): number => {
    const box = event.currentTarget.getBoundingClientRect();
    return Math.min(span.endS, Math.max(span.startS, fromPixels(layout.x, (event.clientX - box.left) / zoom)));
  };
  return (
    <figure className="time-line" ref={frame}>
      {widthPx > 0 && (
        <div className="chart-area" style={{ height: layout.heightPx, zoom }}>
          <svg
            width={widthPx}
            height={layout.heightPx}
            role="img"
            aria-label={spoken(props)}
            onPointerDown={(event) => {
              if (event.button !== 0) return;
              pressed.current = true;
              event.currentTarget.setPointerCapture(event.pointerId);
              onTime(timeAt(event));
            }}
            onPointerMove={(event) => {
              if (pressed.current) onTime(timeAt(event));
            }}
            onPointerUp={() => (pressed.current = false)}
            onPointerCancel={() => (pressed.current = false)}
          >
            <Lost lost={lost} layout={layout} />
            {wave === null ? null : <path className="time-line__wave" d={wavePath(wave, layout)} />}
            <Panels panels={panels} layout={layout} />
            <Seconds layout={layout} />
            {anchors.map((anchor) => (
              <path
                key={anchor}
                className="time-line__anchor"
                d={`M${toPixels(layout.x, anchor)} ${layout.axisPx}l-4 7h8Z`}
              >
                <title>{sayFilming('markedAt', { seconds: formatFixed(anchor, 2) })}</title>
              </path>
            ))}
            <Now timeS={timeS} panels={panels} layout={layout} />
          </svg>
          <NoteSpans {...props} layout={layout} zoom={zoom} />
        </div>
      )}
    </figure>
  );
}

/** Drawn anew only when they change, not at every step along the film. */
const Panels = memo(function Panels({ panels, layout }: { readonly panels: readonly Panel[]; readonly layout: TimeLineLayout }): ReactNode {
  const [leftPx, rightPx] = layout.x.to;
  return panels.map((panel, index) => {
    const place = layout.panels[index];
    if (place === undefined) return null;
    return (
      <g key={panel.title}>
        <text className="chart-title" x={0} y={place.topPx - 9}>
          {panel.title}
          <tspan className="chart-unit">{`, ${panel.unit}`}</tspan>
        </text>
        {place.yTicks.map((tick) => (
          <g key={tick}>
            <line className={tick === 0 ? 'chart-home' : 'chart-grid'} x1={leftPx} x2={rightPx} y1={toPixels(place.y, tick)} y2={toPixels(place.y, tick)} />
            <text className="chart-tick" x={leftPx - 6} y={toPixels(place.y, tick)} dy="0.35em" textAnchor="end">
              {tickText(tick, place.yStep)}
            </text>
          </g>
        ))}
        {panel.curves.map((curve, nth) => (
          <path key={curve.id} className={nth === 0 ? 'time-line__curve' : 'time-line__curve time-line__curve--second'} d={curvePath(curve, layout.x, place.y)} />
        ))}
      </g>
    );
  });
});

function Seconds({ layout }: { readonly layout: TimeLineLayout }): ReactNode {
  return layout.timeTicks.map((tick) => (
    <text key={tick} className="chart-tick" x={toPixels(layout.x, tick)} y={layout.axisPx + 15} textAnchor="middle">
      {`${tickText(tick, layout.timeStep)} s`}
    </text>
  ));
}

/** Where only a mark was lost and the numbers stay, a strip along the foot. */
const STRIP_PX = 5;

function Lost({ lost, layout }: { readonly lost: readonly LostStretchShown[]; readonly layout: TimeLineLayout }): ReactNode {
  return lost.map(({ startS, endS, cost, what }) => {
    const [from, to] = [toPixels(layout.x, startS), toPixels(layout.x, endS)];
    const topPx = cost === 'none' ? layout.axisPx - STRIP_PX : layout.waveTopPx;
    return (
      <rect key={startS} className="time-line__lost" data-cost={cost} x={from} width={Math.max(2, to - from)} y={topPx} height={layout.axisPx - topPx}>
        <title>{sayFilming('lostTitle', { stretch: stretchWords(startS, endS), marks: what.join('; '), cost: costWords(cost) })}</title>
      </rect>
    );
  });
}

/** The present time, with what each curve says there. */
function Now({ timeS, panels, layout }: { readonly timeS: number; readonly panels: readonly Panel[]; readonly layout: TimeLineLayout }): ReactNode {
  const x = toPixels(layout.x, timeS);
  return (
    <g>
      <line className="chart-playhead" x1={x} x2={x} y1={layout.waveTopPx} y2={layout.axisPx} />
      {panels.flatMap((panel, index) =>
        panel.curves.map((curve) => {
          const value = valueAt(curve, timeS);
          const place = layout.panels[index];
          return value === null || place === undefined ? null : (
            <rect key={curve.id} className="chart-measured-mark" x={x - 3.5} y={toPixels(place.y, value) - 3.5} width={7} height={7} />
          );
        }))}
    </g>
  );
}

function spoken({ span, notes, lost, panels, timeS }: TimeLineProps): string {
  const now = panels.flatMap((panel) =>
    panel.curves.flatMap((curve) => {
      const value = valueAt(curve, timeS);
      return value === null ? [] : [`${curve.label} ${formatFixed(value, 1)} ${panel.unit}`];
    }));
  return [
    sayFilming('timeLine', { seconds: formatFixed(span.endS - span.startS, 1), count: notes.length }),
    ...(lost.length === 0 ? [] : [sayFilming('lostStretches', { count: lost.length })]),
    ...(now.length === 0 ? [] : [sayFilming('nowSaid', { seconds: formatFixed(timeS, 2), values: now.join(', ') })]),
  ].join('; ');
}
