import { type ReactNode, type RefObject, useMemo } from 'react';
import type { Analysis, ReadingAnalysis } from '../../core/analysis';
import { midiOf } from '../../core/pitch';
import type { PlayerRecord } from '../../core/specs';
import type { CellStyle } from '../../records/readingCell';
import { sayReadings } from '../../words/readings';
import type { EntryStyle } from '../props';
import { problemWords } from '../Problems';
import { SWING_WIDTH_REM, columnHeading, columnWidthRem, headingGroups, heardNames } from './columnNames';
import { ReadingRow } from './ReadingRow';
import { takeOf, takesOf } from './readingsEdits';
import type { TableRow } from './tableRows';
import { type TableView, shownColumns } from './tableViews';
import type { Cells } from './useCells';

export interface ReadingsTableProps {
  readonly table: RefObject<HTMLTableElement | null>;
  readonly record: PlayerRecord;
  readonly analysis: Analysis | null;
  /** Whether the predicted swing stands beside the readings. */
  readonly hasSwing: boolean;
  readonly rows: readonly TableRow[];
  readonly view: TableView;
  readonly style: CellStyle;
  readonly entry: EntryStyle;
  readonly selected: number;
  readonly cells: Cells;
  onSelect(index: number): void;
}

/** One row a reading. Where the columns need more room than there is, the table moves in a box of its own and the notes stay. */
export function ReadingsTable(props: ReadingsTableProps): ReactNode {
  const { record, rows, view, style, entry, cells } = props;
  const { sideways, unit } = entry;
  const columns = shownColumns(view);
  // A try-out's readings have no swing of their own: it stands in the comparison.
  const shown = useMemo(() => ({ ...columns, swing: columns.swing && props.hasSwing }), [columns, props.hasSwing]);
  const results = useMemo(() => byReading(props.analysis), [props.analysis]);
  const names = useMemo(() => heardNames({ sideways, unit }), [sideways, unit]);
  const words = wordsByReading(record, props.analysis, entry);
  const namesTakes = takesOf(record.readings).length > 1;
  const width = shown.columns.reduce((sum, id) => sum + columnWidthRem(id, entry), shown.swing ? 2 * SWING_WIDTH_REM : 0);
  return (
    <div className="readings-box">
      <table className="readings" ref={props.table} style={{ minInlineSize: `${width}rem` }}>
        <caption className="only-heard">{sayReadings('caption')}</caption>
        <colgroup>
          {shown.columns.map((id) => (
            <col key={id} style={{ inlineSize: `${columnWidthRem(id, entry)}rem` }} />
          ))}
          {shown.swing ? <col span={2} style={{ inlineSize: `${SWING_WIDTH_REM}rem` }} /> : null}
        </colgroup>
        <Heading shown={shown} entry={entry} />
        <tbody {...cells.events}>
          {rows.map((row, index) => {
            const above = rows[index - 1]?.reading;
            return (
              <ReadingRow
                key={row.id}
                row={row}
                index={index}
                shown={shown}
                style={style}
                names={names}
                result={results.get(index)}
                problemWords={words.get(index) ?? null}
                isSelected={index === props.selected}
                namesTakes={namesTakes}
                isRepeated={above !== undefined && midiOf(above.note) === midiOf(row.reading.note)}
                beginsTake={above !== undefined && takeOf(above) < takeOf(row.reading) && midiOf(above.note) !== midiOf(row.reading.note)}
                visit={cells.visit?.rowId === row.id ? cells.visit : null}
                onType={cells.onType}
                onChoose={props.onSelect}
              />
            );
          })}
        </tbody>
      </table>
    </div>
  );
}

function Heading({ shown, entry }: { readonly shown: ReturnType<typeof shownColumns>; readonly entry: EntryStyle }): ReactNode {
  const groups = headingGroups(shown.columns, entry);
  return (
    <thead>
      <tr>
        {groups.map(({ group, heading, columns }) =>
          group === null ? (
            <th key={heading} scope="col" rowSpan={2} data-column={columns[0]}>
              {heading}
            </th>
          ) : (
            <th key={heading} scope="colgroup" colSpan={columns.length} className={group === 'Horn' ? 'measured-ink' : undefined}>
              {heading}
            </th>
          ))}
        {shown.swing ? (
          <th scope="colgroup" colSpan={2} className="predicted-ink">
            {sayReadings('swingGroup')}
          </th>
        ) : null}
      </tr>
      <tr>
        {groups
          .filter(({ group }) => group !== null)
          .flatMap(({ columns }) => columns)
          .map((id) => (
            <th key={id} scope="col">
              {columnHeading(id, entry)}
            </th>
          ))}
        {shown.swing ? (
          <>
            <th scope="col">{sayReadings('up')}</th>
            <th scope="col">{sayReadings('right')}</th>
          </>
        ) : null}
      </tr>
    </thead>
  );
}

function byReading(analysis: Analysis | null): ReadonlyMap<number, ReadingAnalysis> {
  return new Map((analysis?.readings ?? []).flatMap((result) => result.sources.map((index) => [index, result] as const)));
}

function wordsByReading(record: PlayerRecord, analysis: Analysis | null, entry: EntryStyle): ReadonlyMap<number, string> {
  return new Map(
    (analysis?.problems ?? []).flatMap((problem) =>
      problem.readingIndex === null ? [] : [[problem.readingIndex, problemWords(record, problem, entry)] as const]),
  );
}
