import type { ReactNode } from 'react';
import { NumberField, type NumberFieldProps } from './NumberField';
import type { FieldShape } from './ranges';

export interface FieldProps extends Omit<NumberFieldProps, 'range' | 'step' | 'places'> {
  readonly shape: FieldShape;
  /** Narrows the shape's range where another number limits this one. */
  readonly within?: { readonly min?: number; readonly max?: number; readonly aboveMin?: boolean };
}

/** A number of the record, with the range and the step that belong to it. */
export function Field({ shape, within, ...rest }: FieldProps): ReactNode {
  return <NumberField {...rest} range={{ ...shape.range, ...within }} step={shape.step} places={shape.places} />;
}

export interface RequiredFieldProps extends Omit<FieldProps, 'onChange' | 'optional' | 'value'> {
  readonly value: number;
  onChange(value: number, key: string): void;
}

/** The same for a number that cannot be left out. */
export function RequiredField({ onChange, ...rest }: RequiredFieldProps): ReactNode {
  return (
    <Field
      {...rest}
      onChange={(value, key) => {
        if (value !== null) onChange(value, key);
      }}
    />
  );
}
