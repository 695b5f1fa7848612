import { type ReactNode, useRef } from 'react';
import type { Analysis } from '../../core/analysis';
import type { PlayerRecord } from '../../core/specs';
import { sayReadings } from '../../words/readings';
import { Caution } from '../Cautions';
import { Choice } from '../Choice';
import { noteAsShown } from '../noteNames';
import type { ChangeRecord, EntryChange, EntryStyle } from '../props';
import { EntryChoices } from './EntryChoices';
import { ForAllReadings } from './ForAllReadings';
import { MeanOfTakes } from './MeanOfTakes';
import { ReadingDetails } from './ReadingDetails';
import { ReadingsFiles } from './ReadingsFiles';
import { RowActions } from './RowActions';
import { TypedReadings } from './TypedReadings';
import { tableViewChoices } from './tableViews';
import { useReadingsTable } from './useReadingsTable';

export interface ReadingsChapterProps {
  readonly record: PlayerRecord;
  readonly analysis: Analysis | null;
  readonly selected: number;
  readonly entry: EntryStyle;
  /** The travel charts, drawn elsewhere. */
  readonly charts: ReactNode;
  /** Where the selected reading was seen; null: it was not measured here. */
  readonly whereSeen: ReactNode;
  onSelect(index: number): void;
  onChange: ChangeRecord;
  onSettle(): void;
  onEntry(entry: EntryChange): void;
}

/** The measured notes, one a row: travel in, the horn as measured if it was, what else was seen, and the swing that is predicted. */
export function ReadingsChapter(props: ReadingsChapterProps): ReactNode {
  const { record, analysis, selected, entry, onChange, onSelect, onSettle } = props;
  const afterTable = useRef<HTMLDivElement>(null);
  const state = useReadingsTable({ record, entry, firstView: 'lesson', onSelect, onChange, onSettle });
  const { tableRows, rows, style, view, columns, cells } = state;
  const reading = record.readings[selected];
  return (
    <section className="chapter" id="readings" aria-labelledby="readings-heading">
      <h2 id="readings-heading">{sayReadings('heading')}</h2>
      <p className="note">{sayReadings('explained')}</p>
      <Choice legend={sayReadings('columns')} options={tableViewChoices()} value={view} onChange={state.setView} />
      <button
        type="button"
        className="past-table"
        onClick={() => afterTable.current?.querySelector('button')?.focus()}
      >
        {sayReadings('pastTable')}
      </button>
      <TypedReadings state={state} record={record} analysis={analysis} hasSwing entry={entry} selected={selected} onSelect={onSelect} />
      <MeanOfTakes readings={record.readings} analysis={analysis} selected={selected} entry={entry} />
      <div ref={afterTable}>
        <RowActions
          readings={record.readings}
          selected={selected}
          columns={columns}
          style={style}
          noteLabel={reading === undefined ? '' : noteAsShown(reading.note, entry)}
          onChange={onChange}
          onSelect={onSelect}
          onGoTo={cells.goToLater}
          onSay={state.say}
        />
      </div>
      {props.whereSeen}
      {reading === undefined ? null : (
        <ReadingDetails
          key={rows[selected]?.id}
          record={record}
          index={selected}
          noteLabel={noteAsShown(reading.note, entry)}
          knownJaw={analysis?.readings.find((one) => one.sources.includes(selected))?.jawKnown ?? false}
          onChange={onChange}
          onSettle={onSettle}
        />
      )}
      <ForAllReadings readings={record.readings} style={style} onChange={onChange} />
      <ReadingsFiles record={record} entry={entry} tableRows={tableRows} onChange={onChange} onSelect={onSelect} />
      <EntryChoices rim={record.rim} entry={entry} onEntry={props.onEntry} />
      {props.charts}
      <Caution about="change" />
    </section>
  );
}
