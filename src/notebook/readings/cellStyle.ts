import type { RimSpec } from '../../core/specs';
import type { CellStyle } from '../../records/readingCell';
import { decimalSign } from '../../words/numbers';
import { sayReadings } from '../../words/readings';
import { rimWidthMm, sidewaysSign } from '../entry';
import type { EntryStyle } from '../props';

/** How the table's cells are shown and read, as the reader chose. */
export function cellStyleOf({ naming, shownTransposition, sideways, unit }: EntryStyle, rim: RimSpec): CellStyle {
  return {
    form: 'page',
    decimal: decimalSign() === ',' ? 'comma' : 'point',
    naming: naming ?? 'scientific',
    transpositionSemitones: shownTransposition,
    sidewaysSign: sidewaysSign(sideways),
    travelUnit: unit === 'mm' ? undefined : { mm: rimWidthMm(rim), words: sayReadings('rimWidths') },
  };
}
