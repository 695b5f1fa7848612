import type { NoteHeard } from '../../../measure/traces';
import { shownMidi } from '../../noteNames';
import type { EntryStyle } from '../../props';

/** "B♭3" in the player's own way; "?" where nobody has named it yet. */
export function noteHeardName({ midi }: Pick<NoteHeard, 'midi'>, { shownTransposition, naming }: Pick<EntryStyle, 'shownTransposition' | 'naming'>): string {
  return midi === null ? '?' : shownMidi(Math.round(midi), shownTransposition, naming);
}
