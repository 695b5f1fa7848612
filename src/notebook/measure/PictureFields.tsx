import { type ReactNode, useId, useState } from 'react';
import { NOTE_NAMES_ALLOWED, noteNamed } from '../../core/noteNaming';
import { Picker } from '../Choice';
import { NumberField } from '../NumberField';
import { noteAsShown } from '../noteNames';
import type { EntryStyle } from '../props';
import { VIEWS } from './markNames';
import type { LensShown, MeasureChapterProps, OpenPicture } from './props';

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
        {lens === null ? null : (
          <NumberField
            label="Lens, as on a full-frame camera"
            value={Number(lens.millimetres.toFixed(1))}
            range={LENS_RANGE}
            step={1}
            places={1}
            hint={LENS_HINTS[lens.from]}
            onChange={(value) => on.onLens(value)}
          />
        )}
        {isFront ? (
          <NumberField
            label="Horn’s far mark before the rim"
            value={shown.marks.hornMarkMm?.value ?? null}
            range={HORN_MARK_RANGE}
            step={5}
            places={0}
            optional
            hint="By a ruler along the horn, to the same spot in every picture: it makes the angles from the front surer."
            onChange={(value) => on.onHornMark(value === null ? null : { value, sd: hornMarkSdMm(value) })}
          />
        ) : null}
      </div>
      {isFront ? (
        <>
          <label className="tick">
            <input type="checkbox" checked={shown.id === homeId} disabled={shown.id === homeId} onChange={() => on.onHome(shown.id)} />
            this picture is home: travel is counted from it
          </label>
          <p className="note">
            Millimetres come from the lesson’s rim, {outerDiameterMm} mm across the outside. Change it under <a href="#player">Player</a> if it is another.
          </p>
        </>
      ) : null}
    </div>
  );
}

/** Full-frame millimetres: from a wide phone lens to a long one. */
export const LENS_RANGE = { min: 10, max: 400, unit: 'mm' } as const;
export const LENS_HINTS: Readonly<Record<LensShown['from'], string>> = {
  picture: 'As the picture’s own data say.',
  person: 'As you typed it.',
  assumed: 'Assumed: a phone’s main camera, not zoomed and not cut. Type it if you know it.',
};
export const HORN_MARK_RANGE = { min: 0, max: 1500, unit: 'mm', aboveMin: true } as const;
/** How well a ruler along a tube is read, mm, and how well it lies along one that is long: our judgement. */
export const hornMarkSdMm = (value: number): number => Math.max(1, 0.02 * value);

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
