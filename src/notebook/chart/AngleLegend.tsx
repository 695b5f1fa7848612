import { sayChart } from '../../words/chart';
import { KeyBand, KeyLine, KeyMark, Legend, LegendKey, LineKey, MeasuredKey } from './Legend';

interface AngleLegendProps {
  readonly band: boolean;
  readonly measured: boolean;
  /** The way down was seen apart from the way up. */
  readonly twoWays: boolean;
}

/** What the lines and marks mean; shapes differ, so that nothing rests on colour alone. */
export function AngleLegend({ band, measured, twoWays }: AngleLegendProps) {
  return (
    <Legend>
      <LegendKey says={sayChart('predictedKey', { ways: twoWays ? 'two' : 'one', band: band ? 'yes' : 'no' })}>
        {band && <KeyBand className="chart-band" />}
        <KeyLine className="chart-predicted-line" />
        <KeyMark className="chart-predicted-mark" />
      </LegendKey>
      {twoWays && (
        <LegendKey says={sayChart('descending')}>
          <KeyLine className="chart-predicted-line chart-falling" />
          <KeyMark className="chart-predicted-mark chart-falling-mark" />
        </LegendKey>
      )}
      <LineKey says={sayChart('heldKey')} className="chart-held-line" />
      {measured && <MeasuredKey says={sayChart('measuredKey')} />}
    </Legend>
  );
}
