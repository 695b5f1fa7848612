import { type ReactNode, useId } from 'react';

export interface ChoiceOption<T extends string> {
  readonly value: T;
  readonly label: string;
}

export interface ChoiceProps<T extends string> {
  readonly legend: string;
  readonly legendHidden?: boolean;
  readonly options: readonly ChoiceOption<T>[];
  readonly value: T;
  onChange(value: T): void;
}

/** A few words of which one holds: a real radio group that looks like words set side by side. */
export function Choice<T extends string>({ legend, legendHidden, options, value, onChange }: ChoiceProps<T>): ReactNode {
  const name = useId();
  return (
    <fieldset className="choice">
      <legend className={legendHidden === true ? 'only-heard' : 'choice__legend'}>{legend}</legend>
      <div className="choice__options">
        {options.map((option) => (
          <label key={option.value} className="choice__option">
            <input
              type="radio"
              name={name}
              value={option.value}
              checked={option.value === value}
              onChange={() => onChange(option.value)}
            />
            <span>{option.label}</span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}

export interface PickerOption {
  readonly value: string;
  readonly label: string;
}

export interface PickerProps {
  readonly label: string;
  readonly options: readonly PickerOption[];
  readonly value: string;
  readonly hint?: ReactNode | undefined;
  onChange(value: string): void;
}

/** One of many, by name. */
export function Picker({ label, options, value, hint, onChange }: PickerProps): ReactNode {
  const id = useId();
  return (
    <div className="picker">
      <label htmlFor={id}>{label}</label>
      <select
        id={id}
        value={value}
        aria-describedby={hint === undefined ? undefined : `${id}-hint`}
        onChange={(event) => onChange(event.target.value)}
      >
        {options.map((option) => (
          <option key={option.value} value={option.value}>
            {option.label}
          </option>
        ))}
      </select>
      {hint === undefined ? null : (
        <span id={`${id}-hint`} className="number-field__hint">
          {hint}
        </span>
      )}
    </div>
  );
}
