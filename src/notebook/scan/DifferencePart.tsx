/** Where a scan and the arch fitted to it part, as a map in mm. */
import type { ReactNode } from 'react';
import { DIFFERENCE_SCALE, SCALE_MM } from '../../scans/differenceColours';
import type { JawSettled } from '../../scans/scanDesk';
import type { JawName } from '../../scans/startView';
import { sayScans } from '../../words/scans';
import { formatFixed } from '../numberText';
import { ScanCanvas } from './ScanCanvas';
import type { PictureSource } from './props';
import { wholeNumber } from './words';

export interface DifferencePartProps {
  readonly jaw: JawName;
  readonly settled: JawSettled;
  readonly source: PictureSource;
}

export function DifferencePart({ jaw, settled, source }: DifferencePartProps): ReactNode {
  const { rmsMm, mostMm, compared } = settled.differences;
  const [rms, most] = [formatFixed(rmsMm, 2), formatFixed(mostMm, 2)];
  return (
    <div className="scan-differences">
      <h5>{sayScans('differences')}</h5>
      <ScanCanvas key={`${settled.family} ${settled.residualMm}`} source={source} withDifferences label={sayScans('differencesName', { jaw, rms, most })} first={null} />
      <Legend />
      <p>{sayScans('differencesSaid', { rms, most, count: wholeNumber(compared) })}</p>
    </div>
  );
}

/** The scale's numbers stand at its ends and its middle. */
function Legend(): ReactNode {
  const stops = DIFFERENCE_SCALE.map((colour, index) => `rgb(${colour.join(' ')}) ${(100 * index) / (DIFFERENCE_SCALE.length - 1)}%`).join(', ');
  const at = (mm: number): string => `${mm > 0 ? '+' : ''}${formatFixed(mm, 1)}`;
  return (
    <div className="scan-legend">
      <span className="scan-legend__bar" style={{ backgroundImage: `linear-gradient(to right, ${stops})` }} />
      <p className="scan-legend__numbers">
        <span>
          {sayScans('scaleIn', { mm: at(-SCALE_MM) })}
        </span>
        <span>0</span>
        <span>
          {sayScans('scaleOut', { mm: at(SCALE_MM) })}
        </span>
      </p>
      <p className="note">{sayScans('grey')}</p>
    </div>
  );
}
