import { type ReactNode, useId } from 'react';
import type { JawSpec, MeasuringMethod, PlayerRecord, PlayingDirection, ReadingSpec } from '../../core/specs';
import { hasAngle, withAngleSd, withTravelSd } from '../../records/readingParts';
import { LONGEST_REMARK } from '../../records/readingRanges';
import { sayReadings } from '../../words/readings';
import { Picker } from '../Choice';
import { Field } from '../Fields';
import type { ChangeRecord } from '../props';
import { FIELDS } from '../ranges';
import { without, withReading } from '../recordEdits';

export interface ReadingDetailsProps {
  readonly record: PlayerRecord;
  readonly index: number;
  readonly noteLabel: string;
  readonly knownJaw: boolean;
  onChange: ChangeRecord;
  onSettle(): void;
}

const METHODS = [
  { value: '', label: 'notSaid' },
  { value: 'eye', label: 'byEye' },
  { value: 'ruler', label: 'withRuler' },
  { value: 'video', label: 'fromVideo' },
  { value: 'picture', label: 'fromPicture' },
] as const;
const DIRECTIONS = [
  { value: '', label: 'either' },
  { value: 'up', label: 'wayUp' },
  { value: 'down', label: 'wayDown' },
] as const;

/** What else can be known about one reading: how sure it is, and where jaw and force stood. */
export function ReadingDetails({ record, index, noteLabel, knownJaw, onChange, onSettle }: ReadingDetailsProps): ReactNode {
  const remarkId = useId();
  const reading = record.readings[index];
  if (reading === undefined) return null;
  const edit = (change: (one: ReadingSpec) => ReadingSpec, key: string | null = null): void =>
    onChange((now) => withReading(now, index, change), key);
  const { travel, horn } = reading;
  return (
    <details className="reading-details">
      <summary>{sayReadings('moreAbout', { note: noteLabel })}</summary>
      <div className="fields">
        <Picker
          label={sayReadings('measured')}
          options={METHODS.map(({ value, label }) => ({ value, label: sayReadings(label) }))}
          value={reading.method ?? ''}
          onChange={(method) =>
            edit((one) => (method === '' ? without(one, 'method') : { ...one, method: method as MeasuringMethod }))}
        />
        {travel === undefined ? null : <Field
          label={sayReadings('travelGive')}
          optional
          value={travel.sdMm ?? null}
          shape={FIELDS.deviation}
          hint={sayReadings('travelGiveHint')}
          onChange={(sdMm, key) => edit((one) => withTravelSd(one, 'sdMm', sdMm), key)}
          onSettle={onSettle}
        />}
        {travel === undefined ? null : <Field
          label={sayReadings('travelRightGive')}
          optional
          value={travel.rightSdMm ?? null}
          shape={FIELDS.deviation}
          hint={sayReadings('emptyAsAbove')}
          onChange={(rightSdMm, key) => edit((one) => withTravelSd(one, 'rightSdMm', rightSdMm), key)}
          onSettle={onSettle}
        />}
        {!hasAngle(reading, 'elevationDeg') ? null : (
          <Field
            label={sayReadings('hornGive')}
            optional
            value={horn?.sdDeg ?? null}
            shape={FIELDS.hornDeviation}
            onChange={(sdDeg, key) => edit((one) => withAngleSd(one, 'sdDeg', sdDeg), key)}
            onSettle={onSettle}
          />
        )}
        {!hasAngle(reading, 'lateralDeg') ? null : (
          <Field
            label={sayReadings('hornRightGive')}
            optional
            value={horn?.lateralSdDeg ?? null}
            shape={FIELDS.hornDeviation}
            hint={hasAngle(reading, 'elevationDeg') ? sayReadings('emptyAsAbove') : undefined}
            onChange={(lateralSdDeg, key) => edit((one) => withAngleSd(one, 'lateralSdDeg', lateralSdDeg), key)}
            onSettle={onSettle}
          />
        )}
        <Picker
          label={sayReadings('seen')}
          options={DIRECTIONS.map(({ value, label }) => ({ value, label: sayReadings(label) }))}
          value={reading.direction ?? ''}
          onChange={(direction) =>
            edit((one) => (direction === '' ? without(one, 'direction') : { ...one, direction: direction as PlayingDirection }))}
        />
        <Field
          label={sayReadings('forceHere')}
          optional
          value={reading.force?.newtons ?? null}
          shape={FIELDS.force}
          hint={sayReadings('emptyForce', { newtons: record.force.newtons })}
          onChange={(newtons, key) => edit((one) => (newtons === null ? without(one, 'force') : { ...one, force: { newtons } }), key)}
          onSettle={onSettle}
        />
      </div>
      <div className="picker reading-details__remark">
        <label htmlFor={remarkId}>{sayReadings('remark')}</label>
        <textarea
          id={remarkId}
          rows={2}
          maxLength={LONGEST_REMARK}
          value={reading.remark ?? ''}
          onChange={({ target: { value } }) => edit((one) => (value === '' ? without(one, 'remark') : { ...one, remark: value }), remarkId)}
          onBlur={onSettle}
        />
      </div>
      {'single' in record.arch ? null : (
        <JawPart reading={reading} archJaw={record.arch.jaw} known={knownJaw} edit={edit} onSettle={onSettle} />
      )}
    </details>
  );
}

interface JawPartProps {
  readonly reading: ReadingSpec;
  readonly archJaw: JawSpec;
  readonly known: boolean;
  edit(change: (one: ReadingSpec) => ReadingSpec, key?: string | null): void;
  onSettle(): void;
}

const JAW_FIELDS = [
  { name: 'openingMm', label: 'jawOpening', shape: FIELDS.opening },
  { name: 'forwardMm', label: 'jawForward', shape: FIELDS.forward },
  { name: 'hingeDeg', label: 'jawHinge', shape: FIELDS.hinge },
] as const;

function JawPart({ reading, archJaw, known, edit, onSettle }: JawPartProps): ReactNode {
  const set = (name: (typeof JAW_FIELDS)[number]['name'], value: number | null, key: string): void =>
    edit((one) => {
      const jaw = value === null ? without(one.jaw ?? {}, name) : { ...one.jaw, [name]: value };
      return Object.keys(jaw).length === 0 ? without(one, 'jaw') : { ...one, jaw };
    }, key);
  return (
    <>
      <p className="note">
        {sayReadings(known ? 'jawSeen' : 'jawUnseen')}
      </p>
      <div className="fields">
        {JAW_FIELDS.map(({ name, label, shape }) => (
          <Field
            key={name}
            label={sayReadings(label)}
            optional
            value={reading.jaw?.[name] ?? null}
            shape={shape}
            hint={sayReadings('emptyJaw', { value: archJaw[name] })}
            onChange={(value, key) => set(name, value, key)}
            onSettle={onSettle}
          />
        ))}
      </div>
    </>
  );
}
