/** What scale and perspective of a picture or a film hang on: its lens, a mark along the horn, and the lesson's rim. */
import type { ReactNode } from 'react';
import { NumberField } from '../NumberField';
import { sayMarking } from '../../words/marking';
import type { DraftMarks } from './marksEdits';
import type { LensShown } from './props';

export interface LensFieldProps {
  readonly lens: LensShown;
  /** null: what was typed is taken back. */
  onLens(millimetres: number | null): void;
}

export function LensField({ lens: { millimetres, from }, onLens }: LensFieldProps): ReactNode {
  return (
    <NumberField
      label={sayMarking('lens')}
      value={Number(millimetres.toFixed(1))}
      range={LENS_RANGE}
      step={1}
      places={1}
      optional
      hint={sayMarking(LENS_HINTS[from])}
      onChange={onLens}
    />
  );
}

export interface HornMarkFieldProps {
  readonly mark: DraftMarks['hornMarkMm'];
  readonly hint: string;
  onHornMark(mark: DraftMarks['hornMarkMm']): void;
}

export function HornMarkField({ mark, hint, onHornMark }: HornMarkFieldProps): ReactNode {
  return (
    <NumberField
      label={sayMarking('hornMark')}
      value={mark?.value ?? null}
      range={HORN_MARK_RANGE}
      step={5}
      places={0}
      optional
      hint={hint}
      onChange={(value) => onHornMark(value === null ? null : { value, sd: hornMarkSdMm(value) })}
    />
  );
}

export function RimScale({ outerDiameterMm }: { readonly outerDiameterMm: number }): ReactNode {
  return (
    <p className="note">
      {sayMarking('rimScale', { outerMm: outerDiameterMm })} <a href="#player">{sayMarking('rimScaleChapter')}</a> {sayMarking('rimScaleRest')}
    </p>
  );
}

/** Full-frame millimetres: from a wide phone lens to a long one. */
const LENS_RANGE = { min: 10, max: 400, unit: 'mm' } as const;
const LENS_HINTS = { picture: 'lensFromPicture', person: 'lensTyped', assumed: 'lensAssumed' } as const satisfies Readonly<Record<LensShown['from'], string>>;
const HORN_MARK_RANGE = { min: 0, max: 1500, unit: 'mm', aboveMin: true } as const;
/** How well a ruler along a tube is read, mm, and how well it lies along one that is long: our judgement. */
const hornMarkSdMm = (value: number): number => Math.max(1, 0.02 * value);
