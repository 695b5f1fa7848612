/** What the colours round the rim mean, in kPa. */
import type { RefObject } from 'react';
import { saidNumber } from '../words/numbers';
import { cividisGradient } from './cividis';
import type { StageWords } from './props';

interface LegendProps {
  readonly scaleKPa: number;
  readonly words: StageWords;
  readonly box?: RefObject<HTMLDivElement | null>;
}

export function PressureLegend({ scaleKPa, words, box }: LegendProps) {
  return (
    <div ref={box} className="stage-legend">
      <span>{words.pressure}</span>
      <span className="stage-legend-bar" style={{ background: cividisGradient() }} />
      <span className="stage-legend-ends">
        <span>0</span>
        <span>{saidNumber(scaleKPa / 2)}</span>
        <span>{saidNumber(scaleKPa)} kPa</span>
      </span>
    </div>
  );
}
