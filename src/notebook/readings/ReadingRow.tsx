import { type ChangeEvent, type ReactNode, memo } from 'react';
import type { ReadingAnalysis } from '../../core/analysis';
import type { ReadingSpec } from '../../core/specs';
import type { CellStyle, ColumnId } from '../../records/readingCell';
import { readingColumn } from '../../records/readingColumns';
import { hasAngle } from '../../records/readingParts';
import { sayNotebook } from '../../words/notebook';
import { decimalSign } from '../../words/numbers';
import { sayReadings } from '../../words/readings';
import { formatFixed } from '../numberText';
import { Cell } from './Cell';
import type { CellElement } from './cellPlaces';
import { takeOf } from './readingsEdits';
import type { ShownColumns } from './tableViews';
import type { TableRow } from './tableRows';
import type { CellVisit } from './useCells';

export interface ReadingRowProps {
  readonly row: TableRow;
  readonly index: number;
  readonly shown: ShownColumns;
  readonly style: CellStyle;
  /** How each column is heard, with its unit: "travel up, mm". */
  readonly names: Readonly<Record<ColumnId, string>>;
  readonly result: ReadingAnalysis | undefined;
  readonly problemWords: string | null;
  readonly isSelected: boolean;
  /** Several takes were seen, so that a note alone does not say which row it is. */
  readonly namesTakes: boolean;
  /** The row above is the same note. */
  readonly isRepeated: boolean;
  /** The row above is another take. */
  readonly beginsTake: boolean;
  /** Where the keys go, if they go to this row. */
  readonly visit: CellVisit | null;
  onType(event: ChangeEvent<CellElement>): void;
  onChoose(index: number): void;
}

/** Drawn again only when something of this row changed: neither a drag nor typing elsewhere draws it. */
export const ReadingRow = memo(ReadingCells, (before, now) => {
  const { result: resultBefore, row: rowBefore, ...restBefore } = before;
  const { result: resultNow, row: rowNow, ...restNow } = now;
  return (
    rowBefore.reading === rowNow.reading &&
    rowBefore.wrong === rowNow.wrong &&
    resultBefore?.changeFromHome === resultNow?.changeFromHome &&
    resultBefore?.sources.length === resultNow?.sources.length &&
    (Object.keys(restNow) as (keyof typeof restNow)[]).every((name) => restBefore[name] === restNow[name])
  );
});

function ReadingCells(props: ReadingRowProps): ReactNode {
  const { row, index, shown, style, names, visit, isSelected } = props;
  const { reading, wrong } = row;
  const note = readingColumn('note').show(reading, style);
  const heard = props.namesTakes ? sayReadings('noteTake', { note, take: takeOf(reading) }) : note;
  const says = wrong.size > 0 || props.problemWords !== null;
  return (
    <>
      <tr
        aria-current={isSelected ? 'true' : undefined}
        data-reading={index}
        data-begins-take={props.beginsTake || undefined}
        data-says={says || undefined}
        onPointerDown={() => props.onChoose(index)}
      >
        {shown.columns.map((id) => {
          const column = readingColumn(id);
          const isVisited = visit?.column === id;
          const typed = (isVisited ? visit.typed : null) ?? wrong.get(id)?.text ?? null;
          const cell = (
            <Cell
              column={column}
              label={id === 'note' ? sayReadings('noteNumber', { number: index + 1 }) : sayReadings('cellHeard', { note: heard, name: names[id] })}
              text={lined(id, column.show(reading, style))}
              placeholder={id === 'take' ? '1' : isUnseenAngle(reading, id) ? sayReadings('unseen') : ''}
              typed={typed}
              isWrong={wrong.has(id)}
              describedBy={wrong.has(id) ? wrongId(row.id, id) : undefined}
              isResting={!isVisited || visit.typed === null}
              isMuted={id === 'note' && props.isRepeated}
              onType={props.onType}
            />
          );
          return id === 'note' ? (
            <th key={id} scope="row">
              {cell}
            </th>
          ) : (
            <td key={id} className={column.group === 'Horn' ? 'measured-ink' : undefined}>
              {cell}
            </td>
          );
        })}
        {shown.swing ? <Swing {...props} /> : null}
      </tr>
      {says ? (
        <tr className="readings__says">
          <td colSpan={shown.columns.length + (shown.swing ? 2 : 0)}>
            <div className="readings__words">
              {[...wrong].map(([id, { text, allowed }]) => (
                <p key={id} id={wrongId(row.id, id)}>
                  <strong>{sayNotebook('notTaken')}</strong>{' '}
                  {text.trim() === ''
                    ? sayReadings('cellMissing', { name: names[id], allowed })
                    : sayReadings('cellWrong', { text: text.trim(), name: names[id], allowed })}
                </p>
              ))}
              {props.problemWords === null ? null : (
                <p>
                  <strong>{sayNotebook('notShown')}</strong> {props.problemWords}
                </p>
              )}
            </div>
          </td>
        </tr>
      ) : null}
    </>
  );
}

/** The swing of the note's mean: said with the first of its takes, and quietly with the others. */
function Swing({ result, index }: ReadingRowProps): ReactNode {
  const isFurther = result !== undefined && result.sources[0] !== index;
  const className = isFurther ? 'figure figure--again' : 'figure predicted-ink';
  return (
    <>
      <td className={className}>{result === undefined ? '–' : formatFixed(result.changeFromHome.elevationDeg, 1)}</td>
      <td className={className}>{result === undefined ? '–' : formatFixed(result.changeFromHome.lateralDeg, 1)}</td>
    </>
  );
}

const wrongId = (rowId: number, column: ColumnId): string => `not-taken-${rowId}-${column}`;

/** The other angle was seen, this one was not. */
const isUnseenAngle = (reading: ReadingSpec, column: ColumnId): boolean =>
  reading.horn !== undefined && (column === 'hornUp' || column === 'hornRight') && !hasAngle(reading, column === 'hornUp' ? 'elevationDeg' : 'lateralDeg');

/** With a decimal, so that the numbers of a column stand one under the other. */
const lined = (column: ColumnId, text: string): string => (WITH_DECIMAL.has(column) && /^\u2212?\d+$/.test(text) ? `${text}${decimalSign()}0` : text);

const WITH_DECIMAL: ReadonlySet<ColumnId> = new Set(['travelUp', 'travelRight', 'hornUp', 'hornRight']);
