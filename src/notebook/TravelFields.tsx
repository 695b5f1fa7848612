import { type KeyboardEvent, type ReactNode, useMemo } from 'react';
import type { RimSpec, TravelSpec } from '../core/specs';
import { sayNotebook } from '../words/notebook';
import { Field } from './Fields';
import type { Moving } from './Moving';
import { sidewaysLabel, sidewaysSign, unitMm } from './entry';
import type { EntryStyle } from './props';
import { FIELDS, type FieldShape } from './ranges';
import { tidyMm } from './recordEdits';

export interface TravelFieldProps {
  readonly axis: 'up' | 'sideways';
  /** The whole name for those who hear it; the seen label is above the column or above the field. */
  readonly label: string;
  readonly labelHidden?: boolean;
  /** Absent where nobody saw it. */
  readonly travel: Pick<TravelSpec, 'upMm' | 'rightMm'> | undefined;
  /** The same, in step with a hand that drags the rim. */
  readonly moving?: Moving<Pick<TravelSpec, 'upMm' | 'rightMm'>>;
  readonly rim: RimSpec;
  readonly entry: Pick<EntryStyle, 'sideways' | 'unit'>;
  readonly size: 'large' | 'cell';
  readonly cell?: string;
  /** `null`: the field was left empty, which takes the travel away. */
  onChange(travel: Partial<TravelSpec> | null, key: string): void;
  onSettle(): void;
  onFocus?(): void;
  onEnter?(event: KeyboardEvent<HTMLInputElement>): void;
}

/** One number of the travel, as the reader chose to type it; the record is given millimetres and the player's own right. */
export function TravelField({ axis, travel, moving, rim, entry, onChange, ...rest }: TravelFieldProps): ReactNode {
  const factor = (axis === 'up' ? 1 : sidewaysSign(entry.sideways)) * unitMm(entry.unit, rim);
  const field = axis === 'up' ? 'upMm' : 'rightMm';
  const movingValue = useMemo(
    () => moving && { subscribe: moving.subscribe, current: () => partOf(moving.current()?.[field], factor) },
    [moving, field, factor],
  );
  return (
    <Field
      {...rest}
      optional
      value={travel === undefined ? null : travel[field] / factor}
      moving={movingValue}
      shape={shapeIn(entry, rim)}
      onChange={(shown, key) => {
        onChange(shown === null ? null : { [field]: tidyMm(shown * factor) }, key);
      }}
    />
  );
}

const partOf = (mm: number | undefined, factor: number): number | undefined => (mm === undefined ? undefined : mm / factor);

/** "up, mm" and "to the player's right, mm", as the columns are headed. */
export function travelLabels(entry: Pick<EntryStyle, 'sideways' | 'unit'>): { readonly up: string; readonly sideways: string } {
  return { up: sayNotebook('up'), sideways: sidewaysLabel(entry.sideways) };
}

function shapeIn(entry: Pick<EntryStyle, 'unit'>, rim: RimSpec): FieldShape {
  if (entry.unit === 'mm') return FIELDS.travel;
  const limit = Number((FIELDS.travel.range.max / unitMm(entry.unit, rim)).toFixed(2));
  return { range: { min: -limit, max: limit, unit: sayNotebook('rimWidthUnit') }, step: 0.02, places: 3 };
}
