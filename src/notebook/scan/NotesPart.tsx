/** What scan and arch make of each note's angle, and how far the two part. */
import type { ReactNode } from 'react';
import { seatWords } from '../../core/words';
import type { HornChange } from '../../scans/compareSeats';
import { sayScans } from '../../words/scans';
import { formatFixed } from '../numberText';
import type { NotesCompared } from './props';

export function NotesPart({ notes, noteLabel }: { readonly notes: NotesCompared; noteLabel(note: string): string }): ReactNode {
  if (notes.kind === 'none') return null;
  return (
    <div className="scan-notes">
      <h4>{sayScans('notesHead')}</h4>
      <div role="status">{notes.kind === 'waiting' ? <p className="note">{sayScans('notesWait')}</p> : null}</div>
      {notes.kind === 'waiting' ? null : notes.notes.length === 0 ? (
        <p className="note">{sayScans('notesNone')}</p>
      ) : (
        <div className="scan-notes__table" tabIndex={0} role="group" aria-label={sayScans('notesHead')}>
          <table>
            <thead>
              <tr>
                <th scope="col">{sayScans('note')}</th>
                <th scope="col">{sayScans('way')}</th>
                <th scope="col">{sayScans('onArch')}</th>
                <th scope="col">{sayScans('onScan')}</th>
                <th scope="col">{sayScans('apart')}</th>
              </tr>
            </thead>
            <tbody>
              {notes.notes.map(({ note, seats }, index) => (
                <tr key={index}>
                  <th scope="row">{noteLabel(note)}</th>
                  {seats.kind === 'unseated' ? (
                    <td colSpan={4}>{sayScans('notSeated', { on: seats.on, why: seatWords(seats.reason) })}</td>
                  ) : (
                    <>
                      <td>
                        <span className="scan-notes__angle">{sayScans('upDown')}</span>
                        <span className="scan-notes__angle">{sayScans('aside')}</span>
                      </td>
                      <Angles change={seats.onArch} />
                      <Angles change={seats.onScan} />
                      <Angles
                        change={{
                          elevationDeg: seats.onScan.elevationDeg - seats.onArch.elevationDeg,
                          lateralDeg: seats.onScan.lateralDeg - seats.onArch.lateralDeg,
                        }}
                      />
                    </>
                  )}
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
    </div>
  );
}

function Angles({ change }: { readonly change: HornChange }): ReactNode {
  return (
    <td>
      <span className="scan-notes__angle">{signed(change.elevationDeg)}</span>
      <span className="scan-notes__angle">{signed(change.lateralDeg)}</span>
    </td>
  );
}

function signed(degrees: number): string {
  const text = formatFixed(degrees, 2);
  return `${degrees > 0 && /[1-9]/.test(text) ? '+' : ''}${text}°`;
}
