import type { ReactNode } from 'react';

/** What the lines and marks of a chart mean; its keys are `LegendKey`s. */
export function Legend({ children }: { readonly children: ReactNode }): ReactNode {
  return <ul className="chart-legend">{children}</ul>;
}

export interface LegendKeyProps {
  readonly says: string;
  /** Of the piece of drawing, px; that of a line where neither is given. */
  readonly widthPx?: number;
  readonly heightPx?: number;
  /** The piece of drawing itself, as it stands in the chart. */
  readonly children: ReactNode;
}

export function LegendKey({ says, widthPx = LINE_WIDTH_PX, heightPx = LINE_HEIGHT_PX, children }: LegendKeyProps): ReactNode {
  return (
    <li>
      <svg width={widthPx} height={heightPx} aria-hidden="true">
        {children}
      </svg>
      {says}
    </li>
  );
}

/** The key of a line, straight through the middle. */
export function LineKey({ says, className }: { readonly says: string; readonly className: string }): ReactNode {
  return (
    <LegendKey says={says}>
      <KeyLine className={className} />
    </LegendKey>
  );
}

export function KeyLine({ className }: { readonly className: string }): ReactNode {
  return <line className={className} x1="0" x2={LINE_WIDTH_PX} y1={LINE_HEIGHT_PX / 2} y2={LINE_HEIGHT_PX / 2} />;
}

/** The band round a line, and the round mark on it. */
export function KeyBand({ className }: { readonly className: string }): ReactNode {
  return <rect className={className} x="0" y="1" width={LINE_WIDTH_PX} height={LINE_HEIGHT_PX - 2} />;
}

export function KeyMark({ className }: { readonly className: string }): ReactNode {
  return <circle className={className} cx={LINE_WIDTH_PX / 2} cy={LINE_HEIGHT_PX / 2} r="4" />;
}

/** The square of what was measured, with its error bar. */
export function MeasuredKey({ says }: { readonly says: string }): ReactNode {
  return (
    <LegendKey says={says} widthPx={14} heightPx={18}>
      <line className="chart-error" x1="7" x2="7" y1="1" y2="17" />
      <rect className="chart-measured-mark" x="3" y="5" width="8" height="8" />
    </LegendKey>
  );
}

const LINE_WIDTH_PX = 30;
const LINE_HEIGHT_PX = 12;
