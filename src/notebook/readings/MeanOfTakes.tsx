import type { ReactNode } from 'react';
import type { Analysis } from '../../core/analysis';
import type { ReadingSpec } from '../../core/specs';
import { fixed } from '../../words/numbers';
import { sayReadings } from '../../words/readings';
import { noteAsShown } from '../noteNames';
import { formatFixed } from '../numberText';
import type { EntryStyle } from '../props';

export interface MeanOfTakesProps {
  readonly readings: readonly ReadingSpec[];
  readonly analysis: Analysis | null;
  readonly selected: number;
  readonly entry: EntryStyle;
}

/** What picture and prediction go by where the chosen note was seen several times. */
export function MeanOfTakes({ readings, analysis, selected, entry }: MeanOfTakesProps): ReactNode {
  const result = analysis?.readings.find(({ sources }) => sources.includes(selected));
  if (result === undefined) return null;
  const seen = result.sources.filter((index) => readings[index]?.travel !== undefined).length;
  if (seen < 2) return null;
  const { upMm, rightMm, sdMm, rightSdMm } = result.travel;
  return (
    <p className="note">
      {sayReadings('meanOfTakes', {
        note: noteAsShown(result.note, entry),
        direction: result.direction ?? 'both',
        count: seen,
        up: formatFixed(Math.abs(upMm), 2),
        way: wayOf(upMm),
        right: formatFixed(Math.abs(rightMm), 2),
        hand: wayOf(rightMm),
        sd: fixed(sdMm, 2),
        rightSd: fixed(rightSdMm, 2),
        same: fixed(sdMm, 2) === fixed(rightSdMm, 2) ? 'yes' : 'no',
      })}
    </p>
  );
}

/** Nothing at all counts as up and to the right. */
const wayOf = (mm: number): 'plus' | 'minus' => (mm < 0 ? 'minus' : 'plus');
