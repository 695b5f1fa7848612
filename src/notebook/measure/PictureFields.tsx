import { type ReactNode, useId, useState } from 'react';
import { NOTE_NAMES_ALLOWED, noteNamed } from '../../core/noteNaming';
import { Picker } from '../Choice';
import { noteAsShown } from '../noteNames';
import type { EntryStyle } from '../props';
import { VIEWS } from './markNames';
import type { MeasureChapterProps, OpenPicture } from './props';
import { HornMarkField, LensField, RimScale } from './ScaleFields';

type PictureFieldsProps = MeasureChapterProps & { readonly shown: OpenPicture };

/** What a picture is: its note, where it was taken from, whether it is home, and what its scale and perspective hang on. */
export function PictureFields({ shown, homeId, lens, outerDiameterMm, entry, ...on }: PictureFieldsProps): ReactNode {
  const isFront = shown.view === 'front';
  return (
    <div className="part">
      <h3>This picture</h3>
      <div className="fields">
        <NoteField note={shown.note} entry={entry} onNote={on.onNote} />
        <Picker label="Seen" options={VIEWS} value={shown.view} onChange={(value) => on.onView(value as OpenPicture['view'])} />
        {lens === null ? null : <LensField lens={lens} onLens={on.onLens} />}
        {isFront ? (
          <HornMarkField
            mark={shown.marks.hornMarkMm}
            hint="By a ruler along the horn, to the same spot in every picture: it makes the angles from the front surer."
            onHornMark={on.onHornMark}
          />
        ) : null}
      </div>
      {isFront ? (
        <>
          <label className="tick">
            <input type="checkbox" checked={shown.id === homeId} disabled={shown.id === homeId} onChange={() => on.onHome(shown.id)} />
            this picture is home: travel is counted from it
          </label>
          <RimScale outerDiameterMm={outerDiameterMm} />
        </>
      ) : null}
    </div>
  );
}

interface NoteFieldProps {
  readonly note: string | null;
  readonly entry: EntryStyle;
  onNote(note: string | null): void;
}

/** A note in the player's own naming; what cannot be read stays as typed, with what is allowed. */
function NoteField({ note, entry, onNote }: NoteFieldProps): ReactNode {
  const id = useId();
  const [typed, setTyped] = useState<string | null>(null);
  const naming = entry.naming ?? 'scientific';
  const style = { naming, transpositionSemitones: entry.shownTransposition };
  const isWrong = typed !== null && typed.trim() !== '' && noteNamed(typed, style) === null;
  return (
    <div className="picker">
      <label htmlFor={id}>Note that was played</label>
      <input
        id={id}
        type="text"
        autoComplete="off"
        spellCheck={false}
        value={typed ?? (note === null ? '' : noteAsShown(note, entry))}
        aria-invalid={isWrong}
        aria-describedby={isWrong ? `${id}-wrong` : undefined}
        onChange={({ target: { value } }) => {
          setTyped(value);
          const named = noteNamed(value, style);
          if (named !== null) onNote(named);
          else if (value.trim() === '') onNote(null);
        }}
        onBlur={() => {
          if (!isWrong) setTyped(null);
        }}
      />
      {isWrong ? (
        <span id={`${id}-wrong`} className="number-field__wrong" role="alert">
          <strong>Not taken.</strong> Allowed: {NOTE_NAMES_ALLOWED[naming]}.
        </span>
      ) : null}
    </div>
  );
}
