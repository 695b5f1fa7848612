import { sayChart } from '../../words/chart';

interface AngleLegendProps {
  readonly band: boolean;
  readonly measured: boolean;
  /** The way down was seen apart from the way up. */
  readonly twoWays: boolean;
}

/** What the lines and marks mean; shapes differ, so that nothing rests on colour alone. */
export function AngleLegend({ band, measured, twoWays }: AngleLegendProps) {
  return (
    <ul className="chart-legend">
      <li>
        <svg width="30" height="12" aria-hidden="true">
          {band && <rect className="chart-band" x="0" y="1" width="30" height="10" />}
          <line className="chart-predicted-line" x1="0" x2="30" y1="6" y2="6" />
          <circle className="chart-predicted-mark" cx="15" cy="6" r="4" />
        </svg>
        {sayChart('predictedKey', { ways: twoWays ? 'two' : 'one', band: band ? 'yes' : 'no' })}
      </li>
      {twoWays && (
        <li>
          <svg width="30" height="12" aria-hidden="true">
            <line className="chart-predicted-line chart-falling" x1="0" x2="30" y1="6" y2="6" />
            <circle className="chart-predicted-mark chart-falling-mark" cx="15" cy="6" r="4" />
          </svg>
          {sayChart('descending')}
        </li>
      )}
      <li>
        <svg width="30" height="12" aria-hidden="true">
          <line className="chart-held-line" x1="0" x2="30" y1="6" y2="6" />
        </svg>
        {sayChart('heldKey')}
      </li>
      {measured && (
        <li>
          <svg width="14" height="18" aria-hidden="true">
            <line className="chart-error" x1="7" x2="7" y1="1" y2="17" />
            <rect className="chart-measured-mark" x="3" y="5" width="8" height="8" />
          </svg>
          {sayChart('measuredKey')}
        </li>
      )}
    </ul>
  );
}
