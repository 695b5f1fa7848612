import type { ReactNode } from 'react';
import { CAUTIONS, type CautionName } from '../print/cautionWords';

/** A short caution where it applies: a word as well as a colour. */
export function Caution({ about }: { readonly about: CautionName }): ReactNode {
  return (
    <p className="caution">
      <strong>Caution.</strong> {CAUTIONS[about]}
    </p>
  );
}
