import { sayChart } from '../../words/chart';
import { Legend, LineKey } from './Legend';

/** Which line is which, where a path was seen going up and going down apart. */
export function WayLegend() {
  return (
    <Legend>
      <LineKey says={sayChart('ascending')} className="chart-travel-line" />
      <LineKey says={sayChart('descending')} className="chart-travel-line chart-falling" />
    </Legend>
  );
}
