import { type KeyboardEvent, type ReactNode, useContext, useId, useState } from 'react';
import { sayNotebook } from '../words/notebook';
import { FieldOwner } from './fieldOwner';
import { type Moving, useMoving } from './Moving';
import { type NumberRange, formatNumber, rangeWords, readNumber, steppedNumber, unitAfterNumber } from './numberText';

export interface NumberFieldProps {
  /** The field's name, seen or (with `labelHidden`) only heard. */
  readonly label: string;
  readonly labelHidden?: boolean;
  readonly value: number | null;
  /** The value between two drawings of the page, where it moves faster than that. */
  readonly moving?: Moving<number> | undefined;
  readonly range: NumberRange;
  /** One press of the up or down arrow key; with Shift ten of them. */
  readonly step: number;
  /** What the first press puts into an empty field; 0 and a step from there where left out. */
  readonly start?: number | undefined;
  /** Decimals shown while the field is not being typed in. */
  readonly places: number;
  /** May be left empty, which gives `null` when the field is left: emptied to be typed anew it takes nothing away. */
  readonly optional?: boolean;
  readonly size?: 'large' | 'normal' | 'cell';
  /** Words below the field. */
  readonly hint?: ReactNode | undefined;
  /** The column's name where the field is a cell of a table, so that Enter can find the cell below. */
  readonly cell?: string;
  /** `key` is the same for all changes made in one visit to the field. */
  onChange(value: number | null, key: string): void;
  /** The field was left. */
  onSettle?(): void;
  onFocus?(): void;
  onEnter?(event: KeyboardEvent<HTMLInputElement>): void;
}

/** A number that can be typed where it stands. A wrong one is kept as typed, marked, and answered in words; Escape takes it back. */
export function NumberField(props: NumberFieldProps): ReactNode {
  const { label, labelHidden, value, range, step, places, optional, size = 'normal', hint } = props;
  const id = useId();
  const [typed, setTyped] = useState<string | null>(null);
  const [visit, setVisit] = useState({ count: 0, valueBefore: value });
  const owner = useContext(FieldOwner);
  const [typedFor, setTypedFor] = useState(owner);
  // Somebody else's lesson has come onto the page, perhaps in the middle of a number: Escape must not put the last one's into it.
  if (typedFor !== owner) {
    setTypedFor(owner);
    setTyped(null);
    setVisit({ count: visit.count + 1, valueBefore: value });
  }
  const shown = typed ?? (value === null ? '' : formatNumber(value, places));
  const reading = typed === null ? null : readNumber(typed, range);
  const wrongWords =
    reading?.kind === 'wrong'
      ? reading.words
      : reading?.kind === 'empty' && optional !== true
        ? sayNotebook('numberNeeded', { range: rangeWords(range) })
        : null;
  const key = `${id}:${visit.count}`;
  const input = useMoving<HTMLInputElement, number>(props.moving, (element, now) => {
    // Not while it is being typed in, which would move the caret: there React alone writes.
    if (typed === null && element.ownerDocument.activeElement !== element) element.value = formatNumber(now, places);
  });

  const take = (text: string): void => {
    setTyped(text);
    const next = readNumber(text, range);
    if (next.kind === 'number' && next.value !== value) props.onChange(next.value, key);
  };
  const onKeyDown = (event: KeyboardEvent<HTMLInputElement>): void => {
    if (event.key === 'ArrowUp' || event.key === 'ArrowDown') {
      event.preventDefault();
      const direction = event.key === 'ArrowUp' ? 1 : -1;
      const next = steppedNumber(value, direction * step * (event.shiftKey ? 10 : 1), range, props.start);
      if (next !== null) take(formatNumber(next, Math.max(places, 3)));
    } else if (event.key === 'Escape') {
      setTyped(null);
      if (visit.valueBefore !== value) props.onChange(visit.valueBefore, key);
    } else if (event.key === 'Enter') {
      if (wrongWords === null) setTyped(null);
      if (reading?.kind === 'empty' && optional === true && value !== null) props.onChange(null, key);
      props.onEnter?.(event);
    }
  };

  const described = [hint !== undefined && `${id}-hint`, wrongWords !== null && `${id}-wrong`].filter(Boolean).join(' ');
  return (
    <div className={`number-field number-field--${size}`}>
      <label htmlFor={id} className={labelHidden === true ? 'only-heard' : 'number-field__label'}>
        {label}
        {labelHidden === true && range.unit !== '' ? `, ${range.unit}` : null}
      </label>
      <span className="number-field__box" data-wrong={wrongWords !== null}>
        <input
          ref={input}
          id={id}
          type="text"
          // Phones' decimal pads have no minus sign.
          inputMode={range.min < 0 ? 'text' : 'decimal'}
          autoComplete="off"
          spellCheck={false}
          data-cell={props.cell}
          value={shown}
          aria-invalid={wrongWords !== null}
          aria-describedby={described === '' ? undefined : described}
          onChange={(event) => take(event.target.value)}
          onKeyDown={onKeyDown}
          onFocus={(event) => {
            setVisit({ count: visit.count + 1, valueBefore: value });
            event.target.select();
            props.onFocus?.();
          }}
          onBlur={() => {
            if (wrongWords === null) setTyped(null);
            if (reading?.kind === 'empty' && optional === true && value !== null) props.onChange(null, key);
            props.onSettle?.();
          }}
        />
        {range.unit === '' ? null : (
          <span className="number-field__unit" aria-hidden="true">
            {unitAfterNumber(range.unit)}
          </span>
        )}
      </span>
      {hint === undefined ? null : (
        <span id={`${id}-hint`} className="number-field__hint">
          {hint}
        </span>
      )}
      {wrongWords === null ? null : (
        <span id={`${id}-wrong`} className="number-field__wrong" role="alert">
          <strong>{sayNotebook('notTaken')}</strong> {wrongWords}
        </span>
      )}
    </div>
  );
}
