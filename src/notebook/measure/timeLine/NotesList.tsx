/** The notes of a take in rows, with what was measured at each; the chosen one can be named anew, moved, split, joined or taken out. */
import { type ReactNode, useId, useState } from 'react';
import { NINETY_FIVE_PERCENT } from '../../../core/bands';
import type { ViewFrom } from '../../../measure/marks';
import type { NoteHeard } from '../../../measure/traces';
import { type SidewaysEntry, sidewaysLabel } from '../../entry';
import { RequiredField } from '../../Fields';
import { TravelAndHornHeads, UpAndRightHeads } from '../../TravelAndHornHeads';
import { formatFixed } from '../../numberText';

/** What was measured at one note, or why nothing was: travel to the right as the page counts it, angles to the player's own. */
export interface NoteSeen {
  readonly travel: { readonly upMm: number; readonly rightMm: number; readonly sdMm: number } | null;
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
      <div className="wide-table" role="group" aria-label="Notes of the take" tabIndex={0}>
        <table className="film-notes">
          <caption className="only-heard">Notes of the take, with travel and horn at each and their 95 % bands</caption>
          <thead>
            <tr>
              <th scope="col" rowSpan={2}>
                Note
              </th>
              <th scope="col" rowSpan={2}>
                At, s
              </th>
              <TravelAndHornHeads />
              {filmViews.length > 1 ? (
                <th scope="colgroup" colSpan={filmViews.length}>
                  Frames, each film
                </th>
              ) : (
                <th scope="col" rowSpan={2}>
                  Frames
                </th>
              )}
            </tr>
            <tr>
              <UpAndRightHeads pairs={2} {...(sideways === 'facing' && { firstRight: sidewaysLabel(sideways) })} />
              {filmViews.length > 1
                ? filmViews.map((view, index) => (
                    <th key={index} scope="col">
                      {VIEW_HEADS[view]}
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
      <td>{withBand(seen?.travel?.rightMm, seen?.travel?.sdMm)}</td>
      <td>{withBand(seen?.elevation?.deg, seen?.elevation?.sdDeg)}</td>
      <td>{withBand(seen?.lateral?.deg, seen?.lateral?.sdDeg)}</td>
      {Array.from({ length: films }, (_, index) => (
        <td key={index}>{seen?.frames[index] ?? '–'}</td>
      ))}
    </tr>
  );
}

const VIEW_HEADS: Readonly<Record<ViewFrom, string>> = { front: 'front', right: 'right side', left: 'left side', above: 'above' };

function withBand(value: number | undefined, sd: number | undefined): string {
  return value === undefined || sd === undefined ? '–' : `${formatFixed(value, 1)} ± ${formatFixed(sd * NINETY_FIVE_PERCENT, 1)}`;
}

function Chosen(props: NotesListProps & { readonly index: number; readonly note: NoteHeard }): ReactNode {
  const { index, note, notes, seen, timeS, span, nameOf, onMove, onSplit, onJoin, onRemove } = props;
  const words = seen[index]?.words ?? '';
  const within = { min: span.startS, max: span.endS };
  const shape = { range: { min: span.startS, max: span.endS, unit: 's' }, step: 0.01, places: 2 };
  const isInside = timeS > note.startS && timeS < note.endS;
  return (
    <div className="film-note" role="group" aria-label={`The chosen note, ${nameOf(note)}`}>
      {words === '' ? null : <p className="note">{words}</p>}
      {note.cents === null ? null : <p className="note">{centsWords(note.cents)}</p>}
      <div className="fields">
        <NameField {...props} />
        <RequiredField label="Begins" shape={shape} within={within} value={note.startS} onChange={(value) => onMove(index, 'start', value)} />
        <RequiredField label="Ends" shape={shape} within={within} value={note.endS} onChange={(value) => onMove(index, 'end', value)} />
      </div>
      <div className="button-row button-row--wraps">
        <button type="button" disabled={!isInside} onClick={() => onSplit(index, timeS)}>
          {`Split at ${formatFixed(timeS, 2)} s`}
        </button>
        <button type="button" disabled={index === notes.length - 1} onClick={() => onJoin(index)}>
          Join with the next
        </button>
        <button type="button" onClick={() => onRemove(index)}>
          Take it out
        </button>
      </div>
    </div>
  );
}

function centsWords(cents: number): string {
  const whole = Math.round(cents);
  if (whole === 0) return 'In tune with the rest of the take.';
  return `${Math.abs(whole)} ${Math.abs(whole) === 1 ? 'cent' : 'cents'} ${whole > 0 ? 'sharp' : 'flat'} of the rest of the take.`;
}

function NameField({ index, note, nameOf, midiNamed, allowedNames, onRename, onRenamed }: NotesListProps & { readonly index: number; readonly note: NoteHeard }): ReactNode {
  const id = useId();
  const [typed, setTyped] = useState<string | null>(null);
  const isWrong = typed !== null && midiNamed(typed) === null;
  return (
    <div className="picker">
      <label htmlFor={id}>Note</label>
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
          {`“${typed}” is no note name. Allowed: ${allowedNames}.`}
        </p>
      ) : null}
    </div>
  );
}
