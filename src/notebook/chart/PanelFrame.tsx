import type { ReactNode } from 'react';
import type { PanelLayout, PanelsLayout } from './panels';
import { AXIS_ROW_PX } from './panels';
import { tickText, toPixels } from './scale';
import { homeLines } from './words';

export interface PanelFrameProps {
  readonly layout: PanelsLayout;
  readonly panel: PanelLayout;
  readonly title: string;
  readonly unit: string;
  readonly children: ReactNode;
}

/** Title, round lines with their numbers, and the zero line called home; what is drawn in it comes as children. */
export function PanelFrame({ layout, panel, title, unit, children }: PanelFrameProps) {
  const { plotLeftPx: left, plotRightPx: right } = layout;
  const home = toPixels(panel.scale, 0);
  return (
    <g>
      <text className="chart-title" x={left} y={panel.topPx - 8}>
        {title}
        <tspan className="chart-unit">{`, ${unit}`}</tspan>
      </text>
      {panel.ticks.map((tick) => {
        const y = toPixels(panel.scale, tick);
        return (
          <g key={tick}>
            {tick !== 0 && <line className="chart-grid" x1={left} x2={right} y1={y} y2={y} />}
            <text className="chart-tick" x={left - 6} y={y} dy="0.35em" textAnchor="end">
              {tickText(tick, layout.tickStep)}
            </text>
          </g>
        );
      })}
      <line className="chart-home" x1={left} x2={right} y1={home} y2={home} />
      <HomeWord xPx={right + 6} yPx={home} />
      {children}
    </g>
  );
}

/** Beside the zero line, its middle at the line's height. */
export function HomeWord({ xPx, yPx }: { readonly xPx: number; readonly yPx: number }) {
  const lines = homeLines();
  return (
    <text className="chart-tick" x={xPx} y={yPx}>
      {lines.map((line, index) => (
        <tspan key={line} x={xPx} dy={index === 0 ? `${0.35 - (lines.length - 1) / 2}em` : '1em'}>
          {line}
        </tspan>
      ))}
    </text>
  );
}

/** The note names under the lower panel and a hair of a line at each note. */
export function PitchAxis({ layout, labels, selectedIndex }: {
  readonly layout: PanelsLayout;
  readonly labels: readonly string[];
  readonly selectedIndex: number | null;
}) {
  const [upper, lower] = layout.panels;
  return (
    <g>
      {layout.noteXs.map((x, index) => (
        <g key={index} className={index === selectedIndex ? 'chart-note chart-note-selected' : 'chart-note'}>
          {[upper, lower].map(({ topPx, bottomPx }) => (
            <line key={topPx} x1={x} x2={x} y1={topPx} y2={bottomPx} />
          ))}
        </g>
      ))}
      {layout.labels.map(({ index, xPx, row }) => (
        <text
          key={index}
          className={index === selectedIndex ? 'chart-name chart-name-selected' : 'chart-name'}
          x={xPx}
          y={layout.axisTopPx + (row + 0.75) * AXIS_ROW_PX}
          textAnchor="middle"
        >
          {labels[index]}
        </text>
      ))}
    </g>
  );
}
