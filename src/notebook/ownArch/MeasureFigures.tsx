/** Where each measure is taken: both arches square on, and two incisors from the side. Drawn from the player's own arch as it is now. */
import type { ReactNode } from 'react';
import type { TwoJaws } from '../../core/ownArch/ownArch';
import { sayOwnArch } from '../../words/ownArch';
import { drawnTeeth } from './archDrawing';
import { LETTERS } from './words';

/** Half the width and the depth of the drawing, mm. */
const HALF_MM = 38;
const DEPTH_MM = 47;
/** Room in front of the front teeth, for their numbers, and how far off a tooth its number stands, mm. */
const FRONT_MM = 7;
const NUMBER_OFF_MM = 3;

export function ArchFigure({ arch, jaw }: { readonly arch: TwoJaws; readonly jaw: 'upper' | 'lower' }): ReactNode {
  const teeth = drawnTeeth(arch[jaw].form, jaw);
  // The front of the upper arch is above, that of the lower one below, as in a dental chart; the player's right at the left.
  const flip = jaw === 'upper' ? 1 : -1;
  const y = (back: number): number => flip * back;
  const find = (fdi: number) => teeth.find((one) => one.fdi === fdi)!;
  const quadrant = jaw === 'upper' ? 2 : 3;
  const [canine, molar] = [find(quadrant * 10 + 3), find(quadrant * 10 + 6)];
  const letter = (part: string): string => LETTERS[`${jaw}-${part}` as keyof typeof LETTERS];
  const top = jaw === 'upper' ? -FRONT_MM : -(DEPTH_MM - FRONT_MM);
  return (
    <figure className="own-arch__figure">
      <svg viewBox={`${-HALF_MM} ${top} ${2 * HALF_MM} ${DEPTH_MM}`} role="img" aria-label={figureLabel(jaw)}>
        {teeth.map(({ fdi, middle, outside, widthMm, depthMm, turnDeg }) => (
          <g key={fdi}>
            <rect
              className="own-arch__tooth"
              x={-widthMm / 2 + 0.2}
              y={-depthMm / 2}
              width={widthMm - 0.4}
              height={depthMm}
              rx={2.4}
              transform={`translate(${middle[0]} ${y(middle[1])}) rotate(${flip * turnDeg})`}
            />
            <text
              className="own-arch__fdi"
              x={outside[0] + ((outside[0] - middle[0]) * 2 * NUMBER_OFF_MM) / depthMm}
              y={y(outside[1] + ((outside[1] - middle[1]) * 2 * NUMBER_OFF_MM) / depthMm)}
              textAnchor="middle"
              dy="0.35em"
            >
              {fdi}
            </text>
          </g>
        ))}
        <Across halfMm={canine.outside[0]} y={y(canine.outside[1])} letter={letter('canine-width')} letterX={-7.5} />
        <Across halfMm={molar.outside[0]} y={y(molar.outside[1])} letter={letter('molar-width')} letterX={-12} />
        <Depth x={1.5} y={y(canine.outside[1])} letter={letter('canine-depth')} letterY={y(canine.outside[1] + 4)} />
        <Depth x={9} y={y(molar.outside[1])} letter={letter('molar-depth')} letterY={y((canine.outside[1] + molar.outside[1]) / 2)} />
      </svg>
      <figcaption>{sayOwnArch(jaw)}</figcaption>
    </figure>
  );
}

interface AcrossProps {
  readonly halfMm: number;
  readonly y: number;
  readonly letter: string;
  readonly letterX: number;
}

function Across({ halfMm, y, letter, letterX }: AcrossProps): ReactNode {
  return (
    <g className="own-arch__measure">
      <line x1={-halfMm} x2={halfMm} y1={y} y2={y} />
      <line x1={-halfMm} x2={-halfMm} y1={y - 1.5} y2={y + 1.5} />
      <line x1={halfMm} x2={halfMm} y1={y - 1.5} y2={y + 1.5} />
      <Letter x={letterX} y={y} letter={letter} />
    </g>
  );
}

interface DepthProps {
  readonly x: number;
  readonly y: number;
  readonly letter: string;
  readonly letterY: number;
}

/** From the front's line back to y. */
function Depth({ x, y, letter, letterY }: DepthProps): ReactNode {
  return (
    <g className="own-arch__measure">
      <line x1={x} x2={x} y1={0} y2={y} />
      <line x1={x - 1.5} x2={x + 1.5} y1={0} y2={0} />
      <line x1={x - 1.5} x2={x + 1.5} y1={y} y2={y} />
      <Letter x={x} y={letterY} letter={letter} />
    </g>
  );
}

function Letter({ x, y, letter }: { readonly x: number; readonly y: number; readonly letter: string }): ReactNode {
  return (
    <g>
      <circle className="own-arch__letter" cx={x} cy={y} r={2.6} />
      <text x={x} y={y} dy="0.36em" textAnchor="middle">
        {letter}
      </text>
    </g>
  );
}

/** Two incisors cut along the midline, edges at (0, 0) and (overjet, overbite); the front is at the left. Larger than life. */
export function SideFigure(): ReactNode {
  return (
    <figure className="own-arch__figure own-arch__figure--side">
      <svg viewBox="-17 -17 34 31" role="img" aria-label={sayOwnArch('sideFigure')}>
        <path className="own-arch__gum" d="M -6.2 -17 C -5.4 -14 -4.4 -12 -3.2 -10.4 L 5.2 -10 C 7 -12 8 -14 8.6 -17 Z" />
        <path className="own-arch__tooth" d="M 0 0 C -2.4 -3 -3.4 -7 -3.2 -10.4 C -0.5 -12.2 3 -12 5.2 -10 C 4.6 -6.5 2.4 -2.4 1.1 0 Z" />
        <path className="own-arch__gum" d="M -0.6 14 C 0 11 1 8.6 2.4 6.6 L 8.8 6.6 C 10 9 10.6 11.6 10.8 14 Z" />
        <path className="own-arch__tooth" d="M 3.2 -3 C 2.4 0 2.1 3.6 2.4 6.6 C 4.4 7.8 7 7.8 8.8 6.6 C 7.6 3 5.6 -0.6 4.3 -3 Z" />
        <text className="own-arch__fdi" x={1.2} y={-8} textAnchor="middle">
          11
        </text>
        <text className="own-arch__fdi" x={5.4} y={5} textAnchor="middle">
          41
        </text>
        <g className="own-arch__measure">
          <line x1={0} x2={0} y1={0} y2={10} />
          <line x1={3.2} x2={3.2} y1={-3} y2={10} className="own-arch__guide" />
          <line x1={0} x2={3.2} y1={9.4} y2={9.4} />
          <Letter x={-3.4} y={9.4} letter={LETTERS.overjet} />
          <line x1={0} x2={13} y1={0} y2={0} className="own-arch__guide" />
          <line x1={3.2} x2={13} y1={-3} y2={-3} className="own-arch__guide" />
          <line x1={12} x2={12} y1={-3} y2={0} />
          <Letter x={14.6} y={-1.5} letter={LETTERS.overbite} />
          <line x1={-8} x2={0} y1={0} y2={0} className="own-arch__guide" />
          <line x1={-8} x2={-3.2} y1={-10.4} y2={-10.4} className="own-arch__guide" />
          <line x1={-7} x2={-7} y1={-10.4} y2={0} />
          <Letter x={-10.4} y={-5.2} letter={LETTERS['upper-crown-height']} />
        </g>
      </svg>
      <figcaption>{sayOwnArch('side')}</figcaption>
    </figure>
  );
}

function figureLabel(jaw: 'upper' | 'lower'): string {
  const [right, left] = jaw === 'upper' ? [1, 2] : [4, 3];
  const [first, second, third, fourth] = jaw === 'upper' ? ['A', 'B', 'C', 'D'] : ['E', 'F', 'G', 'H'];
  return sayOwnArch('figure', { jaw, right: right, left: left, first: first, second: second, third: third, fourth: fourth });
}
