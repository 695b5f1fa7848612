/** The notes of a take in rows, with what was measured at each; the chosen one can be named anew, moved, split, joined or taken out. */
import { type ReactNode, useId, useState } from 'react';
import type { ViewFrom } from '../../../measure/marks';
import type { NoteHeard } from '../../../measure/traces';
import { sayFilming } from '../../../words/filming';
import { type SidewaysEntry, sidewaysLabel } from '../../entry';
import { RequiredField } from '../../Fields';
import { TravelAndHornHeads, UpAndRightHeads } from '../../TravelAndHornHeads';
import { formatBand, formatFixed } from '../../numberText';

/** What was measured at one note, or why nothing was: travel to the right as the page counts it, angles to the player's own. */
export interface NoteSeen {
  readonly travel: { readonly upMm: number; readonly rightMm: number; readonly sdMm: number; readonly rightSdMm: number } | null;
  readonly elevation: { readonly deg: number; readonly sdDeg: number } | null;
  readonly lateral: { readonly deg: number; readonly sdDeg: number } | null;
  /** From how many frames of each open film; null for one that tells nothing yet. */
  readonly frames: readonly (number | null)[];
  /** A sentence where something is missing; empty where nothing is. */
  readonly words: string;
}

export interface NotesListProps {
  readonly notes: readonly NoteHeard[];
  /** In step with the notes; empty until the film was followed. */
  readonly seen: readonly NoteSeen[];
  /** The open films, in step with the frames of `seen`. */
  readonly filmViews: readonly ViewFrom[];
  /** Whose right the sideways travel is. */
  readonly sideways: SidewaysEntry;
  readonly selected: number | null;
  readonly timeS: number;
  readonly span: { readonly startS: number; readonly endS: number };
  readonly nameOf: (note: NoteHeard) => string;
  /** What was typed as a name; null where it is none. */
  readonly midiNamed: (text: string) => number | null;
  readonly allowedNames: string;
  onSelect(index: number): void;
  /** While a name is being typed it may be another one at each key; `onRenamed` says that it stands. */
  onRename(index: number, midi: number): void;
  onRenamed(): void;
  onMove(index: number, end: 'start' | 'end', timeS: number): void;
  onSplit(index: number, timeS: number): void;
  onJoin(index: number): void;
  onRemove(index: number): void;
}

export function NotesList(props: NotesListProps): ReactNode {
  const { notes, seen, selected, filmViews, sideways, nameOf, onSelect } = props;
  const chosen = selected === null ? undefined : notes[selected];
  return (
    <>
      <div className="wide-table" role="group" aria-label={sayFilming('notesOfTake')} tabIndex={0}>
        <table className="film-notes">
          <caption className="only-heard">{sayFilming('notesCaption')}</caption>
          <thead>
            <tr>
              <th scope="col" rowSpan={2}>
                {sayFilming('note')}
              </th>
              <th scope="col" rowSpan={2}>
                {sayFilming('atSeconds')}
              </th>
              <TravelAndHornHeads />
              {filmViews.length > 1 ? (
                <th scope="colgroup" colSpan={filmViews.length}>
                  {sayFilming('framesEach')}
                </th>
              ) : (
                <th scope="col" rowSpan={2}>
                  {sayFilming('frames')}
                </th>
              )}
            </tr>
            <tr>
              <UpAndRightHeads pairs={2} {...(sideways === 'facing' && { firstRight: sidewaysLabel(sideways) })} />
              {filmViews.length > 1
                ? filmViews.map((view, index) => (
                    <th key={index} scope="col">
                      {sayFilming(`${view}Head`)}
                    </th>
                  ))
                : null}
            </tr>
          </thead>
          <tbody>
            {notes.map((note, index) => (
              <Row key={index} note={note} seen={seen[index]} films={filmViews.length} isChosen={index === selected} name={nameOf(note)} onChoose={() => onSelect(index)} />
            ))}
          </tbody>
        </table>
      </div>
      {chosen === undefined || selected === null ? null : <Chosen key={selected} {...props} index={selected} note={chosen} />}
    </>
  );
}

interface RowProps {
  readonly note: NoteHeard;
  readonly seen: NoteSeen | undefined;
  readonly films: number;
  readonly isChosen: boolean;
  readonly name: string;
  onChoose(): void;
}

function Row({ note, seen, films, isChosen, name, onChoose }: RowProps): ReactNode {
  return (
    <tr aria-current={isChosen ? 'true' : undefined}>
      <th scope="row">
        <button type="button" className="quiet" onClick={onChoose}>
          {name}
        </button>
      </th>
      <td>{formatFixed(note.startS, 2)}</td>
      <td>{withBand(seen?.travel?.upMm, seen?.travel?.sdMm)}</td>
      <td>{withBand(seen?.travel?.rightMm, seen?.travel?.rightSdMm)}</td>
      <td>{withBand(seen?.elevation?.deg, seen?.elevation?.sdDeg)}</td>
      <td>{withBand(seen?.lateral?.deg, seen?.lateral?.sdDeg)}</td>
      {Array.from({ length: films }, (_, index) => (
        <td key={index}>{seen?.frames[index] ?? '–'}</td>
      ))}
    </tr>
  );
}

function withBand(value: number | undefined, sd: number | undefined): string {
  return value === undefined || sd === undefined ? '–' : `${formatFixed(value, 1)} ± ${formatBand(sd, 1)}`;
}

function Chosen(props: NotesListProps & { readonly index: number; readonly note: NoteHeard }): ReactNode {
  const { index, note, notes, seen, timeS, span, nameOf, onMove, onSplit, onJoin, onRemove } = props;
  const words = seen[index]?.words ?? '';
  const within = { min: span.startS, max: span.endS };
  const shape = { range: { min: span.startS, max: span.endS, unit: 's' }, step: 0.01, places: 2 };
  const isInside = timeS > note.startS && timeS < note.endS;
  return (
    <div className="film-note" role="group" aria-label={sayFilming('chosenNote', { note: nameOf(note) })}>
      {words === '' ? null : <p className="note">{words}</p>}
      {note.cents === null ? null : <p className="note">{centsWords(note.cents)}</p>}
      <div className="fields">
        <NameField {...props} />
        <RequiredField label={sayFilming('begins')} shape={shape} within={within} value={note.startS} onChange={(value) => onMove(index, 'start', value)} />
        <RequiredField label={sayFilming('ends')} shape={shape} within={within} value={note.endS} onChange={(value) => onMove(index, 'end', value)} />
      </div>
      <div className="button-row button-row--wraps">
        <button type="button" disabled={!isInside} onClick={() => onSplit(index, timeS)}>
          {sayFilming('splitAt', { seconds: formatFixed(timeS, 2) })}
        </button>
        <button type="button" disabled={index === notes.length - 1} onClick={() => onJoin(index)}>
          {sayFilming('join')}
        </button>
        <button type="button" onClick={() => onRemove(index)}>
          {sayFilming('takeOut')}
        </button>
      </div>
    </div>
  );
}

function centsWords(cents: number): string {
  const whole = Math.round(cents);
  if (whole === 0) return sayFilming('noteInTune');
  return sayFilming('noteOff', { cents: Math.abs(whole), way: whole > 0 ? 'sharp' : 'flat' });
}

function NameField({ index, note, nameOf, midiNamed, allowedNames, onRename, onRenamed }: NotesListProps & { readonly index: number; readonly note: NoteHeard }): ReactNode {
  const id = useId();
  const [typed, setTyped] = useState<string | null>(null);
  const isWrong = typed !== null && midiNamed(typed) === null;
  return (
    <div className="picker">
      <label htmlFor={id}>{sayFilming('note')}</label>
      <input
        id={id}
        type="text"
        autoComplete="off"
        maxLength={12}
        value={typed ?? nameOf(note)}
        aria-invalid={isWrong}
        aria-describedby={isWrong ? `${id}-wrong` : undefined}
        onChange={(event) => {
          const text = event.target.value;
          setTyped(text);
          const midi = midiNamed(text);
          if (midi !== null) onRename(index, midi);
        }}
        onBlur={() => {
          if (typed !== null) onRenamed();
          setTyped(null);
        }}
      />
      {isWrong ? (
        <p id={`${id}-wrong`} className="number-field__wrong" role="alert">
          {sayFilming('noNoteName', { typed, names: allowedNames })}
        </p>
      ) : null}
    </div>
  );
}
