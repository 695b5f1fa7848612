import type { ReactNode } from 'react';
import { CAUTIONS, type CautionName } from '../print/cautionWords';
import { sayNotebook } from '../words/notebook';

/** A short caution where it applies: a word as well as a colour. */
export function Caution({ about }: { readonly about: CautionName }): ReactNode {
  return (
    <p className="caution">
      <strong>{sayNotebook('caution')}</strong> {CAUTIONS[about]}
    </p>
  );
}
