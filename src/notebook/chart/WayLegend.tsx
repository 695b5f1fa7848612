import { sayChart } from '../../words/chart';

/** Which line is which, where a path was seen going up and going down apart. */
export function WayLegend() {
  return (
    <ul className="chart-legend">
      <li>
        <svg width="30" height="12" aria-hidden="true">
          <line className="chart-travel-line" x1="0" x2="30" y1="6" y2="6" />
        </svg>
        {sayChart('ascending')}
      </li>
      <li>
        <svg width="30" height="12" aria-hidden="true">
          <line className="chart-travel-line chart-falling" x1="0" x2="30" y1="6" y2="6" />
        </svg>
        {sayChart('descending')}
      </li>
    </ul>
  );
}
