import { type ReactNode, useState } from 'react';
import type { ExercisePart, ParsedExercise } from '../../records/exercise';
import { sayReadings } from '../../words/readings';
import { Picker } from '../Choice';
import { noteAsShown } from '../noteNames';
import type { EntryStyle } from '../props';
import { TakeIn } from './TablePreview';

export interface ExercisePreviewProps {
  readonly fileName: string;
  readonly exercise: Extract<ParsedExercise, { kind: 'exercise' }>;
  readonly entry: EntryStyle;
  readonly hasReadings: boolean;
  onReplace(part: ExercisePart): void;
  onAdd(part: ExercisePart): void;
  onLeave(): void;
}

/** The notes of an exercise, of one part where it has several; nothing is changed yet. */
export function ExercisePreview({ fileName, exercise, entry, hasReadings, onReplace, onAdd, onLeave }: ExercisePreviewProps): ReactNode {
  const [chosen, setChosen] = useState(0);
  const part = exercise.parts[chosen] ?? exercise.parts[0]!;
  const shown = part.notes.slice(0, SHOWN_NOTES).map((note) => noteAsShown(note, entry));
  const left = part.notes.length - shown.length;
  return (
    <div className="incoming">
      <p>
        <strong>{exercise.title ?? fileName}</strong>
        {sayReadings('exerciseFrom', { source: exercise.source })}
      </p>
      {exercise.parts.length < 2 ? null : (
        <Picker
          label={sayReadings('part')}
          options={exercise.parts.map(({ name, notes }, index) => ({ value: String(index), label: sayReadings('partNotes', { name, count: notes.length }) }))}
          value={String(chosen)}
          onChange={(value) => setChosen(Number(value))}
        />
      )}
      <p className="incoming__notes">
        {shown.join(' ')}
        {left > 0 ? sayReadings('andMore', { count: left }) : ''}
      </p>
      <p className="note">{sayReadings('eachNote')}</p>
      <TakeIn
        hasReadings={hasReadings}
        add={sayReadings('addMissing')}
        onReplace={() => onReplace(part)}
        onAdd={() => onAdd(part)}
        onLeave={onLeave}
      />
    </div>
  );
}

const SHOWN_NOTES = 40;
