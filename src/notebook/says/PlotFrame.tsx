import type { ReactNode } from 'react';
import { tickText, toPixels } from '../chart/scale';
import type { PlotLayout } from './smallPlot';

export interface PlotFrameProps {
  readonly layout: PlotLayout;
  readonly title: string;
  readonly unit: string;
  readonly children: ReactNode;
}

/** Title, round lines across with their numbers, and the zero line; what is drawn in it comes as children. */
export function PlotFrame({ layout, title, unit, children }: PlotFrameProps): ReactNode {
  const { box, y, yTicks, yStep } = layout;
  return (
    <g>
      <text className="chart-title" x={0} y={box.topPx - 12}>
        {title}
        <tspan className="chart-unit">{`, ${unit}`}</tspan>
      </text>
      {yTicks.map((tick) => (
        <g key={tick}>
          <line
            className={tick === 0 ? 'chart-home' : 'chart-grid'}
            x1={box.leftPx}
            x2={box.rightPx}
            y1={toPixels(y, tick)}
            y2={toPixels(y, tick)}
          />
          <text className="chart-tick" x={box.leftPx - 6} y={toPixels(y, tick)} dy="0.35em" textAnchor="end">
            {tickText(tick, yStep)}
          </text>
        </g>
      ))}
      {children}
    </g>
  );
}

export interface NoteAxisProps {
  readonly layout: Pick<PlotLayout, 'box'>;
  readonly labels: readonly { readonly xPx: number; readonly row: 0 | 1; readonly text: string }[];
}

const ROW_PX = 17;

/** Note names under a plot against pitch, in two rows where they need it. */
export function NoteAxis({ layout, labels }: NoteAxisProps): ReactNode {
  return (
    <g>
      {labels.map(({ xPx, row, text }) => (
        <text key={`${text}-${xPx}`} className="chart-name" x={xPx} y={layout.box.bottomPx + 16 + row * ROW_PX} textAnchor="middle">
          {text}
        </text>
      ))}
    </g>
  );
}

/** The room that these names take under the plot, px. */
export function noteAxisPx(labels: NoteAxisProps['labels']): number {
  return ROW_PX * (1 + Math.max(0, ...labels.map(({ row }) => row))) + 8;
}

/** A chart in numbers, for those who do not see it. */
export function HiddenTable({ caption, head, rows }: {
  readonly caption: string;
  readonly head: readonly string[];
  readonly rows: readonly (readonly string[])[];
}): ReactNode {
  return (
    // In a box of its own: a table does not shrink to a pixel, and would widen the page.
    <div className="chart-hidden">
      <table>
        <caption>{caption}</caption>
        <thead>
          <tr>
            {head.map((name) => (
              <th key={name} scope="col">
                {name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(([first, ...others], index) => (
            <tr key={index}>
              <th scope="row">{first}</th>
              {others.map((cell, at) => (
                <td key={at}>{cell}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
