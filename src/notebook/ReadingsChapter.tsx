import { type KeyboardEvent, type ReactNode, memo, useCallback, useRef } from 'react';
import type { Analysis, ReadingAnalysis } from '../core/analysis';
import { midiOf, noteName } from '../core/pitch';
import type { HornSpec, PlayerRecord, ReadingSpec, RimSpec } from '../core/specs';
import { Caution } from './Cautions';
import { Choice } from './Choice';
import { HornFields } from './HornFields';
import { NoteField } from './NoteField';
import { problemWords } from './Problems';
import { ReadingDetails } from './ReadingDetails';
import { TravelField, travelLabels } from './TravelFields';
import { rimWidthMm, sidewaysExplanation, type LengthUnit, type SidewaysEntry } from './entry';
import { shownNote } from './noteNames';
import { formatFixed, formatNumber } from './numberText';
import type { ChangeRecord, EntryStyle } from './props';
import { withAddedReading, withReading, withTravel, without } from './recordEdits';

export interface ReadingsChapterProps {
  readonly record: PlayerRecord;
  readonly analysis: Analysis | null;
  readonly selected: number;
  readonly entry: EntryStyle;
  /** The travel charts, drawn elsewhere. */
  readonly charts: ReactNode;
  onSelect(index: number): void;
  onChange: ChangeRecord;
  onSettle(): void;
  onEntry(entry: { readonly sideways?: SidewaysEntry; readonly unit?: LengthUnit; readonly noteNames?: EntryStyle['noteNames'] }): void;
}

/** The measured notes, one a row: travel in, the horn as measured if it was, and the swing that is predicted. */
export function ReadingsChapter(props: ReadingsChapterProps): ReactNode {
  const { record, analysis, selected, entry, onChange } = props;
  const body = useRef<HTMLTableSectionElement>(null);
  const labels = travelLabels(entry);
  const toRowBelow = useCallback((event: KeyboardEvent<HTMLInputElement>): void => {
    const cell = event.currentTarget.dataset['cell'];
    const rows = body.current?.querySelectorAll<HTMLInputElement>(`[data-cell="${cell ?? ''}"]`) ?? [];
    const next = [...rows].indexOf(event.currentTarget) + 1;
    rows[next]?.focus();
  }, []);
  const add = (): void => {
    const last = record.readings.length - 1;
    const note = last < 0 ? 'F4' : noteName(Math.min(127, midiOf(record.readings[last]?.note ?? 'F4') + 2));
    onChange((now) => withAddedReading(now, last, note));
    props.onSelect(last + 1);
  };
  return (
    <section className="chapter" id="readings" aria-labelledby="readings-heading">
      <h2 id="readings-heading">Readings</h2>
      <p className="note">
        Where the rim’s centre stands at a few notes, counted from home. The horn’s angle may be left empty. Tab and Enter go on
        to the next field.
      </p>
      <table className="readings">
        <caption className="only-heard">Readings: travel in, horn as measured, predicted swing from home</caption>
        <thead>
          <tr>
            <th scope="col" rowSpan={2}>
              Note
            </th>
            <th scope="colgroup" colSpan={2}>
              Travel in, {entry.unit}
            </th>
            <th scope="colgroup" colSpan={2} className="measured-ink">
              Horn measured, °
            </th>
            <th scope="colgroup" colSpan={2} className="predicted-ink">
              Predicted swing, °
            </th>
          </tr>
          <tr>
            <th scope="col">{labels.up}</th>
            <th scope="col">{labels.sideways}</th>
            <th scope="col">up</th>
            <th scope="col">right</th>
            <th scope="col">up</th>
            <th scope="col">right</th>
          </tr>
        </thead>
        <tbody ref={body}>
          {record.readings.map((reading, index) => (
            <ReadingRow
              key={index}
              index={index}
              reading={reading}
              result={analysis?.readings.find((one) => one.sources.includes(index))}
              problemWords={wordsFor(props, index)}
              rim={record.rim}
              entry={entry}
              isSelected={index === selected}
              onChange={onChange}
              onSettle={props.onSettle}
              onSelect={props.onSelect}
              onEnter={toRowBelow}
            />
          ))}
        </tbody>
      </table>
      <p>
        <button type="button" onClick={add}>
          Add a note
        </button>
      </p>
      {record.readings[selected] === undefined ? null : (
        <ReadingDetails
          key={selected}
          record={record}
          index={selected}
          noteLabel={shownNote(record.readings[selected].note, entry.shownTransposition)}
          knownJaw={analysis?.readings.some((one) => one.sources.includes(selected) && one.jawKnown) ?? false}
          onChange={onChange}
          onSettle={props.onSettle}
        />
      )}
      <EntryChoices {...props} />
      {props.charts}
      <Caution about="change" />
    </section>
  );
}

interface ReadingRowProps extends Pick<ReadingsChapterProps, 'entry' | 'onChange' | 'onSettle' | 'onSelect'> {
  readonly index: number;
  readonly reading: ReadingSpec;
  readonly result: ReadingAnalysis | undefined;
  readonly problemWords: string | null;
  readonly rim: RimSpec;
  readonly isSelected: boolean;
  onEnter(event: KeyboardEvent<HTMLInputElement>): void;
}

function wordsFor({ analysis, record, entry }: ReadingsChapterProps, index: number): string | null {
  const problem = analysis?.problems.find((one) => one.readingIndex === index);
  return problem === undefined ? null : problemWords(record, problem, entry.shownTransposition);
}

/** Drawn again only when something of this row changed. */
const ReadingRow = memo(ReadingRowCells, (before, now) => {
  const { result: resultBefore, ...restBefore } = before;
  const { result: resultNow, ...restNow } = now;
  return (
    resultBefore?.changeFromHome === resultNow?.changeFromHome &&
    (Object.keys(restNow) as (keyof typeof restNow)[]).every((name) => restBefore[name] === restNow[name])
  );
});

function ReadingRowCells(props: ReadingRowProps): ReactNode {
  const { index, reading, result, rim, entry, isSelected, onChange, onSettle, onSelect, onEnter } = props;
  const note = shownNote(reading.note, entry.shownTransposition);
  const select = (): void => onSelect(index);
  const labels = travelLabels(entry);
  const travelProps = {
    travel: reading.travel,
    rim,
    entry,
    size: 'cell',
    labelHidden: true,
    onChange: (travel: Parameters<typeof withTravel>[2], key: string) => onChange((now) => withTravel(now, index, travel), key),
    onSettle,
    onFocus: select,
    onEnter,
  } as const;
  return (
    <>
      <tr aria-current={isSelected ? 'true' : undefined} data-reading={index} onPointerDown={select}>
        <th scope="row">
          <NoteField
            label={`Note ${index + 1}`}
            note={reading.note}
            transpositionSemitones={entry.shownTransposition}
            cell="note"
            onChange={(next) => onChange((now) => withReading(now, index, (one) => ({ ...one, note: next })))}
            onFocus={select}
            onEnter={onEnter}
          />
        </th>
        <td>
          <TravelField {...travelProps} axis="up" cell="up" label={`${note}, travel up`} />
        </td>
        <td>
          <TravelField {...travelProps} axis="sideways" cell="right" label={`${note}, travel ${labels.sideways}`} />
        </td>
        <HornFields
          note={note}
          horn={reading.horn}
          onChange={(horn, key) => onChange((now) => withReading(now, index, (one) => withHorn(one, horn)), key)}
          onSettle={onSettle}
          onFocus={select}
          onEnter={onEnter}
        />
        <td className="figure predicted-ink">{result === undefined ? '–' : formatFixed(result.changeFromHome.elevationDeg, 1)}</td>
        <td className="figure predicted-ink">{result === undefined ? '–' : formatFixed(result.changeFromHome.lateralDeg, 1)}</td>
      </tr>
      {props.problemWords === null ? null : (
        <tr className="readings__problem">
          <td colSpan={7}>
            <strong>Not shown.</strong> {props.problemWords}
          </td>
        </tr>
      )}
    </>
  );
}

function withHorn(reading: ReadingSpec, horn: HornSpec | null): ReadingSpec {
  return horn === null ? without(reading, 'horn') : { ...reading, horn };
}

const SIDEWAYS = [
  { value: 'player', label: 'the player’s own right' },
  { value: 'mirror', label: 'right, seen in a mirror' },
  { value: 'facing', label: 'right, facing the player' },
] as const;
const UNITS = [
  { value: 'mm', label: 'mm' },
  { value: 'rim widths', label: 'rim widths' },
] as const;
const NAMES = [
  { value: 'sounding', label: 'as sounding' },
  { value: 'written', label: 'as written' },
] as const;

function EntryChoices({ record, entry, onEntry }: ReadingsChapterProps): ReactNode {
  return (
    <details className="entry-choices">
      <summary>How travel is typed and notes are named</summary>
      <Choice legend="Sideways means" options={SIDEWAYS} value={entry.sideways} onChange={(sideways) => onEntry({ sideways })} />
      <p className="note">{sidewaysExplanation(entry.sideways)}</p>
      <Choice legend="Travel in" options={UNITS} value={entry.unit} onChange={(unit) => onEntry({ unit })} />
      <p className="note">
        One rim width is the way from the rim’s inner to its outer edge, here {formatNumber(rimWidthMm(record.rim), 2)}&nbsp;mm.
        The record keeps millimetres.
      </p>
      <Choice legend="Note names" options={NAMES} value={entry.noteNames} onChange={(noteNames) => onEntry({ noteNames })} />
    </details>
  );
}
