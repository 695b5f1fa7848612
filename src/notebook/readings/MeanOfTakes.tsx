import type { ReactNode } from 'react';
import type { Analysis } from '../../core/analysis';
import type { ReadingSpec } from '../../core/specs';
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
  const { upMm, rightMm, sdMm } = result.travel;
  const way = result.direction === null ? '' : result.direction === 'up' ? ', ascending' : ', descending';
  return (
    <p className="note">
      {noteAsShown(result.note, entry)}
      {way}: the picture and the predicted swing go by the mean of its {seen} takes, {along(upMm, 'up', 'down')},{' '}
      {along(rightMm, 'to the player’s right', 'to the player’s left')}, with a deviation of {sdMm.toFixed(2)}&nbsp;mm.
    </p>
  );
}

function along(mm: number, positive: string, negative: string): string {
  return `${formatFixed(Math.abs(mm), 2)}\u00a0mm ${mm < 0 ? negative : positive}`;
}
