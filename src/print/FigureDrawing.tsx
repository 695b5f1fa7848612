import type { ReactNode } from 'react';
import { type Figure, type FigureLine, type FigureMark, type FigureText, type LineKind, TEXT_MM, TITLE_MM } from './figure';

/** A figure as SVG in its true size; every style stands in the drawing itself, so that a saved file needs nothing else. */
export function FigureDrawing({ figure }: { readonly figure: Figure }): ReactNode {
  const { widthMm, heightMm, lines, marks, texts } = figure;
  return (
    <svg
      xmlns="http://www.w3.org/2000/svg"
      width={`${widthMm}mm`}
      height={`${heightMm}mm`}
      viewBox={`0 0 ${widthMm} ${heightMm}`}
      role="img"
      aria-label={figure.description}
      fontFamily={FONTS}
      strokeLinecap="butt"
      strokeLinejoin="round"
      fill="none"
    >
      {lines.map((line, index) => (
        <path key={index} d={pathOf(line)} {...STROKES[line.kind]} {...(line.closed === true ? {} : { fill: 'none' })} />
      ))}
      {marks.map((mark, index) => (
        <Mark key={index} mark={mark} />
      ))}
      {texts.map((text, index) => (
        <Words key={index} text={text} />
      ))}
    </svg>
  );
}

const INK = '#1D2330';
const MUTED = '#5B6472';
const PREDICTED = '#00695C';
const MEASURED = '#B4470E';
const HELD = '#5B6472';
const FONTS = "'Rimpath Signs', 'Source Sans 3', 'Helvetica Neue', Arial, sans-serif";

interface Stroke {
  readonly stroke: string;
  readonly strokeWidth: number;
  readonly fill?: string;
  readonly fillOpacity?: number;
  readonly strokeDasharray?: string;
}

/** Weights in mm. Kinds differ by weight and dashes too, so that a print without colours can be read. */
const STROKES: Readonly<Record<LineKind, Stroke>> = {
  'tooth': { stroke: INK, strokeWidth: 0.3, fill: '#FFFFFF' },
  'gum': { stroke: INK, strokeWidth: 0.3 },
  'gum-body': { stroke: 'none', strokeWidth: 0, fill: '#EFE4E0' },
  'lip-body': { stroke: 'none', strokeWidth: 0, fill: '#F8F1EC', fillOpacity: 0.85 },
  'lip': { stroke: '#8F7F78', strokeWidth: 0.2 },
  'arch': { stroke: INK, strokeWidth: 0.5 },
  'arch-lower': { stroke: INK, strokeWidth: 0.25, strokeDasharray: '0.9 0.7' },
  'home': { stroke: HELD, strokeWidth: 0.22 },
  'home-axis': { stroke: HELD, strokeWidth: 0.22 },
  'held': { stroke: HELD, strokeWidth: 0.3, strokeDasharray: '1.8 1.2' },
  'moved': { stroke: PREDICTED, strokeWidth: 0.45, fill: '#00695C', fillOpacity: 0.08 },
  'moved-axis': { stroke: PREDICTED, strokeWidth: 0.45 },
  'second': { stroke: PREDICTED, strokeWidth: 0.3, strokeDasharray: '1.2 0.6' },
  'second-axis': { stroke: PREDICTED, strokeWidth: 0.35, strokeDasharray: '3.2 0.9 0.5 0.9' },
  'arc': { stroke: PREDICTED, strokeWidth: 0.35 },
  'scale': { stroke: INK, strokeWidth: 0.25 },
};

const pathOf = ({ points, closed }: FigureLine): string =>
  `M${points.map(([x, y]) => `${x.toFixed(3)},${y.toFixed(3)}`).join('L')}${closed === true ? 'Z' : ''}`;

const ARROW_MM = 1.7;
const DOT_MM = 0.85;
const SQUARE_MM = 2.3;

function Mark({ mark: { kind, at: [x, y], angle = 0 } }: { readonly mark: FigureMark }): ReactNode {
  if (kind === 'predicted') return <circle cx={x} cy={y} r={DOT_MM} fill={PREDICTED} />;
  if (kind === 'measured') {
    return <rect x={x - SQUARE_MM / 2} y={y - SQUARE_MM / 2} width={SQUARE_MM} height={SQUARE_MM} stroke={MEASURED} strokeWidth="0.4" />;
  }
  const turned = `translate(${x} ${y}) rotate(${(angle * 180) / Math.PI})`;
  return <path d={`M0,0L${-ARROW_MM},${ARROW_MM * 0.38}L${-ARROW_MM},${-ARROW_MM * 0.38}Z`} transform={turned} fill={PREDICTED} />;
}

const TEXT_INKS: Readonly<Record<FigureText['kind'], string>> = { title: INK, plain: INK, predicted: PREDICTED, quiet: MUTED };

function Words({ text: { kind, at: [x, y], anchor, text } }: { readonly text: FigureText }): ReactNode {
  return (
    <text x={x} y={y} textAnchor={anchor} fontSize={kind === 'title' ? TITLE_MM : TEXT_MM} fontWeight={kind === 'title' ? 600 : 400} fill={TEXT_INKS[kind]}>
      {text}
    </text>
  );
}
