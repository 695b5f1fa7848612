import type { ReactNode } from 'react';
import type { RimSpec } from '../../core/specs';
import { Choice } from '../Choice';
import { rimWidthMm, sidewaysExplanation } from '../entry';
import { formatNumber } from '../numberText';
import type { EntryChange, EntryStyle } from '../props';

export interface EntryChoicesProps {
  readonly rim: RimSpec;
  readonly entry: EntryStyle;
  onEntry(entry: EntryChange): void;
}

const SIDEWAYS = [
  { value: 'player', label: 'the player’s own right' },
  { value: 'mirror', label: 'right, seen in a mirror' },
  { value: 'facing', label: 'right, facing the player' },
] as const;
const UNITS = [
  { value: 'mm', label: 'mm' },
  { value: 'rim widths', label: 'rim widths' },
] as const;
const PITCHES = [
  { value: 'sounding', label: 'as sounding' },
  { value: 'written', label: 'as written' },
] as const;
const NAMINGS = [
  { value: 'scientific', label: 'B♭4, F♯4' },
  { value: 'german', label: 'German: B4, H4, Fis4' },
  { value: 'solfège', label: 'solfège: Si♭4, Fa♯4' },
] as const;

export function EntryChoices({ rim, entry, onEntry }: EntryChoicesProps): ReactNode {
  return (
    <details className="entry-choices">
      <summary>How travel is typed and notes are named</summary>
      <Choice legend="Sideways means" options={SIDEWAYS} value={entry.sideways} onChange={(sideways) => onEntry({ sideways })} />
      <p className="note">{sidewaysExplanation(entry.sideways)}</p>
      <Choice legend="Travel in" options={UNITS} value={entry.unit} onChange={(unit) => onEntry({ unit })} />
      <p className="note">
        One rim width is the way from the rim’s inner to its outer edge, here {formatNumber(rimWidthMm(rim), 2)}&nbsp;mm. The record keeps
        millimetres.
      </p>
      <Choice legend="Note names" options={NAMINGS} value={entry.naming ?? 'scientific'} onChange={(naming) => onEntry({ naming })} />
      <Choice legend="Pitch" options={PITCHES} value={entry.noteNames} onChange={(noteNames) => onEntry({ noteNames })} />
      <p className="note">{NAMING_WORDS[entry.naming ?? 'scientific']} The record keeps sounding notes.</p>
    </details>
  );
}

const NAMING_WORDS = {
  scientific: 'C4 is middle C; A4 is 440 Hz.',
  german: 'C4 or c’ is middle C. H is B natural, B is B flat; a small letter counts strokes as c’, c1 or a capital the octave’s number.',
  solfège: 'Do4 is middle C, La4 is 440 Hz; some countries count one octave lower.',
} as const;
