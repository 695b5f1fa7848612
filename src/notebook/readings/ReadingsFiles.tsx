import { type ReactNode, useState } from 'react';
import { fileNamePart } from '../../core/fileNames';
import type { PlayerRecord } from '../../core/specs';
import type { TableReading } from '../../records/readingsTable';
import type { ExercisePart, ParsedExercise } from '../../records/exercise';
import { download } from '../../print/saveFigure';
import { sayReadings } from '../../words/readings';
import { Choice } from '../Choice';
import type { ChangeRecord, EntryStyle } from '../props';
import { ExercisePreview } from './ExercisePreview';
import { FileChooser } from './FileChooser';
import { TablePreview } from './TablePreview';
import { type Joined, asFurtherTakes, withMissing } from './incoming';
import { markWrong, ownRows, tableWords } from './takenIn';
import type { TableRows } from './tableRows';

export interface ReadingsFilesProps {
  readonly record: PlayerRecord;
  readonly entry: EntryStyle;
  readonly tableRows: TableRows;
  onChange: ChangeRecord;
  onSelect(index: number): void;
}

type Table = Extract<TableReading, { kind: 'table' }>;
type Exercise = Extract<ParsedExercise, { kind: 'exercise' }>;

/** A file that was chosen and not yet taken in. */
type Incoming =
  | { readonly kind: 'table'; readonly fileName: string; readonly table: Table }
  | { readonly kind: 'exercise'; readonly fileName: string; readonly exercise: Exercise };

interface Said {
  /** missing: what does it could not be fetched, and nothing was done. */
  readonly kind: 'done' | 'refused' | 'missing';
  readonly words: string;
}

const decimals = () =>
  [
    { value: 'point', label: sayReadings('decimalPoint') },
    { value: 'comma', label: sayReadings('decimalComma') },
  ] as const;

/** The readings as a table in a file, and the notes of an exercise: shown before anything is taken in. */
export function ReadingsFiles({ record, entry, tableRows, onChange, onSelect }: ReadingsFilesProps): ReactNode {
  const [incoming, setIncoming] = useState<Incoming | null>(null);
  const [said, setSaid] = useState<Said | null>(null);
  const [decimal, setDecimal] = useState(localDecimal);
  const notes = { naming: entry.naming ?? 'scientific', transpositionSemitones: entry.shownTransposition } as const;
  const done = (words: string): void => {
    setIncoming(null);
    setSaid({ kind: 'done', words });
  };
  const refuse = (words: string): void => {
    setIncoming(null);
    setSaid({ kind: 'refused', words });
  };

  const save = async (): Promise<void> => {
    const part = await tables();
    if (part === null) return setSaid({ kind: 'missing', words: partMissing() });
    const text = part.tableFromReadings(record.readings, { ...notes, decimal });
    const fileName = sayReadings('tableFile', { player: fileNamePart(record.player.label) });
    download(new Blob([text], { type: 'text/csv;charset=utf-8' }), fileName);
    done(sayReadings('savedAs', { name: fileName }));
  };
  const openTable = async (file: File): Promise<void> => {
    const [part, text] = await Promise.all([tables(), file.text()]);
    if (part === null) return refuse(partMissing());
    const table = part.readingsFromTable(text, notes);
    if (table.kind === 'refused') return refuse(sayReadings('fileRefused', { file: file.name, why: table.message }));
    setSaid(null);
    setIncoming({ kind: 'table', fileName: file.name, table });
  };
  const openExercise = async (file: File): Promise<void> => {
    const [part, bytes] = await Promise.all([exercises(), file.arrayBuffer()]);
    if (part === null) return refuse(partMissing());
    const exercise = await part.readExercise(new Uint8Array(bytes), file.name);
    if (exercise.kind === 'refused') return refuse(`${exercise.message}.`);
    setSaid(null);
    setIncoming({ kind: 'exercise', fileName: file.name, exercise });
  };
  const open = (opening: (file: File) => Promise<void>) => (file: File): void => {
    opening(file).catch(() => refuse(sayReadings('fileUnread', { file: file.name })));
  };

  const takeTable = (table: Table, further: boolean): void => {
    const own = ownRows(table);
    const next: Joined = further ? asFurtherTakes(record.readings, own) : { kind: 'joined', readings: own, firstNew: 0 };
    if (next.kind === 'refused') return refuse(next.words);
    onChange((now) => ({ ...now, readings: next.readings }));
    tableRows.of(next.readings);
    markWrong(tableRows, next.readings.slice(next.firstNew), table);
    onSelect(next.firstNew);
    done(tableWords(further ? 'added' : 'replaced', own.length, table));
  };
  const takeExercise = async ({ notes: played }: ExercisePart, further: boolean): Promise<void> => {
    const part = await exercises();
    if (part === null) return refuse(partMissing());
    const made = part.notesToReadings(played);
    if (made.kind === 'refused') return refuse(`${made.message}.`);
    const next: Joined = further ? withMissing(record.readings, made.readings) : { kind: 'joined', readings: made.readings, firstNew: 0 };
    if (next.kind === 'refused') return refuse(next.words);
    onChange((now) => (now.readings === next.readings ? now : { ...now, readings: next.readings }));
    const count = next.readings.length - next.firstNew;
    onSelect(count === 0 ? 0 : next.firstNew);
    done(count === 0 ? sayReadings('allThere') : sayReadings('notesSetUp', { count }));
  };

  return (
    <details className="readings-files">
      <summary>{sayReadings('files')}</summary>
      <div className="readings-files__ways">
        <button type="button" disabled={record.readings.length === 0} onClick={() => void save()}>
          {sayReadings('saveTable')}
        </button>
        <FileChooser words={sayReadings('openTable')} label={sayReadings('tableField')} accept=".csv,.tsv,.txt,text/csv,text/tab-separated-values,text/plain" onFile={open(openTable)} />
        <FileChooser
          words={sayReadings('openExercise')}
          label={sayReadings('exerciseField')}
          accept=".mid,.midi,.musicxml,.xml,.mxl,audio/midi,application/vnd.recordare.musicxml,application/vnd.recordare.musicxml+xml"
          onFile={open(openExercise)}
        />
      </div>
      <Choice legend={sayReadings('decimal')} options={decimals()} value={decimal} onChange={(next) => setDecimal(next)} />
      <div role="status">
        {said === null ? null : (
          <p className={said.kind === 'done' ? 'note' : 'number-field__wrong'}>
            {said.kind === 'refused' ? <strong>{sayReadings('notTakenIn')} </strong> : null}
            {said.words}
          </p>
        )}
      </div>
      {incoming?.kind === 'table' ? (
        <TablePreview
          fileName={incoming.fileName}
          table={incoming.table}
          notes={notes}
          hasReadings={record.readings.length > 0}
          onReplace={() => takeTable(incoming.table, false)}
          onAdd={() => takeTable(incoming.table, true)}
          onLeave={() => setIncoming(null)}
        />
      ) : null}
      {incoming?.kind === 'exercise' ? (
        <ExercisePreview
          key={incoming.fileName}
          fileName={incoming.fileName}
          exercise={incoming.exercise}
          entry={entry}
          hasReadings={record.readings.length > 0}
          onReplace={(part) => void takeExercise(part, false)}
          onAdd={(part) => void takeExercise(part, true)}
          onLeave={() => setIncoming(null)}
        />
      ) : null}
    </details>
  );
}

/** Null where they cannot be fetched, as without a network. */
const tables = () => import('../../records/readingsTable').catch(() => null);
const exercises = () => import('../../records/exercise').catch(() => null);
const partMissing = (): string => sayReadings('partMissing');

/** The sign that this reader's own programs most likely write. */
function localDecimal(): 'point' | 'comma' {
  return (1.5).toLocaleString().includes(',') ? 'comma' : 'point';
}
