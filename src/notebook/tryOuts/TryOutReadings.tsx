import { type ReactNode, useCallback, useMemo, useState } from 'react';
import type { PlayerRecord, TryOutSpec } from '../../core/specs';
import { Choice } from '../Choice';
import type { ChangeRecord, EntryStyle } from '../props';
import { noteAsShown } from '../noteNames';
import { withAddedReading, withoutReading } from '../recordEdits';
import { TypedReadings } from '../readings/TypedReadings';
import { tableViewChoices } from '../readings/tableViews';
import { useReadingsTable } from '../readings/useReadingsTable';
import { MOST_READINGS } from '../../records/readingRanges';
import { sayReadings } from '../../words/readings';
import { sayTryOuts } from '../../words/tryOuts';

export interface TryOutReadingsProps {
  /** The lesson's, for its mouth and rim. */
  readonly record: PlayerRecord;
  readonly tryOut: TryOutSpec;
  readonly entry: EntryStyle;
  onChange(edit: (tryOut: TryOutSpec) => TryOutSpec, key?: string | null): void;
  onSettle(): void;
}

/** The same table as the lesson's, for what was seen in one try-out. */
export function TryOutReadings({ record, tryOut, entry, onChange, onSettle }: TryOutReadingsProps): ReactNode {
  const [selected, setSelected] = useState(0);
  const tried = useMemo(() => ({ ...record, readings: tryOut.readings }), [record, tryOut.readings]);
  const changeRecord = useCallback<ChangeRecord>(
    (edit, key) =>
      onChange((now) => {
        const { readings } = edit({ ...record, readings: now.readings });
        return readings === now.readings ? now : { ...now, readings };
      }, key),
    [record, onChange],
  );
  const state = useReadingsTable({ record: tried, entry, firstView: 'lesson', onSelect: setSelected, onChange: changeRecord, onSettle });
  const last = tried.readings.length - 1;
  const chosen = tried.readings[selected];
  return (
    <div className="try-out__readings">
      <Choice legend={sayReadings('columns')} options={tableViewChoices()} value={state.view} onChange={state.setView} />
      <TypedReadings state={state} record={tried} analysis={null} hasSwing={false} entry={entry} selected={selected} onSelect={setSelected} />
      <p className="button-row button-row--wraps">
        <button
          type="button"
          disabled={tried.readings.length >= MOST_READINGS}
          onClick={() => changeRecord((now) => withAddedReading(now, last, now.readings[last]?.note ?? record.home?.note ?? 'F4'))}
        >
          {sayTryOuts('addReading')}
        </button>
        {chosen === undefined ? null : (
          <button type="button" className="quiet" onClick={() => changeRecord((now) => withoutReading(now, selected))}>
            {sayTryOuts('takeOut', { note: noteAsShown(chosen.note, entry) })}
          </button>
        )}
      </p>
    </div>
  );
}
