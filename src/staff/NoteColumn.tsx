import { memo } from 'react';
import type { HornAngles } from '../core/analysis';
import { signedDegrees } from './layout';
import type { SignWords, StaffNote, SwingWords } from './props';
import { fixed } from '../words/numbers';
import { sayStaff } from '../words/staff';
import { printedLabel, writtenName, type WrittenNote } from './spelling';

export interface NoteColumnProps {
  readonly id: string;
  readonly note: StaffNote;
  /** null where it cannot be written. */
  readonly written: WrittenNote | null;
  /** undefined: swing is not shown at all; null: there is none for this note. */
  readonly swing: HornAngles | null | undefined;
  readonly swingWords: SwingWords;
  readonly selected: boolean;
  readonly leftPx: number;
  readonly widthPx: number;
  readonly namesTopPx: number;
}

/** One note's share of the time line: what is under the note, and what is said of it. By itself: where another note is chosen, two of them change. */
export const NoteColumn = memo(function NoteColumn(props: NoteColumnProps) {
  const { note, swing } = props;
  return (
    <div
      id={props.id}
      className="staff-note"
      role="option"
      aria-selected={props.selected}
      style={{ left: props.leftPx, width: props.widthPx, paddingTop: props.namesTopPx }}
    >
      <span className="staff-name">{printedLabel(note.label)}</span>
      <span className="staff-spoken">{spoken(props)}</span>
      {swing !== undefined && (
        <>
          <span className="staff-swing" aria-hidden="true">
            {swing ? signedDegrees(swing.elevationDeg) : '–'}
          </span>
          <span className="staff-swing" aria-hidden="true">
            {swing ? signedDegrees(swing.lateralDeg) : '–'}
          </span>
        </>
      )}
    </div>
  );
});

/** What a screen reader says after the name. */
function spoken({ note, written, swing, swingWords }: NoteColumnProps): string {
  const writtenLabel = note.writtenLabel ?? (written && writtenName(written));
  const differs = written !== null && writtenLabel !== printedLabel(note.label);
  const named = sayStaff('heard', { differs: differs ? 'yes' : 'no', written: writtenLabel ?? '', direction: note.direction ?? 'none' });
  if (!swing) return named;
  return named + sayStaff('heardSwing', { up: direction(swing.elevationDeg, swingWords.elevation), right: direction(swing.lateralDeg, swingWords.lateral) });
}

function direction(degrees: number, words: SignWords): string {
  return `${fixed(Math.abs(degrees), 1)}° ${degrees < 0 ? words.negative : words.positive}`;
}
