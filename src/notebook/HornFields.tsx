import { type KeyboardEvent, type ReactNode, useState } from 'react';
import type { HornSpec } from '../core/specs';
import { Field } from './Fields';
import { FIELDS } from './ranges';

export interface HornFieldsProps {
  readonly note: string;
  readonly horn: HornSpec | undefined;
  /** `null` takes the measured angle away. */
  onChange(horn: HornSpec | null, key: string): void;
  onSettle(): void;
  onFocus(): void;
  onEnter(event: KeyboardEvent<HTMLInputElement>): void;
}

type Half = 'elevationDeg' | 'lateralDeg';

/**
 * The measured horn angle in two cells. A record keeps both or neither, so a half that is typed first waits here, in its
 * cell, and goes to the record when the other half is there.
 */
export function HornFields({ note, horn, onChange, onSettle, onFocus, onEnter }: HornFieldsProps): ReactNode {
  const [waiting, setWaiting] = useState<Partial<Record<Half, number>>>({});
  const valueOf = (half: Half): number | null => horn?.[half] ?? waiting[half] ?? null;
  const change = (half: Half, other: Half) => (value: number | null, key: string): void => {
    const otherValue = valueOf(other);
    if (value !== null && otherValue !== null) {
      setWaiting({});
      onChange({ ...horn, elevationDeg: 0, lateralDeg: 0, [half]: value, [other]: otherValue }, key);
      return;
    }
    setWaiting({ ...(value !== null && { [half]: value }), ...(otherValue !== null && { [other]: otherValue }) });
    if (horn !== undefined) onChange(null, key);
  };
  const waits = Object.keys(waiting).length > 0 && horn === undefined;
  const shared = { labelHidden: true, size: 'cell', optional: true, shape: FIELDS.hornAngle, onSettle, onFocus, onEnter } as const;
  return (
    <>
      <td className="measured-ink">
        <Field
          {...shared}
          label={`${note}, horn measured up`}
          cell="horn-up"
          value={valueOf('elevationDeg')}
          hint={waits && waiting.elevationDeg === undefined ? 'needed too' : undefined}
          onChange={change('elevationDeg', 'lateralDeg')}
        />
      </td>
      <td className="measured-ink">
        <Field
          {...shared}
          label={`${note}, horn measured to the player’s right`}
          cell="horn-right"
          value={valueOf('lateralDeg')}
          hint={waits && waiting.lateralDeg === undefined ? 'needed too' : undefined}
          onChange={change('lateralDeg', 'elevationDeg')}
        />
      </td>
    </>
  );
}
