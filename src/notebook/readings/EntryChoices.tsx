import type { ReactNode } from 'react';
import type { RimSpec } from '../../core/specs';
import { sayReadings } from '../../words/readings';
import { Choice, type ChoiceOption } from '../Choice';
import { rimWidthMm, sidewaysExplanation } from '../entry';
import { formatNumber } from '../numberText';
import type { EntryChange, EntryStyle } from '../props';

export interface EntryChoicesProps {
  readonly rim: RimSpec;
  readonly entry: EntryStyle;
  onEntry(entry: EntryChange): void;
}

const SIDEWAYS = [
  { value: 'player', label: 'ownRight' },
  { value: 'mirror', label: 'mirrorRight' },
  { value: 'facing', label: 'facingRight' },
] as const;
const UNITS = [
  { value: 'mm', label: 'mm' },
  { value: 'rim widths', label: 'rimWidths' },
] as const;
const PITCHES = [
  { value: 'sounding', label: 'sounding' },
  { value: 'written', label: 'written' },
] as const;

/** The same choices in words. */
const inWords = <T extends string>(options: readonly { readonly value: T; readonly label: Parameters<typeof sayReadings>[0] }[]): ChoiceOption<T>[] =>
  options.map(({ value, label }) => ({ value, label: sayReadings(label) }));

const namings = () =>
  [
    { value: 'scientific', label: 'B♭4, F♯4' },
    { value: 'german', label: sayReadings('germanNames') },
    { value: 'solfège', label: sayReadings('solfegeNames') },
  ] as const;

export function EntryChoices({ rim, entry, onEntry }: EntryChoicesProps): ReactNode {
  return (
    <details className="entry-choices">
      <summary>{sayReadings('entry')}</summary>
      <Choice legend={sayReadings('sideways')} options={inWords(SIDEWAYS)} value={entry.sideways} onChange={(sideways) => onEntry({ sideways })} />
      <p className="note">{sidewaysExplanation(entry.sideways)}</p>
      <Choice legend={sayReadings('travelIn')} options={inWords(UNITS)} value={entry.unit} onChange={(unit) => onEntry({ unit })} />
      <p className="note">{sayReadings('rimWidthIs', { mm: formatNumber(rimWidthMm(rim), 2) })}</p>
      <Choice legend={sayReadings('noteNames')} options={namings()} value={entry.naming ?? 'scientific'} onChange={(naming) => onEntry({ naming })} />
      <Choice legend={sayReadings('pitch')} options={inWords(PITCHES)} value={entry.noteNames} onChange={(noteNames) => onEntry({ noteNames })} />
      <p className="note">{sayReadings(NAMING_WORDS[entry.naming ?? 'scientific'])}</p>
    </details>
  );
}

const NAMING_WORDS = {
  scientific: 'namingScientific',
  german: 'namingGerman',
  solfège: 'namingSolfege',
} as const;
