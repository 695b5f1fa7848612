import { type ReactNode, useId } from 'react';
import type { JawSpec, MeasuringMethod, PlayerRecord, PlayingDirection, ReadingSpec } from '../../core/specs';
import { hasAngle, withAngleSd } from '../../records/readingParts';
import { LONGEST_REMARK } from '../../records/readingRanges';
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
  { value: '', label: 'not said' },
  { value: 'eye', label: 'by eye (±1.5 mm)' },
  { value: 'ruler', label: 'with a ruler (±1 mm)' },
  { value: 'video', label: 'from video (±0.3 mm)' },
  { value: 'picture', label: 'from a picture (±0.7 mm)' },
];
const DIRECTIONS = [
  { value: '', label: 'either' },
  { value: 'up', label: 'on the way up' },
  { value: 'down', label: 'on the way down' },
];

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
      <summary>More about {noteLabel}: how it was measured, jaw, force, remark</summary>
      <div className="fields">
        <Picker
          label="Measured"
          options={METHODS}
          value={reading.method ?? ''}
          onChange={(method) =>
            edit((one) => (method === '' ? without(one, 'method') : { ...one, method: method as MeasuringMethod }))}
        />
        {travel === undefined ? null : <Field
          label="Travel, give or take"
          optional
          value={travel.sdMm ?? null}
          shape={FIELDS.deviation}
          hint="one standard deviation; empty: by the method"
          onChange={(sdMm, key) =>
            edit((one) => ({ ...one, travel: sdMm === null ? without(travel, 'sdMm') : { ...travel, sdMm } }), key)}
          onSettle={onSettle}
        />}
        {!hasAngle(reading, 'elevationDeg') ? null : (
          <Field
            label="Horn angle, give or take"
            optional
            value={horn?.sdDeg ?? null}
            shape={FIELDS.hornDeviation}
            onChange={(sdDeg, key) => edit((one) => withAngleSd(one, 'sdDeg', sdDeg), key)}
            onSettle={onSettle}
          />
        )}
        {!hasAngle(reading, 'lateralDeg') ? null : (
          <Field
            label="Horn angle to the right, give or take"
            optional
            value={horn?.lateralSdDeg ?? null}
            shape={FIELDS.hornDeviation}
            hint={hasAngle(reading, 'elevationDeg') ? 'empty: as above' : undefined}
            onChange={(lateralSdDeg, key) => edit((one) => withAngleSd(one, 'lateralSdDeg', lateralSdDeg), key)}
            onSettle={onSettle}
          />
        )}
        <Picker
          label="Seen"
          options={DIRECTIONS}
          value={reading.direction ?? ''}
          onChange={(direction) =>
            edit((one) => (direction === '' ? without(one, 'direction') : { ...one, direction: direction as PlayingDirection }))}
        />
        <Field
          label="Force at this note"
          optional
          value={reading.force?.newtons ?? null}
          shape={FIELDS.force}
          hint={`empty: ${record.force.newtons} N as for the player`}
          onChange={(newtons, key) => edit((one) => (newtons === null ? without(one, 'force') : { ...one, force: { newtons } }), key)}
          onSettle={onSettle}
        />
      </div>
      <div className="picker reading-details__remark">
        <label htmlFor={remarkId}>Remark</label>
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
  { name: 'openingMm', label: 'Jaw opening', shape: FIELDS.opening },
  { name: 'forwardMm', label: 'Jaw forward', shape: FIELDS.forward },
  { name: 'hingeDeg', label: 'Jaw turned open', shape: FIELDS.hinge },
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
        {known
          ? 'The jaw was seen at this note.'
          : 'The jaw was not seen at this note: it is taken as in the arch, and half a millimetre of it turns the elevation by about a degree.'}
      </p>
      <div className="fields">
        {JAW_FIELDS.map(({ name, label, shape }) => (
          <Field
            key={name}
            label={label}
            optional
            value={reading.jaw?.[name] ?? null}
            shape={shape}
            hint={`empty: ${archJaw[name]} as in the arch`}
            onChange={(value, key) => set(name, value, key)}
            onSettle={onSettle}
          />
        ))}
      </div>
    </>
  );
}
