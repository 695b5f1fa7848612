import { type KeyboardEvent, type ReactNode, useId, useState } from 'react';
import { readNote, shownNote } from './noteNames';

export interface NoteFieldProps {
  readonly label: string;
  /** Sounding, as the record keeps it. */
  readonly note: string;
  readonly transpositionSemitones: number;
  readonly cell?: string;
  onChange(note: string): void;
  onFocus?(): void;
  onEnter?(event: KeyboardEvent<HTMLInputElement>): void;
}

/** A note's name, taken when the field is left or Enter is pressed: half a name is no note. */
export function NoteField(props: NoteFieldProps): ReactNode {
  const { label, note, transpositionSemitones } = props;
  const id = useId();
  const [typed, setTyped] = useState<string | null>(null);
  const [wrongWords, setWrongWords] = useState<string | null>(null);
  const take = (): void => {
    if (typed === null) return;
    const reading = readNote(typed, transpositionSemitones);
    if (reading.kind === 'wrong') {
      setWrongWords(reading.words);
      return;
    }
    setTyped(null);
    setWrongWords(null);
    if (reading.note !== note) props.onChange(reading.note);
  };
  return (
    <div className="number-field number-field--cell">
      <label htmlFor={id} className="only-heard">
        {label}
      </label>
      <span className="number-field__box" data-wrong={wrongWords !== null}>
        <input
          id={id}
          type="text"
          autoComplete="off"
          spellCheck={false}
          data-cell={props.cell}
          value={typed ?? shownNote(note, transpositionSemitones)}
          aria-invalid={wrongWords !== null}
          aria-describedby={wrongWords === null ? undefined : `${id}-wrong`}
          onChange={(event) => setTyped(event.target.value)}
          onBlur={take}
          onFocus={(event) => {
            event.target.select();
            props.onFocus?.();
          }}
          onKeyDown={(event) => {
            if (event.key === 'Escape') {
              setTyped(null);
              setWrongWords(null);
            } else if (event.key === 'Enter') {
              take();
              props.onEnter?.(event);
            }
          }}
        />
      </span>
      {wrongWords === null ? null : (
        <span id={`${id}-wrong`} className="number-field__wrong" role="alert">
          <strong>Not taken.</strong> {wrongWords}
        </span>
      )}
    </div>
  );
}
