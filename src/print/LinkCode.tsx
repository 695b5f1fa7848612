import { type ReactNode, useMemo } from 'react';
import { QUIET_SQUARES, squaresPath } from './linkCode';

export interface LinkCodeProps {
  readonly squares: readonly (readonly boolean[])[];
  /** What it is, for those who do not see it. */
  readonly label: string;
}

/** Always dark on white, whatever the theme: a code the other way round is not read by every phone. */
export function LinkCode({ squares, label }: LinkCodeProps): ReactNode {
  const path = useMemo(() => squaresPath(squares), [squares]);
  const side = squares.length + 2 * QUIET_SQUARES;
  return (
    <svg className="link-code" viewBox={`${-QUIET_SQUARES} ${-QUIET_SQUARES} ${side} ${side}`} role="img" aria-label={label} shapeRendering="crispEdges">
      <rect x={-QUIET_SQUARES} y={-QUIET_SQUARES} width={side} height={side} fill="#FFFFFF" />
      <path d={path} fill="#000000" />
    </svg>
  );
}
