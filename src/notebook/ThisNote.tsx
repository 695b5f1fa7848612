import { type ReactNode, useState } from 'react';
import type { Analysis, KnownHorn, ReadingAnalysis } from '../core/analysis';
import type { ReadingBand } from '../core/bands';
import { seenAngles } from '../core/readings';
import type { PlayerRecord, TravelSpec } from '../core/specs';
import { type Moving, MovingText } from './Moving';
import { TravelField, travelLabels } from './TravelFields';
import { type Posture, swingDirection } from '../print/instrumentWords';
import { type AngleMargin, marginOf } from '../print/margin';
import { sayNotebook } from '../words/notebook';
import { fixed } from '../words/numbers';
import { fromHomeWords, unseenAtHomeWords } from './hornWords';
import { SHOWN_FROM_DEG, marginWords } from './margin';
import { noteAsShown } from './noteNames';
import type { EntryStyle } from './props';

export interface ThisNoteProps {
  readonly record: PlayerRecord;
  readonly analysis: Analysis | null;
  readonly result: ReadingAnalysis | undefined;
  /** The same and the travel, in step with a hand that drags. */
  readonly moving: Moving<ReadingAnalysis>;
  readonly movingTravel: Moving<TravelSpec>;
  /** Null until it is known. */
  readonly band: ReadingBand | null;
  readonly selected: number;
  readonly posture: Posture;
  readonly entry: EntryStyle;
  onSelect(index: number): void;
  onTravel(travel: Partial<TravelSpec> | null, key: string): void;
  onSettle(): void;
}

/** The two that matter, first and large: the travel that goes in and the angle that comes out. */
export function ThisNote(props: ThisNoteProps): ReactNode {
  const { record, analysis, result, moving, band, selected, posture, entry, onSelect } = props;
  const lastBand = useLastKnown(band);
  const reading = record.readings[selected];
  if (reading === undefined) {
    return (
      <section className="this-note" aria-labelledby="this-note-heading">
        <h2 id="this-note-heading">{sayNotebook('noNote')}</h2>
        <p className="note">{sayNotebook('noNoteHint')}</p>
      </section>
    );
  }
  const note = noteAsShown(reading.note, entry);
  const takes = result?.sources.filter((at) => record.readings[at]?.travel !== undefined).length ?? 0;
  const takeNumber = reading.take ?? 1;
  const labels = travelLabels(entry);
  const margin = lastBand === null ? null : marginOf(lastBand.change);
  const shared = {
    travel: reading.travel,
    moving: props.movingTravel,
    rim: record.rim,
    entry,
    size: 'large',
    onChange: props.onTravel,
    onSettle: props.onSettle,
    onFocus: () => onSelect(selected),
  } as const;
  return (
    <section className="this-note" aria-labelledby="this-note-heading">
      <div className="this-note__head">
        <h2 id="this-note-heading">
          {sayNotebook('atNote', { note, direction: reading.direction ?? 'both' })}
          {takes < 2 ? null : <span className="this-note__take"> {sayNotebook('takeOf', { number: takeNumber, count: takes })}</span>}
        </h2>
        <div className="button-row">
          <button type="button" className="quiet" disabled={selected === 0} onClick={() => onSelect(selected - 1)}>
            {sayNotebook('noteBefore')}
          </button>
          <button
            type="button"
            className="quiet"
            disabled={selected === record.readings.length - 1}
            onClick={() => onSelect(selected + 1)}
          >
            {sayNotebook('nextNote')}
          </button>
        </div>
      </div>
      <div className="in-and-out">
        <div className="in-and-out__part" key={selected}>
          <h3>{sayNotebook('travelIn')}</h3>
          <TravelField {...shared} axis="up" label={labels.up} />
          <TravelField {...shared} axis="sideways" label={labels.sideways} />
        </div>
        <div className="in-and-out__part predicted-ink" data-testid="angle-out">
          <h3>{sayNotebook('angleOut')}</h3>
          {result === undefined ? (
            <p className="note">
              {reading.travel === undefined ? sayNotebook('nothingSeen', { note }) : sayNotebook('noAngle')}
            </p>
          ) : (
            <>
              <AngleOut axis="elevation" posture={posture} moving={moving} margin={margin} known={band !== null} />
              <AngleOut axis="lateral" posture={posture} moving={moving} margin={margin} known={band !== null} />
              {takes < 2 ? null : <p className="note">{sayNotebook('meanOfTakes', { takes })}</p>}
              <HowSure band={band} lastBand={lastBand} jawSeen={result.jawKnown || 'single' in record.arch} />
              <HornAsMeasured result={result} moving={moving} home={analysis?.home.measured ?? null} />
            </>
          )}
        </div>
      </div>
    </section>
  );
}

/** The last that was known: while the next is worked out its room is kept, so that nothing below moves under a hand that drags. */
function useLastKnown(band: ReadingBand | null): ReadingBand | null {
  const [kept, setKept] = useState(band);
  if (band !== null && band !== kept) setKept(band);
  return band ?? kept;
}

interface AngleOutProps {
  readonly axis: 'elevation' | 'lateral';
  readonly posture: Posture;
  readonly moving: Moving<ReadingAnalysis>;
  readonly margin: AngleMargin | null;
  /** False: the margin is that of an earlier travel, there for its room only. */
  readonly known: boolean;
}

function AngleOut({ axis, posture, moving, margin, known }: AngleOutProps): ReactNode {
  const marginDeg = margin?.[`${axis}Deg`] ?? 0;
  const valueOf = ({ changeFromHome }: ReadingAnalysis): number => changeFromHome[`${axis}Deg`];
  return (
    <p className="angle-out">
      <MovingText className="angle-out__number" of={moving} words={(result) => `${fixed(Math.abs(valueOf(result)), 1)}°`} />{' '}
      {marginDeg < SHOWN_FROM_DEG ? null : (
        <span className={known ? 'angle-out__margin' : 'angle-out__margin room-only'}>± {fixed(marginDeg, 1)}°</span>
      )}{' '}
      <MovingText className="angle-out__words" of={moving} words={(result) => swingDirection(posture, axis, valueOf(result))} />
    </p>
  );
}

interface HowSureProps {
  readonly band: ReadingBand | null;
  readonly lastBand: ReadingBand | null;
  readonly jawSeen: boolean;
}

function HowSure({ band, lastBand, jawSeen }: HowSureProps): ReactNode {
  return (
    <div className="how-sure">
      <p className="note">{marginWords(band, jawSeen)}</p>
      {band === null && lastBand !== null ? <p className="note room-only">{marginWords(lastBand, jawSeen)}</p> : null}
    </div>
  );
}

interface HornAsMeasuredProps {
  readonly result: ReadingAnalysis;
  readonly moving: Moving<ReadingAnalysis>;
  readonly home: KnownHorn | null;
}

function HornAsMeasured({ result, moving, home }: HornAsMeasuredProps): ReactNode {
  if (result.predictedHorn === null || home === null) {
    return <p className="note">{sayNotebook('changeOnly')}</p>;
  }
  return (
    <p className="note">
      <MovingText of={moving} words={({ predictedHorn }) => fromHomeWords(predictedHorn ?? seenAngles(home), result.measured)} /> {unseenAtHomeWords(home)}
    </p>
  );
}
