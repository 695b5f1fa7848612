import { type ReactNode, useId, useState } from 'react';
import { NOTE_NAMES_ALLOWED, noteNamed } from '../../core/noteNaming';
import { Picker } from '../Choice';
import { noteAsShown } from '../noteNames';
import type { EntryStyle } from '../props';
import { sayMarking } from '../../words/marking';
import { views } from './markNames';
import type { MeasureChapterProps, OpenPicture } from './props';
import { HornMarkField, LensField, RimScale } from './ScaleFields';

type PictureFieldsProps = MeasureChapterProps & { readonly shown: OpenPicture };

/** What a picture is: its note, where it was taken from, whether it is home, and what its scale and perspective hang on. */
export function PictureFields({ shown, homeId, lens, outerDiameterMm, entry, ...on }: PictureFieldsProps): ReactNode {
  const isFront = shown.view === 'front';
  return (
    <div className="part">
      <h3>{sayMarking('thisPicture')}</h3>
      <div className="fields">
        <NoteField note={shown.note} entry={entry} onNote={on.onNote} />
        <Picker label={sayMarking('seen')} options={views()} value={shown.view} onChange={(value) => on.onView(value as OpenPicture['view'])} />
        {lens === null ? null : <LensField lens={lens} onLens={on.onLens} />}
        {isFront ? (
          <HornMarkField
            mark={shown.marks.hornMarkMm}
            hint={sayMarking('hornMarkHint')}
            onHornMark={on.onHornMark}
          />
        ) : null}
      </div>
      {isFront ? (
        <>
          <label className="tick">
            <input type="checkbox" checked={shown.id === homeId} disabled={shown.id === homeId} onChange={() => on.onHome(shown.id)} />
            {sayMarking('isHome')}
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
      <label htmlFor={id}>{sayMarking('note')}</label>
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
          <strong>{sayMarking('notTaken')}</strong> {sayMarking('allowed', { names: NOTE_NAMES_ALLOWED[naming] })}
        </span>
      ) : null}
    </div>
  );
}
