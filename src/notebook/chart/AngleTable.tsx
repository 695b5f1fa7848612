import { NINETY_FIVE_PERCENT } from '../../core/bands';
import { isAngleSeen } from '../../core/readings';
import { sayChart } from '../../words/chart';
import { fixed } from '../../words/numbers';
import type { AnglePoint } from './props';
import { pointName, signed } from './words';

/** The chart in numbers, for those who do not see it. */
export function AngleTable({ points, words }: {
  readonly points: readonly AnglePoint[];
  readonly words: { readonly elevation: string; readonly lateral: string };
}) {
  return (
    // In a box of its own: a table does not shrink to a pixel, and would widen the page.
    <div className="chart-hidden">
      <table>
        <caption>{sayChart('angleCaption')}</caption>
        <thead>
          <tr>
            <th scope="col">{sayChart('note')}</th>
            <th scope="col">{sayChart('predictedHead', { angle: words.elevation })}</th>
            <th scope="col">{sayChart('predictedHead', { angle: words.lateral })}</th>
            <th scope="col">{sayChart('measuredHead', { angle: words.elevation })}</th>
            <th scope="col">{sayChart('measuredHead', { angle: words.lateral })}</th>
          </tr>
        </thead>
        <tbody>
          {points.map(({ readingIndex, label, direction, predicted, band, measured }) => (
            <tr key={readingIndex}>
              <th scope="row">{pointName({ label, direction })}</th>
              <td>{withSd(predicted.elevationDeg, band?.elevationSdDeg)}</td>
              <td>{withSd(predicted.lateralDeg, band?.lateralSdDeg)}</td>
              <td>{measured && isAngleSeen(measured.sdDeg) ? withSd(measured.elevationDeg, measured.sdDeg) : sayChart('notMeasured')}</td>
              <td>{measured && isAngleSeen(measured.lateralSdDeg) ? withSd(measured.lateralDeg, measured.lateralSdDeg) : sayChart('notMeasured')}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

/** With half the 95 % band. */
function withSd(value: number, sd: number | undefined): string {
  return sd ? `${signed(value)} ± ${fixed(sd * NINETY_FIVE_PERCENT, 1)}` : signed(value);
}
