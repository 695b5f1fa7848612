/** The swing predicted at every note, by the chosen arch (dashed) and with the player's own shape (solid), each with its 95 % band. */
import type { ReactNode } from 'react';
import { NINETY_FIVE_PERCENT } from '../../core/bands';
import type { OwnShape, SwingPrediction } from '../../core/findings/findings';
import { useFrame } from '../../hooks/useFrame';
import { KeyBand, KeyLine, KeyMark, Legend, LegendKey } from '../chart/Legend';
import { PanelFrame, PitchAxis } from '../chart/PanelFrame';
import { type PanelLayout, type PanelsLayout, layoutPanels, pairOfDomains } from '../chart/panels';
import { linePath, stripPath, toPixels } from '../chart/scale';
import { angleTitle } from '../chart/words';
import type { Posture } from '../../print/instrumentWords';
import { sayChart } from '../../words/chart';
import { saySays } from '../../words/says';
import type { SwingAxis } from './followSaid';
import { HiddenTable } from './PlotFrame';
import { type NoteNamer, estimateWords } from './saysWords';

export interface OwnShapePlotProps {
  readonly own: OwnShape;
  readonly posture: Posture;
  readonly name: NoteNamer;
  readonly label: string;
}

type When = 'before' | 'after';

const LEAST_SPAN_DEG = 4;

export function OwnShapePlot({ own, posture, name, label }: OwnShapePlotProps): ReactNode {
  const [frame, { widthPx, zoom }] = useFrame<HTMLDivElement>();
  const predictions = [...own.predictions].sort((a, b) => a.midi - b.midi);
  const reach = (axis: SwingAxis): number[] =>
    predictions.flatMap((one) => (['before', 'after'] as const).flatMap((when) => edges(one, when, axis)));
  const notes = predictions.map(({ midi, note }) => ({ midi, label: name(note) }));
  const layout = layoutPanels(widthPx, pairOfDomains(reach('elevation'), reach('lateral'), LEAST_SPAN_DEG), notes, null);
  return (
    <figure className="says-picture" ref={frame}>
      <Legend>
        <LegendKey says={saySays('ownShapeKey')}>
          <KeyBand className="chart-band" />
          <KeyLine className="chart-predicted-line" />
          <KeyMark className="chart-predicted-mark" />
        </LegendKey>
        <LegendKey says={saySays('archAloneKey')}>
          <KeyBand className="says-before-band" />
          <KeyLine className="says-before" />
        </LegendKey>
        <LegendKey says={saySays('unmeasuredKey')} widthPx={12}>
          <circle className="says-unmeasured" cx="6" cy="6" r="4" />
        </LegendKey>
      </Legend>
      {widthPx > 0 && (
        <div className="chart-area" style={{ height: layout.heightPx, zoom }}>
          <svg width={layout.widthPx} height={layout.heightPx} role="img" aria-label={label}>
            <PitchAxis layout={layout} labels={notes.map((note) => note.label)} selectedIndex={null} />
            {(['elevation', 'lateral'] as const).map((axis, index) => (
              <PanelFrame key={axis} layout={layout} panel={layout.panels[index]!} title={angleTitle(posture, axis)} unit={sayChart('degFromHome')}>
                <Curves layout={layout} panel={layout.panels[index]!} axis={axis} predictions={predictions} />
              </PanelFrame>
            ))}
          </svg>
        </div>
      )}
      <HiddenTable
        caption={saySays('shapeCaption')}
        head={[saySays('note'), ...(['elevation', 'lateral'] as const).flatMap((axis) => beforeAndAfter(angleTitle(posture, axis)))]}
        rows={predictions.map((one) => [
          saySays('shapeNote', { note: name(one.note), direction: one.direction ?? 'both', measured: one.measured ? 'yes' : 'no' }),
          ...(['elevation', 'lateral'] as const).flatMap((axis) => [withBand(one, 'before', axis), withBand(one, 'after', axis)]),
        ])}
      />
    </figure>
  );
}

const beforeAndAfter = (swing: string): string[] => [saySays('beforeHead', { swing }), saySays('afterHead', { swing })];

function Curves({ layout, panel, axis, predictions }: {
  readonly layout: PanelsLayout;
  readonly panel: PanelLayout;
  readonly axis: SwingAxis;
  readonly predictions: readonly SwingPrediction[];
}): ReactNode {
  const x = (one: SwingPrediction): number => toPixels(layout.pitch, one.midi);
  const y = (degrees: number): number => toPixels(panel.scale, degrees);
  // Ascending and descending are two ways through the same notes.
  const ways = [...new Set(predictions.map(({ direction }) => direction))].map((way) => predictions.filter(({ direction }) => direction === way));
  const strip = (way: readonly SwingPrediction[], when: When): string =>
    stripPath(way.map((one) => {
      const [low, high] = edges(one, when, axis);
      return { x: x(one), high: y(high), low: y(low) };
    }));
  const line = (way: readonly SwingPrediction[], when: When): string => linePath(way.map((one) => [x(one), y(one[when][`${axis}Deg`])] as const));
  return (
    <g>
      {ways.map((way, index) => (
        <g key={index}>
          <path className="says-before-band" d={strip(way, 'before')} />
          <path className="chart-band" d={strip(way, 'after')} />
          <path className="says-before" d={line(way, 'before')} />
          <path className="chart-predicted-line" d={line(way, 'after')} />
        </g>
      ))}
      {predictions.map((one, index) => (
        <circle
          key={index}
          className={one.measured ? 'chart-predicted-mark' : 'says-unmeasured'}
          cx={x(one)}
          cy={y(one.after[`${axis}Deg`])}
          r={4}
        />
      ))}
    </g>
  );
}

/** As drawn, where mouths were drawn. */
function edges(one: SwingPrediction, when: When, axis: SwingAxis): readonly [number, number] {
  const drawn = one[when].drawn?.[axis];
  if (drawn) return [drawn.low, drawn.high];
  const [value, margin] = [one[when][`${axis}Deg`], one[when][`${axis}SdDeg`] * NINETY_FIVE_PERCENT];
  return [value - margin, value + margin];
}

function withBand(one: SwingPrediction, when: When, axis: SwingAxis): string {
  const [low, high] = edges(one, when, axis);
  return estimateWords({ value: one[when][`${axis}Deg`], low, high }, '°');
}
