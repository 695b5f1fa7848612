/** What the colours round the rim mean, in kPa. */
import { cividisGradient } from './cividis';
import type { StageWords } from './props';

export function PressureLegend({ scaleKPa, words }: { scaleKPa: number; words: StageWords }) {
  return (
    <div className="stage-legend">
      <span>{words.pressure}</span>
      <span className="stage-legend-bar" style={{ background: cividisGradient() }} />
      <span className="stage-legend-ends">
        <span>0</span>
        <span>{scaleKPa / 2}</span>
        <span>{scaleKPa} kPa</span>
      </span>
    </div>
  );
}
