/** The place along the line of travel against pitch, with the nearest travel that never turns back and the turn where there is one. */
import type { ReactNode } from 'react';
import type { AlongNote } from '../../core/findings/alongLine';
import { NINETY_FIVE_PERCENT } from '../../core/bands';
import type { TurnBack } from '../../core/findings/findings';
import { useFrame } from '../../hooks/useFrame';
import { sayChart } from '../../words/chart';
import { saySays } from '../../words/says';
import { ErrorSquare } from '../chart/AngleTraces';
import { Legend, LineKey, MeasuredKey } from '../chart/Legend';
import { linePath, toPixels } from '../chart/scale';
import { formatBand, formatFixed } from '../numberText';
import { HiddenTable, NoteAxis, PlotFrame, noteAxisPx } from './PlotFrame';
import { noteLabels } from './noteAxis';
import type { NoteNamer } from './saysWords';
import { layoutPlot } from './smallPlot';

export interface AlongPlotProps {
  readonly notes: readonly AlongNote[];
  readonly turn: TurnBack | null;
  readonly name: NoteNamer;
  readonly label: string;
}

const PLOT_HEIGHT_PX = 150;
const LEAST_SPAN_MM = 3;

export function AlongPlot({ notes, turn, name, label }: AlongPlotProps): ReactNode {
  const [frame, { widthPx, zoom }] = useFrame<HTMLDivElement>();
  const reach = notes.flatMap(({ alongMm, sdMm }) => [alongMm - sdMm * NINETY_FIVE_PERCENT, alongMm + sdMm * NINETY_FIVE_PERCENT]);
  const midis = notes.map(({ midi }) => midi);
  const layout = layoutPlot(
    { widthPx, plotHeightPx: PLOT_HEIGHT_PX },
    [Math.min(...midis), Math.max(...midis)],
    reach,
    LEAST_SPAN_MM,
  );
  const x = (midi: number): number => toPixels(layout.x, midi);
  const y = (mm: number): number => toPixels(layout.y, mm);
  const turnAt = turn?.found === true ? turn.at : null;
  const labels = noteLabels(notes, layout.x, name, turnAt === null ? [] : [turnAt.midi]);
  const heightPx = layout.box.bottomPx + noteAxisPx(labels);
  return (
    <figure className="says-picture" ref={frame}>
      <Legend>
        <MeasuredKey says={saySays('seenKey')} />
        <LineKey says={saySays('monotoneKey')} className="chart-travel-line" />
      </Legend>
      {widthPx > 0 && (
        <div className="chart-area" style={{ height: heightPx, zoom }}>
          <svg width={widthPx} height={heightPx} role="img" aria-label={label}>
            <PlotFrame layout={layout} title={saySays('alongTitle')} unit={sayChart('mmFromHome')}>
              {turnAt !== null && (
                <g>
                  <line className="says-turn" x1={x(turnAt.midi)} x2={x(turnAt.midi)} y1={layout.box.topPx} y2={layout.box.bottomPx} />
                  <text
                    className="chart-name chart-name-selected"
                    x={x(turnAt.midi) + (toTheLeft(x(turnAt.midi), widthPx) ? -6 : 6)}
                    y={layout.box.bottomPx - 6}
                    textAnchor={toTheLeft(x(turnAt.midi), widthPx) ? 'end' : 'start'}
                  >
                    {saySays('turnsHere')}
                  </text>
                </g>
              )}
              <path className="chart-travel-line" d={linePath(notes.map(({ midi, monotoneMm }) => [x(midi), y(monotoneMm)] as const))} />
              {notes.map(({ midi, alongMm, sdMm }) => (
                <ErrorSquare
                  key={midi}
                  x={x(midi)}
                  y={y(alongMm)}
                  high={y(alongMm + sdMm * NINETY_FIVE_PERCENT)}
                  low={y(alongMm - sdMm * NINETY_FIVE_PERCENT)}
                />
              ))}
            </PlotFrame>
            <NoteAxis layout={layout} labels={labels} />
          </svg>
        </div>
      )}
      <HiddenTable
        caption={saySays('alongCaption')}
        head={[saySays('note'), saySays('seenHead'), saySays('monotoneHead')]}
        rows={notes.map(({ note, alongMm, sdMm, monotoneMm }) => [
          name(note),
          `${formatFixed(alongMm, 1)} ± ${formatBand(sdMm, 1)}`,
          formatFixed(monotoneMm, 1),
        ])}
      />
    </figure>
  );
}

/** The words stand where there is room for them. */
const toTheLeft = (xPx: number, widthPx: number): boolean => xPx > widthPx - 110;
